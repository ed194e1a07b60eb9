package folder

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unsafe"

	"putby/ledger"
)

// readsAsFresh holds a kept ledger to a fresh reading of all files.
func readsAsFresh(t *testing.T, k *Cache, after string) *ledger.Records {
	t.Helper()
	rec, faults, err := k.Read()
	want, wantFaults, wantErr := Read(k.dir)
	if fmt.Sprint(err) != fmt.Sprint(wantErr) || !slices.Equal(texts(faults), texts(wantFaults)) {
		t.Fatalf("after %s it says %v, %q, a fresh reading %v, %q", after, err, texts(faults), wantErr, texts(wantFaults))
	}
	if err != nil {
		return nil
	}
	normal := *rec
	if len(normal.Meters) == 0 {
		normal.Meters = want.Meters
	}
	if len(normal.Rates) == 0 {
		normal.Rates = want.Rates
	}
	if !reflect.DeepEqual(spelled(&normal), spelled(want)) {
		t.Fatalf("after %s it has\n%+v\na fresh reading\n%+v", after, spelled(rec), spelled(want))
	}
	return rec
}

// spelled is records with those of long lists one by one: packed they may differ in
// what they share.
func spelled(rec *ledger.Records) []any {
	rest := *rec
	rest.Receipts, rest.Phases, rest.Loads = ledger.ReceiptList{}, ledger.PhaseList{}, ledger.LoadList{}
	rest.Packs, rest.Draws = ledger.PackList{}, ledger.DrawList{}
	return []any{rest, rec.Receipts.Slice(), rec.Phases.Slice(), rec.Loads.Slice(), rec.Packs.Slice(), rec.Draws.Slice()}
}

// overwrite writes into a file where it is, keeping its identity.
func overwrite(t *testing.T, path, text string) {
	t.Helper()
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE, 0o666)
	if err == nil {
		_, err = f.WriteString(text)
	}
	if err == nil {
		err = f.Truncate(int64(len(text)))
	}
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
}

// editsByHand are the ways in which editors and other programs leave a file. They
// get its path and its text with one figure changed, of the same length.
var editsByHand = map[string]func(t *testing.T, path, text string) error{
	"in place": func(t *testing.T, path, text string) error { overwrite(t, path, text); return nil },
	"in place, its time set back": func(t *testing.T, path, text string) error {
		info, err := os.Stat(path)
		if err != nil {
			return nil
		}
		overwrite(t, path, text)
		return os.Chtimes(path, time.Time{}, info.ModTime())
	},
	"by another file": func(t *testing.T, path, text string) error {
		overwrite(t, path+".tmp", text)
		return os.Rename(path+".tmp", path)
	},
	"by another file of the same time": func(t *testing.T, path, text string) error {
		info, err := os.Stat(path)
		if err != nil {
			return nil
		}
		overwrite(t, path+".tmp", text)
		if err := os.Chtimes(path+".tmp", time.Time{}, info.ModTime()); err != nil {
			return err
		}
		return os.Rename(path+".tmp", path)
	},
	"longer":   func(t *testing.T, path, text string) error { overwrite(t, path, text+"\n"); return nil },
	"cut":      func(t *testing.T, path, text string) error { overwrite(t, path, text[:len(text)*2/3]); return nil },
	"empty":    func(t *testing.T, path, text string) error { overwrite(t, path, ""); return nil },
	"gone":     func(t *testing.T, path, _ string) error { return os.RemoveAll(path) },
	"touched":  func(t *testing.T, path, _ string) error { return os.Chtimes(path, time.Time{}, time.Now()) },
	"its mode": func(t *testing.T, path, _ string) error { return os.Chmod(path, 0o640) },
	"a folder": func(t *testing.T, path, _ string) error { os.Remove(path); return os.MkdirAll(path, 0o777) },
	"another ended": func(t *testing.T, path, text string) error {
		overwrite(t, path, strings.ReplaceAll(text, "\n", "\r\n"))
		return nil
	},
}

// changeByHand edits one file in one way, and says which. What it leaves broken is
// mended soon, as people do.
func changeByHand(t *testing.T, dir string, good map[string]string, coarse bool, random *rand.Rand) string {
	names := []string{"settings.csv", "packs.csv", "draws.csv", "draws.csv", "draws.csv", "meter/R0.csv", "meter/R1.csv", "shelf.csv"}
	name := names[random.IntN(len(names))]
	path := filepath.Join(dir, name)
	if random.IntN(3) == 0 {
		if info, err := os.Stat(path); err == nil && info.IsDir() {
			os.RemoveAll(path)
		}
		overwrite(t, path, good[name])
		return "mending " + name
	}
	ways := []string{}
	for way := range editsByHand {
		if !coarse || !strings.Contains(way, "time") { // such a clock cannot tell what has the same one
			ways = append(ways, way)
		}
	}
	slices.Sort(ways)
	way := ways[random.IntN(len(ways))]
	data, err := os.ReadFile(path)
	if err != nil {
		return "nothing"
	}
	text := []byte(string(data))
	if i := strings.LastIndexAny(string(text), "0123456789"); i >= 0 {
		text[i] = byte('1' + random.IntN(9))
	}
	if err := editsByHand[way](t, path, string(text)); err != nil && !os.IsNotExist(err) {
		t.Fatal(name, way, err)
	}
	return name + " " + way
}

