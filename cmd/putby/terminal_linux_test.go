package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unsafe"
)

// A terminal is a program on a pseudo terminal, and what it has printed there.
type terminal struct {
	t    *testing.T
	cmd  *exec.Cmd
	ctrl *os.File

	mu   sync.Mutex
	text bytes.Buffer
}

// onTerminal starts putby on a terminal of its own.
func onTerminal(t *testing.T, args ...string) *terminal {
	t.Helper()
	ctrl, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip("no pseudo terminal: ", err)
	}
	t.Cleanup(func() { ctrl.Close() })
	var number, locked uint32
	ioctl(t, ctrl, syscall.TIOCGPTN, &number)
	ioctl(t, ctrl, syscall.TIOCSPTLCK, &locked)
	tty, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer tty.Close()
	term := &terminal{t: t, ctrl: ctrl, cmd: exec.Command("putby", args...)}
	term.cmd.Stdin, term.cmd.Stdout, term.cmd.Stderr = tty, tty, tty
	term.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := term.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go term.read()
	return term
}

// ioctl asks a pseudo terminal for its number, or unlocks it.
func ioctl(t *testing.T, f *os.File, request uintptr, value *uint32) {
	t.Helper()
	if _, _, errno := syscall.Syscall(syscall.SYS_IOCTL, f.Fd(), request, uintptr(unsafe.Pointer(value))); errno != 0 {
		t.Fatal(errno)
	}
}

func (term *terminal) read() {
	buf := make([]byte, 4096)
	for {
		n, err := term.ctrl.Read(buf)
		term.mu.Lock()
		term.text.Write(buf[:n])
		term.mu.Unlock()
		if err != nil { // the program has gone
			return
		}
	}
}

// expect waits until the program has printed text.
func (term *terminal) expect(text string) {
	term.t.Helper()
	for range 1000 {
		term.mu.Lock()
		have := term.text.String()
		term.mu.Unlock()
		if strings.Contains(have, text) {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	_ = term.cmd.Process.Kill()
	term.mu.Lock()
	defer term.mu.Unlock()
	term.t.Fatalf("it does not say %q:\n%s", text, term.text.String())
}

func (term *terminal) send(text string) {
	term.t.Helper()
	if _, err := term.ctrl.WriteString(text); err != nil {
		term.t.Fatal(err)
	}
}

// said is what the program has printed.
func (term *terminal) said() string {
	term.mu.Lock()
	defer term.mu.Unlock()
	return term.text.String()
}

// status waits for the program to end.
func (term *terminal) status() int {
	term.t.Helper()
	_ = term.cmd.Wait()
	return term.cmd.ProcessState.ExitCode()
}

// Ctrl-C at any question ends the dialogue at once, and nothing is written.
func TestCtrlC(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	for _, test := range []struct {
		args []string
		say  [][2]string // what it asks, and the answer
		stop string      // the question at which it is broken off
	}{
		{[]string{"receipt", "add"}, nil, "shop [Marrowby Foods]: "},
		{[]string{"receipt", "add"}, [][2]string{{"shop [", "\n"}, {"date [", "\n"}, {"receipt [", "\n"}, {"line 1: ", "carrots\n"}}, "how many [1]: "},
		{[]string{"pack", "add", "--run", "c47"}, [][2]string{{"item (", "\n"}, {"date (", "\n"}}, "count ("},
		{[]string{"run", "add"}, nil, "machine ["},
	} {
		term := onTerminal(t, append(test.args, "--ledger", h.dir)...)
		for _, step := range test.say {
			term.expect(step[0])
			term.send(step[1])
		}
		term.expect(test.stop)
		term.send("\x03")
		if status := term.status(); status != exitBroken {
			t.Errorf("%v: exit status %d", test.args, status)
		}
		term.expect("broken off: nothing was saved")
	}
	for name, text := range h.files() {
		if before[name] != text && !strings.HasSuffix(name, "lock") {
			t.Errorf("%s is changed", name)
		}
	}
}

// On a terminal worth answers in words, and says how to see the rest.
func TestTerminalWorth(t *testing.T) {
	h := sampleHouse(t)
	ask := []string{"worth", "strawberries", "--ledger", h.dir, "--as-of", "2025-11-19", "--price", "2.49", "--size", "454g", "--limit", "12"}
	for _, c := range []struct {
		more    []string
		figures bool
	}{{nil, false}, {[]string{"--all"}, true}, {[]string{"--chart"}, true}, {[]string{"--format", "md"}, true}, {[]string{"--brief"}, false}} {
		term := onTerminal(t, append(ask, c.more...)...)
		term.expect("Is it a real offer?")
		if status := term.status(); status != exitDone {
			t.Errorf("%v: exit status %d", c.more, status)
		}
		term.mu.Lock()
		text := term.text.String()
		term.mu.Unlock()
		if strings.Contains(text, "Package by package") != c.figures {
			t.Errorf("%v: are there figures? want %v\n%s", c.more, c.figures, text)
		}
		if strings.Contains(text, "With --all") != (c.more == nil) {
			t.Errorf("%v: %s", c.more, text)
		}
	}
}

// On a terminal a table is as wide as that, and plain where NO_COLOR says so.
func TestTerminalHelp(t *testing.T) {
	term := onTerminal(t, "receipt", "add", "--help")
	term.expect("Exit status:")
	if status := term.status(); status != exitDone {
		t.Errorf("exit status %d", status)
	}
	term.mu.Lock()
	defer term.mu.Unlock()
	if strings.Contains(term.text.String(), "\x1b[") {
		t.Error("help is coloured")
	}
}
