package folder

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"testing"
)

// systemRoles are those of this system alone.
var systemRoles = map[string]func(dir string) error{"fill": fillUp}

// fillUp saves larger and larger changes until one fails for want of room, and
// says how.
func fillUp(dir string) error {
	signal.Ignore(syscall.SIGXFSZ)
	if os.Getenv(whoVariable) != "" {
		limit := syscall.Rlimit{Cur: 64 << 10, Max: 64 << 10}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
			return err
		}
	}
	b, err := opened(context.Background(), dir, nil)
	if err != nil {
		return err
	}
	defer b.Close()
	for i := range 1000 {
		if _, err := b.Edit("fill", pairOf(fmt.Sprint(i+1)+strings.Repeat(" ", 4<<10))); err != nil {
			full := errors.Is(err, ErrFull)
			fmt.Printf("%d %v %v\n", i, full, err)
			_, again := b.Edit("small", pairOf("small"))
			fmt.Printf("%v\n", again)
			return nil
		}
	}
	return errors.New("there was no end to it")
}

// TestFullDisk fills a disk of its own, or runs into a limit on the size of
// files where none can be had. The change that does not fit is not there, in
// part either, and nothing is left over; those before it are.
func TestFullDisk(t *testing.T) {
	for _, way := range []string{"disk", "limit"} {
		t.Run(way, func(t *testing.T) {
			model, dir, who := numbered(t), t.TempDir(), "limit"
			if way == "disk" {
				who = ""
				if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=1m,mode=700"); err != nil {
					t.Skip("no small disk to be had: ", err)
				}
				t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
			}
			if err := os.CopyFS(dir, os.DirFS(model)); err != nil {
				t.Fatal(err)
			}
			out, err := child(t, "fill", dir, who).CombinedOutput()
			if err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			t.Logf("%s", out)
			var saved int
			var full bool
			if _, err := fmt.Sscan(string(out), &saved, &full); err != nil || !full || saved < 3 {
				t.Errorf("told %s", out)
			}
			if !strings.Contains(string(out), "nothing was saved: ") {
				t.Errorf("no clear message: %s", out)
			}
			rec, faults := read(t, dir)
			if len(faults) > 0 || rec.Draws.Len() != len(rec.Counts) || rec.Draws.Len() < saved || rec.Draws.Len() > saved+1 {
				t.Errorf("%d draws, %d counts, %d saved, %v", rec.Draws.Len(), len(rec.Counts), saved, faults)
			}
			leftovers(t, dir)
		})
	}
}