// coarse is the stamp of a file system that knows no more than a size and a time,
// and whose clock stands still for a while.
func coarse(info fs.FileInfo) stamp {
	return stamp{size: info.Size(), modified: info.ModTime().Truncate(coarseTick)}
}

const coarseTick = 100 * time.Millisecond

// TestKept: however files are edited, by hand, by commands and by both, what is
// kept is what a fresh reading finds. It holds where the clock is coarse too.
func TestKept(t *testing.T) {
	for seed := range uint64(8) {
		random := rand.New(rand.NewPCG(seed, 2))
		dir := household(t)
		put(t, dir, "meter/R0.csv", "time,watts\n2025-01-01 10:00,5\n")
		good := map[string]string{}
		for _, name := range []string{"settings.csv", "packs.csv", "draws.csv", "meter/R0.csv", "shelf.csv"} {
			data, _ := os.ReadFile(filepath.Join(dir, name))
			good[name] = string(data)
		}
		good["meter/R1.csv"] = good["meter/R0.csv"]
		k := NewCache(dir)
		k.tick = 20 * time.Millisecond
		if seed%2 == 1 {
			k.stampOf, k.tick = coarse, coarseTick+5*time.Millisecond
		}
		readsAsFresh(t, k, "nothing")
		for range 30 {
			what := ""
			switch random.IntN(4) {
			case 0:
				b, err := Opening{}.Open(t.Context(), dir)
				if err != nil {
					what = "a ledger that cannot be opened"
					break
				}
				what, _ = changeAtRandom(t, b, random)
				b.Close()
			case 1:
				what = "a wait"
				time.Sleep(k.tick + 5*time.Millisecond)
				readsAsFresh(t, k, what)
			default:
				what = changeByHand(t, dir, good, seed%2 == 1, random)
			}
			readsAsFresh(t, k, fmt.Sprintf("seed %d, %s", seed, what))
		}
	}
}

// What does not change is not read again: the records are the very same.
func TestKeptReadsOnce(t *testing.T) {
	dir := household(t)
	k := NewCache(dir)
	first := readsAsFresh(t, k, "nothing")
	if again := readsAsFresh(t, k, "nothing"); again != first {
		t.Error("it was read again though nothing changed")
	}
	put(t, dir, "shelf.csv", "date,shop,item,size,price\n")
	next := readsAsFresh(t, k, "a new file")
	if next == first {
		t.Error("a new file was not read")
	}
	if unsafe.StringData(next.Packs.At(0).ID) != unsafe.StringData(first.Packs.At(0).ID) {
		t.Error("packs.csv was read again though it did not change")
	}
}

// A change that is being saved counts as soon as it is decided, as it does for
// everybody who reads.
func TestKeptSeesWhatIsBeingSaved(t *testing.T) {
	dir := household(t)
	k := NewCache(dir)
	before := readsAsFresh(t, k, "nothing")
	b := openBook(t, dir)
	if _, err := b.Edit("test", addDraw(t, "P1", "one")); err != nil {
		t.Fatal(err)
	}
	journal, err := os.ReadFile(filepath.Join(dir, changeFile(1)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Undo(); err != nil {
		t.Fatal(err)
	}
	readsAsFresh(t, k, "an undo")
	put(t, dir, journalFile, strings.Replace(string(journal), `"number":1`, `"number":3`, 1))
	after := readsAsFresh(t, k, "a save that was stopped")
	if after.Draws.Len() != before.Draws.Len()+1 {
		t.Errorf("%d draws, %d before: the save that was stopped does not count", after.Draws.Len(), before.Draws.Len())
	}
}

// TestKeptWhileTwoWrite: while others save changes of two files, whoever reads
// sees both halves of a change or none, and in the end all of them.
func TestKeptWhileTwoWrite(t *testing.T) {
	dir := household(t)
	k := NewCache(dir)
	first := readsAsFresh(t, k, "nothing")
	const each = 8
	var writers, readers sync.WaitGroup
	done := make(chan struct{})
	for w := range 2 {
		writers.Go(func() {
			for i := range each {
				b, err := Opening{Wait: time.Minute}.Open(t.Context(), dir)
				if err == nil {
					_, err = b.Edit("test", pairOf(fmt.Sprintf("%d-%d", w, i)))
					b.Close()
				}
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	for range 2 {
		readers.Go(func() {
			for last := 0; ; {
				rec, _, err := k.Read()
				if err != nil {
					t.Error(err)
					return
				}
				draws, counts := rec.Draws.Len()-first.Draws.Len(), len(rec.Counts)-len(first.Counts)
				if draws != counts || draws < last {
					t.Errorf("it sees %d draws and %d counts that were saved with them, after %d", draws, counts, last)
					return
				}
				last = draws
				select {
				case <-done:
					return
				default:
				}
			}
		})
	}
	writers.Wait()
	close(done)
	readers.Wait()
	if rec := readsAsFresh(t, k, "all"); rec.Draws.Len() != first.Draws.Len()+2*each {
		t.Errorf("it has %d draws, want %d", rec.Draws.Len(), first.Draws.Len()+2*each)
	}
}
