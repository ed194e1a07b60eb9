package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// These tests run putby as processes of their own, as a person's day does: what
// was said to be saved is there whatever happens, and nothing else is.

// process is putby on a house.
func (h *house) process(args ...string) *exec.Cmd {
	cmd := exec.Command("putby", append(args, "--ledger", h.dir)...)
	cmd.Env = append(os.Environ(), "HOME="+h.t.TempDir())
	return cmd
}

// rows counts the rows of a kind whose note begins with a word, and fails the
// test if the ledger has a fault or a note is there twice.
func (h *house) rows(kind, word string) int {
	h.t.Helper()
	if _, faults, err := folder.Load(h.dir, ledger.Options{}); err != nil || len(faults) > 0 {
		h.t.Fatalf("the ledger cannot be read: %v %v", err, faults)
	}
	rows, err := folder.Rows(h.dir, mustKind(kind))
	if err != nil {
		h.t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, r := range rows {
		if note := r.Cells["note"]; strings.HasPrefix(note, word) {
			if seen[note] {
				h.t.Errorf("%s is there twice", note)
			}
			seen[note] = true
		}
	}
	return len(seen)
}

func (h *house) addPrice(note string) *exec.Cmd {
	return h.process("price", "add", "--shop", "Brine & Bramble", "--item", "carrots", "--size", "2 kg", "--price", "2.80", "--date", "2025-11-20", "--note", note)
}

// A command that is killed at any moment has saved its record whole or not at
// all; one that has said so has saved it; and undo leads back to the start.
func TestKilled(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	const tries = 40
	done := 0
	start := time.Now()
	if err := h.addPrice("kill 0").Run(); err != nil {
		t.Fatal(err)
	}
	done++
	usual := time.Since(start)
	for i := 1; i <= tries; i++ {
		cmd := h.addPrice(fmt.Sprintf("kill %d", i))
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		killer := time.AfterFunc(time.Duration(rand.Int64N(int64(usual*5/4))), func() { _ = cmd.Process.Signal(syscall.SIGKILL) })
		if cmd.Wait() == nil {
			done++
		}
		killer.Stop()
		if n := h.rows("price", "kill"); n < done || n > i+1 {
			t.Fatalf("after %d tries %d rows are there, and %d were said to be saved", i, n, done)
		}
	}
	saved := h.rows("price", "kill")
	t.Logf("%d of %d were killed, %d records are there", tries+1-done, tries+1, saved)
	for range saved {
		h.must(h.run("undo"))
	}
	after := h.files()
	for name, text := range before {
		if !strings.Contains(name, ".putby") && after[name] != text {
			t.Errorf("undone, %s is not as it was", name)
		}
	}
	for name := range after {
		if _, ok := before[name]; !ok && !strings.Contains(name, ".putby/") {
			t.Errorf("%s is left behind", name)
		}
	}
}

// Commands at once wait for each other: no record is lost or doubled, and each
// that names its own finds a name that is free.
func TestAtOnce(t *testing.T) {
	h := sampleHouse(t)
	const processes, each = 8, 4
	var wg sync.WaitGroup
	failures := make(chan string, processes*each)
	for p := range processes {
		wg.Go(func() {
			for i := range each {
				cmd := h.addPrice(fmt.Sprintf("many %d %d", p, i))
				if i%2 == 1 {
					cmd = h.process("receipt", "add", "--shop", "Marrowby Foods", "--date", "2025-11-20", "--other", fmt.Sprintf("tea at 2 note many %d %d", p, i))
				}
				if out, err := cmd.CombinedOutput(); err != nil {
					failures <- fmt.Sprintf("%v: %s", err, out)
				}
			}
		})
	}
	wg.Wait()
	close(failures)
	for f := range failures {
		t.Error(f)
	}
	if n := h.rows("price", "many"); n != processes*each/2 {
		t.Errorf("%d prices are there", n)
	}
	if n := h.rows("receipt", "many"); n != processes*each/2 {
		t.Errorf("%d receipts are there", n)
	}
	receipts, err := folder.Rows(h.dir, mustKind("receipt"))
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]int{}
	for _, r := range receipts {
		if strings.HasPrefix(r.Cells["note"], "many") {
			names[r.Cells["receipt"]]++
		}
	}
	if len(names) != processes*each/2 || names["mb-251120"] != 1 || names["mb-251120-16"] != 1 {
		t.Errorf("receipts are called %v", names)
	}
}

