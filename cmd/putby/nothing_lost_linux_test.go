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
	rows, err := folder.Rows(h.dir, ledger.MustKind(kind))
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
	return h.process("price", "add", "--shop", "Quirk & Thimble", "--item", "carrots", "--size", "2 kg", "--price", "2.80", "--date", "2025-11-20", "--note", note)
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
					cmd = h.process("receipt", "add", "--shop", "Muddleby Foods", "--date", "2025-11-20", "--other", fmt.Sprintf("tea at 2 note many %d %d", p, i))
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
	receipts, err := folder.Rows(h.dir, ledger.MustKind("receipt"))
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
	for _, step := range [][2]string{{"what was taken", "c46-a\n"}, {"quantity (", "\n"}, {"reason (", "\n"}, {"date (", "today\n"}, {"save it", "yes\n"}} {
		term.expect(step[0])
		term.send(step[1])
	}
	if status := term.status(); status != exitDone {
		t.Errorf("exit status %d", status)
	}
	if h.rows("price", "while") != 1 || !strings.HasSuffix(h.last("draws.csv", 1), ",c46-a,,1,used,") {
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

// An import that asks a person keeps nobody waiting meanwhile, and what others
// save then is there beside what it adds.
func TestImportAsksFirst(t *testing.T) {
	h := sampleHouse(t)
	term := onTerminal(t, "import", "prices", h.leaflet(), "--ledger", h.dir)
	term.expect("save it [yes]: ")
	if out, err := h.process("price", "add", "--shop", "Quirk & Thimble", "--item", "carrots", "--size", "2 kg", "--price", "2.80",
		"--date", "2025-11-20", "--note", "meanwhile", "--wait", "0").CombinedOutput(); err != nil {
		t.Fatalf("while a person is asked: %v %s", err, out)
	}
	edited := h.byHand("2025-11-20,Muddleby Foods,carrots,2 kg,3.29,,,,by hand\n")
	term.send("yes\n")
	if status := term.status(); status != exitDone {
		t.Errorf("exit status %d: %s", status, term.said())
	}
	has(t, h.last("shelf.csv", 3), "meanwhile", "by hand", "Corner shop")
	if text := h.last("shelf.csv", 1000); !strings.Contains(text, edited) {
		t.Error("what was edited by hand is lost")
	}
}

// If others record meanwhile what the import was to add, the person is shown what
// is left of it, and asked again only about that.
func TestImportAsksAgain(t *testing.T) {
	h := sampleHouse(t)
	term := onTerminal(t, "import", "prices", h.leaflet(), "--ledger", h.dir)
	term.expect("1 row to add")
	term.expect("save it [yes]: ")
	h.byHand("2025-11-20,Corner shop,carrots,2 kg,2.79,,,,by hand\n")
	term.send("yes\n")
	term.expect("Nothing is saved yet: the ledger was changed meanwhile. Now the file gives this:")
	term.expect("0 rows to add, 1 there already")
	term.expect("There is nothing to add.")
	if status := term.status(); status != exitDone {
		t.Errorf("exit status %d", status)
	}
	if text := h.last("shelf.csv", 1000); strings.Count(text, "Corner shop") != 1 {
		t.Errorf("recorded twice:\n%s", text)
	}
}

// Prices that are hardly those of a kWh are asked about without the ledger's lock, and
// taken as for a MWh, whatever else the file says of one.
func TestTariffImportAsksFirst(t *testing.T) {
	h := sampleHouse(t)
	file := filepath.Join(t.TempDir(), "hours.csv")
	if err := os.WriteFile(file, []byte("time,CAD/kWh,note\n2025-11-20 05:00,85.40,sold by the MWh\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	term := onTerminal(t, "tariff", "import", file, "--as", "by-hours", "--ledger", h.dir)
	term.expect("85.4 CAD is hardly what a kWh costs")
	term.expect("Take the prices as per MWh? ")
	if out, err := h.process("price", "add", "--shop", "Quirk & Thimble", "--item", "carrots", "--size", "2 kg", "--price", "2.80",
		"--date", "2025-11-20", "--wait", "0").CombinedOutput(); err != nil {
		t.Fatalf("while a person is asked: %v %s", err, out)
	}
	term.send("yes\n")
	if status := term.status(); status != exitDone {
		t.Errorf("exit status %d: %s", status, term.said())
	}
	has(t, h.last("rates/by-hours.csv", 2), ",0.0854")
}

// leaflet is a file of prices to import.
func (h *house) leaflet() string {
	h.t.Helper()
	file := filepath.Join(h.t.TempDir(), "leaflet.csv")
	if err := os.WriteFile(file, []byte("Date,Shop,Item,Size,Price\n2025-11-20,Corner shop,carrots,2 kg,2.79\n"), 0o600); err != nil {
		h.t.Fatal(err)
	}
	return file
}

// byHand appends to the prices as a person does in an editor.
func (h *house) byHand(row string) string {
	h.t.Helper()
	shelf, err := os.OpenFile(filepath.Join(h.dir, "shelf.csv"), os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		h.t.Fatal(err)
	}
	if _, err := shelf.WriteString(row); err != nil {
		h.t.Fatal(err)
	}
	if err := shelf.Close(); err != nil {
		h.t.Fatal(err)
	}
	return strings.TrimSuffix(row, "\n")
}

// Nothing that only looks takes the lock: it is there while another holds it.
func TestDryRunsTakeNoLock(t *testing.T) {
	h := sampleHouse(t)
	h.must(h.run("draw", "add", "--pack", "c46-a"))
	h.must(h.run("draw", "add", "--pack", "c46-a"))
	h.must(h.run("undo"))
	plug, rate := filepath.Join(t.TempDir(), "plug.csv"), filepath.Join(t.TempDir(), "rate.json")
	for name, text := range map[string]string{plug: exampleFiles["plug.csv"], rate: exampleFiles["rate.json"]} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	book, err := folder.Opening{Check: joins, Wait: folder.DefaultWait}.Open(t.Context(), h.dir)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	before := h.files()
	for _, args := range [][]string{
		{"undo"}, {"redo"},
		{"draw", "add", "--pack", "c46-a"},
		{"price", "add", "--shop", "Quirk & Thimble", "--item", "carrots", "--size", "2 kg", "--price", "2.80"},
		{"receipt", "add", "--shop", "Muddleby Foods", "--other", "tea at 2"},
		{"edit", "draw", "@5", "reason=given"},
		{"remove", "draw", "@5"},
		{"import", "prices", h.leaflet()},
		{"tariff", "import", rate, "--as", "flat-new"},
		{"run", "meter", "c47", plug, "--replace", "--bridge"},
	} {
		start := time.Now()
		got := h.run(append(args, "--dry-run", "--wait", "5s")...)
		if got.status == exitFailed || time.Since(start) > 4*time.Second {
			t.Errorf("%v: status %d after %v: %s", args, got.status, time.Since(start), got.stderr)
		}
		if got.status == exitDone && !strings.Contains(got.stdout, "Would") {
			t.Errorf("%v: %s", args, got.stdout)
		}
	}
	for name, text := range h.files() {
		if before[name] != text {
			t.Errorf("%s is changed", name)
		}
	}
}

// Whoever has to wait is told after a second for whom, and gives up when they said.
func TestWait(t *testing.T) {
	h := sampleHouse(t)
	book, err := folder.Opening{Check: joins, For: "import receipts till.csv"}.Open(t.Context(), h.dir)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	got := h.run("draw", "add", "--pack", "c46-a", "--wait", "0")
	if got.status != exitFailed || strings.Contains(got.stderr, "Waiting") {
		t.Errorf("not waiting at all: status %d, %s", got.status, got.stderr)
	}
	start := time.Now()
	got = h.run("draw", "add", "--pack", "c46-a", "--wait", "2s")
	if waited := time.Since(start); got.status != exitFailed || waited < 2*time.Second || waited > 6*time.Second {
		t.Errorf("waiting 2 s: status %d after %v", got.status, waited)
	}
	has(t, got.stderr, "Waiting for putby import receipts till.csv (process", "since", "nothing was saved", "import receipts till.csv")
	if got := h.run("draw", "add", "--pack", "c46-a", "--wait", "a while"); got.status != exitUsage || !strings.Contains(got.stderr, "write it as 10s, 2m or 0") {
		t.Errorf("status %d: %s", got.status, got.stderr)
	}
	time.AfterFunc(1500*time.Millisecond, func() { book.Close() })
	has(t, h.must(h.run("draw", "add", "--pack", "c46-a")).stderr, "Waiting for")
}
