package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/clipperhouse/displaywidth"
	"github.com/spf13/cobra"
)

// commands gives every command of putby but those that cobra brings.
func commands(cmd *cobra.Command) []*cobra.Command {
	list := []*cobra.Command{cmd}
	for _, c := range cmd.Commands() {
		if c.Name() != "completion" && c.Name() != "help" {
			list = append(list, commands(c)...)
		}
	}
	return list
}

// Help fits a plain terminal of 80 columns, flags and examples included.
func TestHelpFits80Columns(t *testing.T) {
	for _, c := range commands(newRootCommand(&app{})) {
		var help bytes.Buffer
		c.SetOut(&help)
		if err := c.Help(); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(help.String()) {
			if w := displaywidth.String(strings.TrimSuffix(line, "\n")); w > 80 {
				t.Errorf("%s --help has a line of %d: %s", c.CommandPath(), w, line)
			}
		}
	}
}

// Every example in the help runs on the sample ledger, in the order in which a
// command has them, save those that need a file of yours or somebody to stop
// them.
func TestHelpExamplesRun(t *testing.T) {
	elsewhere := []string{"putby import", "putby serve", "putby undo", "putby redo", "putby tariff import", "putby run meter"}
	for _, c := range commands(newRootCommand(&app{})) {
		if c.Example == "" || begins(c.CommandPath(), elsewhere) {
			continue
		}
		t.Run(c.CommandPath(), func(t *testing.T) {
			t.Chdir(t.TempDir())
			copyOf(t, sampleHere, "ledger")
			if err := os.WriteFile("offers.csv", []byte("item,price,size\nstrawberries,2.49,454 g\n"), 0o600); err != nil {
				t.Fatal(err)
			}
			for line := range strings.Lines(strings.ReplaceAll(c.Example, "\\\n", "")) {
				runExample(t, words(line)[1:])
			}
		})
	}
}

var sampleHere, _ = filepath.Abs(sampleDir)

func begins(path string, list []string) bool {
	for _, p := range list {
		if path == p || strings.HasPrefix(path, p+" ") {
			return true
		}
	}
	return false
}

func copyOf(t *testing.T, from, to string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
}

func runExample(t *testing.T, args []string) {
	t.Helper()
	var out bytes.Buffer
	env := environment{stdin: strings.NewReader(""), stdout: &out, stderr: &out, now: time.Now,
		getenv: func(name string) string {
			if name == "PUTBY_LEDGER" {
				return "ledger"
			}
			return ""
		}}
	if status := run(t.Context(), args, env); status != exitDone {
		t.Errorf("putby %q ends with %d: %s", args, status, out.String())
	}
}

// words splits an example as a shell does, as far as examples go: at spaces
// that no double quotes hold.
func words(line string) []string {
	quoted := false
	return strings.FieldsFunc(strings.Map(func(r rune) rune {
		switch {
		case r == '"':
			quoted = !quoted
			return -1
		case r == ' ' && !quoted:
			return '\n'
		}
		return r
	}, line), func(r rune) bool { return r == '\n' })
}
