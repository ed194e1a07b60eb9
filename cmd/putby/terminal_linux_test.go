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
	seen int // how much of it expectNext has passed
}

// onTerminal starts putby on a terminal of its own.
func onTerminal(t *testing.T, args ...string) *terminal {
	t.Helper()
	return startOnTerminal(t, exec.Command("putby", args...))
}

// onTerminalAt is onTerminal at a time of the program's clock.
func onTerminalAt(t *testing.T, at string, args ...string) *terminal {
	t.Helper()
	cmd := exec.Command("putby", args...)
	cmd.Env = append(os.Environ(), clock+"="+at)
	return startOnTerminal(t, cmd)
}

// startOnTerminal starts a program on a terminal of its own.
func startOnTerminal(t *testing.T, cmd *exec.Cmd) *terminal {
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
	term := &terminal{t: t, ctrl: ctrl, cmd: cmd}
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

// expectNext is expect of what comes after all that was waited for by it before.
func (term *terminal) expectNext(text string) {
	term.t.Helper()
	for range 1000 {
		term.mu.Lock()
		at := strings.Index(term.text.String()[term.seen:], text)
		if at >= 0 {
			term.seen += at + len(text)
		}
		term.mu.Unlock()
		if at >= 0 {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	_ = term.cmd.Process.Kill()
	term.mu.Lock()
	defer term.mu.Unlock()
	term.t.Fatalf("it does not go on to say %q:\n%q\nafter\n%s", text, term.text.String()[term.seen:], term.text.String()[:term.seen])
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
		{[]string{"receipt", "add"}, nil, "shop [Muddleby Foods]: "},
		{[]string{"receipt", "add"}, [][2]string{{"shop [", "\n"}, {"date [", "\n"}, {"receipt [", "\n"}, {"line 1: ", "carrots\n"}}, "how many [1]: "},
		{[]string{"pack", "add", "--run", "c47"}, nil, "what was packed"},
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

// At every question of every dialogue a wrong answer is told at once, "back"
// leads to the question before, and Ctrl-C ends it and gives the answers back; names
// are completed by Tab, and Up brings back what is in brackets.
func TestTerminalDialogues(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	for _, test := range []struct {
		args string
		say  [][2]string // what it asks, and what is typed
		want string      // what is left, as a command
	}{
		{"receipt add --date 2025-11-15", [][2]string{
			{"shop [", "\x1b[A\x7f\x7f\x7f\x7f\x7fFare\r"}, {"receipt [", "a b\r"}, {"is not an identifier", "back\r"}, {"shop [Muddleby Fare]: ", "\r"},
			{"receipt [mf-251115]: ", "\r"}, {"line 1: ", "2 kg carr\t at 3\r"}, {"so far 3.00", "back\r"}, {"line 1 [2 kg carrots at 3]: ", "1 kg carrots at 2\r"},
			{"so far 2.00", "1 kg squ\t\t"}, {"squash  squash-puree", " at x\r"}, {"line 2: ", "back\r"}, {"line 1 [1 kg carrots at 2]: ", "\r"}, {"line 2: ", "\x03"},
		}, "putby receipt add --shop 'Muddleby Fare' --date 2025-11-15 --receipt mf-251115 --food '1 kg carrots at 2'"},
		{"pack add", [][2]string{
			{"[chicken-broth 6 x 1 L]: ", "back\r"}, {"first question", "app\t 6\r"}, {"no run of Apple slices awaits packing", "chicken-br\t 4 x 1 L\r"}, {"4 needed, and only 1 free", ""},
			{"is that right", "no\r"}, {"which one is to be changed", "1\r"}, {"[chicken-broth 4 x 1 L]: ", "1\r"}, {"save it [yes]: ", "back\r"}, {"[1]: ", "1 with jar\r"}, {"with", "1\r"}, {"save it [yes]: ", "\x03"},
		}, "putby pack add 1"},
		{"start", [][2]string{
			{"what goes in", "back\r"}, {"first question", "1 kg sq\t\r"}, {"save it [yes]: ", "back\r"}, {"[1 kg squash]: ", "900 kg apples\r"}, {"apples", "1 kg apples; 0.5 kg squash\r"}, {"save it [yes]: ", "\x03"},
		}, "putby start '1 kg apples' '0.5 kg squash'"},
		{"take", [][2]string{
			{"what was taken", "900 sweetco\t\r"}, {"only 24 containers of Sweetcorn are in store", "back\r"}, {"first question", "2 sweetco\t; leek-soup\r"}, {"save it [yes]: ", "back\r"}, {"[2 sweetcorn; leek-soup]: ", "2 sweetcorn\r"}, {"save it [yes]: ", "\x03"},
		}, "putby take '2 sweetcorn'"},
		{"finish c47", [][2]string{
			{"kWh by the meter", "-3\r"}, {"write the meter's kWh as 17.4", "17.4\r"}, {"hands-on time", "back\r"}, {"[17.4]: ", "\r"}, {"hands-on time", "a while\r"}, {"25m or 1h30m", "25min\r"}, {"save it [yes]: ", "\x03"},
		}, "putby finish c47 --kwh 17.4 --hands 25min"},
		{"run add", [][2]string{
			{"machine [rimewell]: ", "rimm\r"}, {"the ledger has no rimm", "\r"}, {"start (", "2025-11-14 8:00\r"}, {"while run c47 is on", "2025-11-16 8:00\r"},
			{"run (identifier) [c48]", "c47\r"}, {"the ledger has run c47 already", "back\r"}, {"start (local date and time, or with an offset) [2025-11-16 8:00]: ", "\r"},
			{"run (identifier) [c48]", "\r"}, {"kwh (", "\r"}, {"hands (", "\r"}, {"load, such as", "900 kg apples\r"}, {"apples", "1 kg apples\r"}, {"another load", "\x03"},
		}, "putby run add --run c48 --machine rimewell --start '2025-11-16 08:00' --load '1 kg apples'"},
		{"draw add --date 2025-11-16", [][2]string{
			{"what was taken", "sweetco\t\r"}, {"quantity (", "900\r"}, {"900 sweetcorn\": only 24 containers of Sweetcorn are in store", "back\r"}, {"what was taken (a pack, a food or a supply) [sweetcorn]: ", "\r"},
			{"quantity (", "2\r"}, {"reason", "sp\t\r"}, {"save it [yes]: ", "no\r"}, {"which one is to be changed", "2\r"}, {"[2]: ", "1\r"}, {"save it [yes]: ", "\x03"},
		}, "putby draw add --date 2025-11-16 --quantity 1 --reason spoiled --food sweetcorn"},
		{"count add", [][2]string{
			{"what was counted", "jar-q\r"}, {"the ledger has no jar-q", "jar-h\t\r"}, {"quantity (", "back\r"}, {"[jar-half]: ", "\r"},
			{"quantity (", "9000\r"}, {"jar-half", "5\r"}, {"date (", "2036-01-01\r"}, {"ahead", ""}, {"date (", "\x03"},
		}, "putby count add --item jar-half --quantity 5"},
		{"food add", [][2]string{
			{"food (identifier): ", "apples\r"}, {"the ledger has food apples already", "kale\r"}, {"open table", "kale raw\r"}, {"[1]: ", "back\r"}, {"[kale ra", "back\r"}, {"food (identifier) [kale]: ", "chard\r"},
			{"open table", "-\r"}, {"name (", "\r"}, {"basis (", "vo\t\r"}, {"fresh_days (", "\x03"},
		}, "putby food add --food chard --basis volume"},
		{"machine add", [][2]string{
			{"machine (identifier): ", "rimewell\r"}, {"the ledger has machine rimewell already", "shed\r"}, {"name (", "back\r"}, {"machine (identifier) [shed]: ", "\r"}, {"name (", "?\r"},
			{"Type an answer", "Shed\r"}, {"load_volume (", "5 kg\r"}, {"load_volume (", "\x03"},
		}, "putby machine add --machine shed --name Shed"},
		{"tariff add", [][2]string{
			{"tariff (", "flat\r"}, {"from (", "soon\r"}, {"soon", "back\r"}, {"tariff (identifier) [flat]: ", "\r"}, {"from (", "\r"},
			{"price of a kWh", "?\r"}, {"days 0.24 from 6 to 22", "0.24 from 6\r"}, {"write from when to when", "back\r"}, {"from (", "\r"}, {"price of a kWh", "\x03"},
		}, "putby tariff add --tariff flat"},
	} {
		term := onTerminalAt(t, "2025-11-16T12:00:00Z", append(strings.Fields(test.args), "--ledger", h.dir)...)
		for _, step := range test.say {
			term.expectNext(step[0])
			term.send(step[1])
		}
		if status := term.status(); status != exitBroken {
			t.Errorf("%v: exit status %d", test.args, status)
		}
		term.expectNext("broken off: nothing was saved")
		term.expectNext(test.want)
	}
	for name, text := range h.files() {
		if before[name] != text && !strings.HasSuffix(name, "lock") {
			t.Errorf("%s is changed", name)
		}
	}
}

// Setup on a terminal: a wrong answer, back and Tab; Ctrl-C keeps the steps that
// were saved, and the same command goes on from there.
func TestTerminalSetup(t *testing.T) {
	h := newHouse(t)
	term := onTerminal(t, "setup", h.dir)
	for _, step := range [][2]string{
		{"currency", "x\x03"},
	} {
		term.expectNext(step[0])
		term.send(step[1])
	}
	if status := term.status(); status != exitBroken {
		t.Errorf("exit status %d", status)
	}
	if _, err := os.Stat(h.dir); err == nil {
		t.Error("broken off at the first question, it leaves a folder")
	}
	for i, say := range [][][2]string{
		{
			{"currency", "back\r"}, {"first question", "eur\r"}, {"time zone", "Europe/Vie\t\r"}, {"what you measure in", "back\r"}, {"[Europe/Vienna]: ", "\r"},
			{"what you measure in", "li\t\r"}, {"EUR, Europe/Vienna, litres and kilograms", "\r"},
			{"The freeze-dryer", "later\r"}, {"What a kWh costs", "\r"}, {"price of a kWh", "cheap 0.18 from 6\r"}, {"write from when to when", "back\r"},
			{"say it now", "yes\r"}, {"price of a kWh", "0.18\r"}, {"save it [yes]: ", "\r"}, {"Setting tariff: home.", ""}, {"count them now", "\x03"},
		},
		{
			{"describe it now", "later\r"}, {"There already: what a kWh costs (home).", ""}, {"count them now", "later\r"}, {"add one now", "later\r"}, {"putby setup, for the freeze-dryer", ""},
		},
	} {
		term := onTerminal(t, "setup", h.dir)
		for _, step := range say {
			term.expectNext(step[0])
			term.send(step[1])
		}
		if status, want := term.status(), []int{exitBroken, exitDone}[i]; status != want {
			t.Errorf("exit status %d, not %d\n%s", status, want, term.said())
		}
		if i == 0 {
			term.expectNext("goes on from there.")
			term.expectNext("broken off: nothing was saved of this step")
		}
	}
}
