package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// halfTyped are lines as far as a person has typed them, and the one word that
// the last of theirs can become: a command, one below it, a flag, what a flag
// takes, in two words and in one, and names that only the ledger has.
var halfTyped = [][2]string{
	{"putby comp", ""}, // compare and completion: nothing yet
	{"putby compa", "compare"},
	{"putby receipt ad", "add"},
	{"putby cost --form", "--format"},
	{"putby cost --format js", "json"},
	{"putby cost --format=js", "--format=json"},
	{"putby cost --by mach", "machine"},
	{"putby worth strawb", "strawberries"},
	{"putby compare --item blue", "blueberries"},
	{"putby help arith", "arithmetic"},
}

// A person in bash or zsh types half a line and presses Tab: the shell, with the
// script that putby writes for it, types the rest.
func TestTab(t *testing.T) {
	const (
		bashPackage = "/usr/share/bash-completion/bash_completion"
		prompt      = "ready:"
	)
	for _, test := range []struct {
		shell string
		needs []string // files of packages
		begin string   // what the shell is to read first
		args  []string
	}{
		// Ctrl-X writes the line as it is then into a file.
		{"bash", []string{bashPackage}, "source " + bashPackage + `
source putby.bash
bind 'set enable-bracketed-paste off'
show() { printf '%s' "$READLINE_LINE" > line.new; mv line.new line; }
bind -x '"\C-x": show'
`, []string{"--noprofile", "--rcfile", "begin", "-i"}},
		{"zsh", nil, `autoload -Uz compinit
compinit -D -u
source ./putby.zsh
unset zle_bracketed_paste
show() { print -rn -- "$BUFFER" > line.new; mv line.new line; }
zle -N show
bindkey '^X' show
`, []string{"-f", "-i"}},
	} {
		t.Run(test.shell, func(t *testing.T) {
			t.Parallel()
			h := withShell(t, test.shell, test.needs...)
			h.write("begin", test.begin+"PS1='"+prompt+"'\n")
			cmd := h.shell(test.args...)
			term := startOnTerminal(t, cmd)
			t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
			if test.shell == "zsh" { // it has no flag that names what to read
				term.send("source ./begin\n")
			}
			term.expect(prompt)
			for _, typed := range halfTyped {
				term.send(typed[0] + "\t\x18")
				if got, want := strings.TrimRight(h.line(term), " "), completed(typed); got != want {
					t.Errorf("%q becomes %q, want %q", typed[0], got, want)
				}
				term.send("\x15") // an empty line again
			}
		})
	}
}

// fish says what it would offer for a line.
func TestCompletionInFish(t *testing.T) {
	h := withShell(t, "fish")
	for _, typed := range halfTyped {
		out, err := h.shell("--no-config", "-c", "source putby.fish; complete -C $argv[1]", typed[0]).Output()
		if err != nil {
			t.Fatal(err)
		}
		var offers []string
		for line := range strings.Lines(string(out)) {
			word, _, _ := strings.Cut(strings.TrimSpace(line), "\t") // and what it means
			offers = append(offers, word)
		}
		want := []string{typed[1]}
		if typed[1] == "" {
			want = []string{"compare", "completion"}
		}
		if !slices.Equal(offers, want) {
			t.Errorf("%q: %q, want %q", typed[0], offers, want)
		}
	}
}

// completed is a line with its last word finished.
func completed(typed [2]string) string {
	if typed[1] == "" {
		return typed[0]
	}
	return typed[0][:strings.LastIndex(typed[0], " ")+1] + typed[1]
}

// A shellHome is a folder in which a shell is started, with the completion of
// putby for it.
type shellHome struct {
	t         *testing.T
	name, dir string
	ledger    string
}

// withShell makes the folder, or skips the test where the shell is not there.
func withShell(t *testing.T, shell string, files ...string) *shellHome {
	t.Helper()
	_, err := exec.LookPath(shell)
	for _, name := range files {
		if err == nil {
			_, err = os.Stat(name)
		}
	}
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%v, and CI=true wants completion in %s tested: install Debian's bash-completion, zsh and fish", err, shell)
		}
		t.Skip(err)
	}
	h := &shellHome{t, shell, t.TempDir(), sampleHouse(t).dir}
	script, err := exec.Command("putby", "completion", shell).Output()
	if err != nil {
		t.Fatal(err)
	}
	h.write("putby."+shell, string(script))
	return h
}

// shell is the shell in its folder, with nothing of whoever runs the test.
func (h *shellHome) shell(args ...string) *exec.Cmd {
	cmd := exec.Command(h.name, args...)
	cmd.Dir = h.dir
	cmd.Env = append(os.Environ(), "HOME="+h.dir, "XDG_CONFIG_HOME="+h.dir, "XDG_DATA_HOME="+h.dir, "INPUTRC=/dev/null",
		"TERM=xterm", "LANG=C.UTF-8", "PUTBY_LEDGER="+h.ledger)
	return cmd
}

func (h *shellHome) write(name, text string) {
	h.t.Helper()
	if err := os.WriteFile(filepath.Join(h.dir, name), []byte(text), 0o600); err != nil {
		h.t.Fatal(err)
	}
}

// line waits for what the shell's user sees as the line, and takes it away.
func (h *shellHome) line(term *terminal) string {
	h.t.Helper()
	name := filepath.Join(h.dir, "line")
	for range 2000 {
		if text, err := os.ReadFile(name); err == nil {
			if err := os.Remove(name); err != nil {
				h.t.Fatal(err)
			}
			return string(text)
		}
		time.Sleep(5 * time.Millisecond)
	}
	h.t.Fatalf("the shell does not answer:\n%s", term.said())
	return ""
}
