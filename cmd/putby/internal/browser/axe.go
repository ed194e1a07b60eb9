package browser

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// AxePath names the variable that says where axe-core's axe.min.js is: the checks
// of pages for people who have them read out, or use no mouse. `.ci/run` installs
// it.
const AxePath = "PUTBY_AXE"

// Axe returns axe-core, or skips the test where it is not installed.
func Axe(t testing.TB) string {
	t.Helper()
	path := os.Getenv(AxePath)
	if path == "" {
		if cache, err := os.UserCacheDir(); err == nil {
			path = filepath.Join(cache, "putby-ci", "axe", "node_modules", "axe-core", "axe.min.js")
		}
	}
	script, err := os.ReadFile(path)
	switch {
	case err == nil:
	case os.Getenv("CI") == "true":
		t.Fatalf("axe-core is not installed, and CI=true wants its tests run: %v", err)
	default:
		t.Skipf("axe-core is not installed: .ci/run installs it, and %s may name its axe.min.js", AxePath)
	}
	return string(script)
}

// Violations checks the page that is open by axe-core, and returns each rule that
// it breaks with the elements that do; by some rules alone where they are named.
func (t *Tab) Violations(axe string, rules ...string) (list []string) {
	t.b.t.Helper()
	var there bool
	if t.Eval(`typeof axe !== "undefined"`, &there); !there {
		t.Eval(axe+"; null", nil)
	}
	only := ""
	if rules != nil {
		only = fmt.Sprintf(`, runOnly: ["%s"]`, strings.Join(rules, `", "`))
	}
	var found []struct {
		ID, Help string
		Nodes    []struct{ HTML, FailureSummary string }
	}
	t.Eval(`axe.run(document, {resultTypes: ["violations"], preload: false`+only+`}).then(r => r.violations.map(v => ({ID: v.id, Help: v.help, Nodes: v.nodes.slice(0, 3).map(n => ({HTML: n.html.slice(0, 200), FailureSummary: n.failureSummary}))})))`, &found)
	for _, v := range found {
		words := v.ID + ": " + v.Help
		for _, n := range v.Nodes {
			words += fmt.Sprintf("\n  %s\n  %s", n.HTML, n.FailureSummary)
		}
		list = append(list, words)
	}
	return list
}