// While a person is asked, nobody else has to wait; both records are there.
func TestAskedMeanwhile(t *testing.T) {
	h := sampleHouse(t)
	term := onTerminal(t, "draw", "add", "--ledger", h.dir)
	term.expect("what was taken")
	if out, err := h.addPrice("while 1").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, step := range [][2]string{{"what was taken", "c46-a\n"}, {"quantity (", "\n"}, {"reason (", "\n"}, {"date (", "2025-11-20\n"}, {"save it", "yes\n"}} {
		term.expect(step[0])
		term.send(step[1])
	}
	if status := term.status(); status != exitDone {
		t.Errorf("exit status %d", status)
	}
	if h.rows("price", "while") != 1 || h.last("draws.csv", 1) != "2025-11-20,c46-a,,1,used," {
		t.Errorf("a record is missing: %s", h.last("draws.csv", 1))
	}
}

// refused runs a process that must fail, and fails the test unless it says why
// and leaves the ledger as it was.
func (h *house) refused(cmd *exec.Cmd, says ...string) {
	h.t.Helper()
	before := h.files()
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	err := cmd.Run()
	if cmd.ProcessState == nil || cmd.ProcessState.ExitCode() != exitFailed {
		h.t.Fatalf("%v: %s%s", err, stdout.String(), stderr.String())
	}
	has(h.t, stderr.String(), says...)
	after := h.files()
	for name, text := range before {
		if after[name] != text {
			h.t.Errorf("%s is changed", name)
		}
	}
	for name := range after {
		if _, ok := before[name]; !ok && !strings.HasSuffix(name, "/lock") {
			h.t.Errorf("%s is left behind", name)
		}
	}
}

// Where nothing can be written nothing is changed, and reports go on.
func TestReadOnly(t *testing.T) {
	h := sampleHouse(t)
	chmod := func(dir, file os.FileMode) {
		err := filepath.WalkDir(h.dir, func(path string, d os.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				return os.Chmod(path, dir)
			}
			return os.Chmod(path, file)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	chmod(0o555, 0o444)
	t.Cleanup(func() { chmod(0o700, 0o600) })
	nobody := func(cmd *exec.Cmd) *exec.Cmd {
		if os.Geteuid() == 0 { // for whom there is no read-only folder
			for dir := h.dir; len(dir) > len(os.TempDir()); dir = filepath.Dir(dir) {
				_ = os.Chmod(dir, 0o755)
			}
			cmd.Path = reachable(t)
			cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
		}
		return cmd
	}
	h.refused(nobody(h.addPrice("no")), "permission denied", "try: see to it that you may write in the ledger's folder, or work on a copy")
	if out, err := nobody(h.process("onhand")).CombinedOutput(); err != nil {
		t.Errorf("a report needs no leave to write: %v %s", err, out)
	}
}

// reachable is a copy of the program where anybody may run it.
func reachable(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("putby")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	dir, err := os.MkdirTemp("", "putby")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(dir, "putby")
	if err := os.WriteFile(copied, text, 0o755); err != nil {
		t.Fatal(err)
	}
	return copied
}

// Where the disk is full, which a limit on the size of files stands for, nothing
// is changed.
func TestFullDisk(t *testing.T) {
	h := sampleHouse(t)
	cmd := h.addPrice("full")
	limited := exec.Command("sh", append([]string{"-c", `ulimit -f 4; exec "$@"`, "sh"}, cmd.Args...)...)
	limited.Env = cmd.Env
	h.refused(limited, "nothing was saved", "file too large", "try: make room on the disk")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("with room again: %v %s", err, out)
	}
}

// What another program writes between reading and saving is not lost: nothing is
// saved, and it is said.
func TestChangedMeanwhile(t *testing.T) {
	h := sampleHouse(t)
	file := filepath.Join(t.TempDir(), "leaflet.csv")
	if err := os.WriteFile(file, []byte("Date,Shop,Item,Size,Price\n2025-11-20,Corner shop,carrots,2 kg,2.79\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	term := onTerminal(t, "import", "prices", file, "--ledger", h.dir)
	term.expect("save it [yes]: ")
	shelf := filepath.Join(h.dir, "shelf.csv")
	text, err := os.ReadFile(shelf)
	if err != nil {
		t.Fatal(err)
	}
	other := string(text) + "2025-11-20,Marrowby Foods,carrots,2 kg,3.29,,,,by hand\n"
	if err := os.WriteFile(shelf, []byte(other), 0o600); err != nil {
		t.Fatal(err)
	}
	term.send("yes\n")
	if status := term.status(); status != exitFailed {
		t.Errorf("exit status %d", status)
	}
	term.expect("nothing was saved: shelf.csv was changed by another program since it was read")
	term.expect("try: close it there, and run the command again")
	if now, _ := os.ReadFile(shelf); string(now) != other {
		t.Error("what the other program wrote is changed")
	}
}
