package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/manual"
)

// Whatever the width of the terminal, a shell takes the commands that help shows
// word for word as they were written: none is broken but where the shell goes on.
func TestCommandsCanBePasted(t *testing.T) {
	shell, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell is there")
	}
	var pages []manual.Page
	everyCommand(newRootCommand(&app{}), func(cmd *cobra.Command) {
		if page := pageOf(cmd); !strings.HasPrefix(page.Name, "putby completion ") { // the library's
			pages = append(pages, page)
		}
	})
	for _, name := range manual.Topics() {
		topic, _ := manual.Topic(name)
		pages = append(pages, topic)
	}
	var written strings.Builder
	for _, p := range pages {
		written.WriteString("\n" + p.Text + "\n" + p.Examples + "\n")
	}
	want := pasted(t, shell, written.String())
	if len(want) < 150 {
		t.Errorf("help shows %d commands", len(want))
	}
	for _, width := range []int{40, 60, 72, 80, 100, 120} {
		var shown strings.Builder
		for _, p := range pages {
			p.Usage, p.Commands, p.Flags, p.Global = nil, nil, nil, nil
			shown.WriteString("\n" + manual.Help(p, width))
		}
		got := pasted(t, shell, shown.String())
		if len(got) != len(want) {
			t.Errorf("at %d columns help shows %d commands, not %d", width, len(got), len(want))
		}
		for i := range min(len(got), len(want)) {
			if got[i] != want[i] {
				t.Errorf("at %d columns a shell reads\n%s\nnot\n%s", width, got[i], want[i])
			}
		}
	}
}

// pastedLine is the first line of what is typed in a shell, in a text: it is set
// in, and does not end a sentence.
var pastedLine = regexp.MustCompile(`^ +(\$ )?((putby|psql|duckdb|export) .*[^.])$`)

// pasted has a shell read the commands of a text, and is the words of each.
func pasted(t *testing.T, shell, text string) []string {
	t.Helper()
	script := "say() { printf '<%s>' \"$@\"; echo; }\n"
	lines := strings.Split(text, "\n")
	for i := 0; i < len(lines); i++ {
		found := pastedLine.FindStringSubmatch(lines[i])
		if found == nil {
			continue
		}
		script += "say " + found[2] + "\n"
		for strings.HasSuffix(lines[i], `\`) {
			i++
			script += lines[i] + "\n"
		}
	}
	run := exec.Command(shell, "-c", script)
	run.Dir = t.TempDir()
	if err := os.WriteFile(filepath.Join(run.Dir, "load-duckdb.sql"), nil, 0o600); err != nil { // an example reads it
		t.Fatal(err)
	}
	out, err := run.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, script)
	}
	return slices.Collect(strings.Lines(string(out)))
}
