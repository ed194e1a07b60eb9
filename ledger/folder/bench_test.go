//go:build unix

package folder

import (
	"encoding/csv"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/ledgertest"
)

// Sizes of the benchmarks, in household-decades.
var sizes = []struct {
	name  string
	times int
}{{"decade", 1}, {"hundred", 100}}

var made = struct {
	sync.Mutex
	dirs map[int]string
}{dirs: map[int]string{}}

// generated returns the folder of a ledger of that size, made once a process.
func generated(b *testing.B, times int) string {
	made.Lock()
	defer made.Unlock()
	if made.dirs[times] == "" {
		dir, err := os.MkdirTemp(scratch, "ledger")
		if err != nil {
			b.Fatal(err)
		}
		if err := ledgertest.Write(dir, 1, times); err != nil {
			b.Fatal(err)
		}
		made.dirs[times] = dir
	}
	return made.dirs[times]
}

// reportCPU adds the processor time of an operation, all threads together: on
// a busy machine it tells more than the clock does.
func reportCPU(b *testing.B) func() {
	used := func() time.Duration {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Fatal(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	before := used()
	return func() { b.ReportMetric(float64(used()-before)/1e6/float64(b.N), "cpu-ms/op") }
}

// ofEachSize measures do on a ledger of each size.
func ofEachSize(b *testing.B, do func(b *testing.B, dir string)) {
	for _, size := range sizes {
		b.Run(size.name, func(b *testing.B) {
			dir := generated(b, size.times)
			b.ReportAllocs()
			defer reportCPU(b)()
			for b.Loop() {
				do(b, dir)
			}
		})
	}
}

// eachText reads the files of a ledger one after the other.
func eachText(b *testing.B, dir string, do func(text string)) {
	paths, _ := filepath.Glob(dir + "/*.csv")
	logs, _ := filepath.Glob(dir + "/meter/*.csv")
	for _, path := range append(paths, logs...) {
		data, err := os.ReadFile(path)
		if err != nil {
			b.Fatal(err)
		}
		do(string(data))
	}
}

func BenchmarkRead(b *testing.B) {
	ofEachSize(b, func(b *testing.B, dir string) {
		if _, faults, err := Read(dir); err != nil || len(faults) > 0 {
			b.Fatal(err, faults[:min(1, len(faults))])
		}
	})
}

// BenchmarkPlain reads the same files with encoding/csv alone: what the reading
// is measured against.
func BenchmarkPlain(b *testing.B) {
	ofEachSize(b, func(b *testing.B, dir string) {
		eachText(b, dir, func(text string) {
			r := csv.NewReader(strings.NewReader(text))
			r.ReuseRecord = true
			for {
				if _, err := r.Read(); errors.Is(err, io.EOF) {
					return
				} else if err != nil {
					b.Fatal(err)
				}
			}
		})
	})
}

// BenchmarkScan splits the same files into cells.
func BenchmarkScan(b *testing.B) {
	ofEachSize(b, func(b *testing.B, dir string) {
		eachText(b, dir, func(text string) {
			for s := newScanner(text, ','); s.next(); {
			}
		})
	})
}

// BenchmarkReadKind reads the records of a kind from the text of their file.
func BenchmarkReadKind(b *testing.B) {
	files := ledgertest.Files(1, 1)
	for _, name := range []string{ledger.ReceiptsFile, ledger.PhasesFile, ledger.PacksFile, ledger.DrawsFile} {
		b.Run(strings.TrimSuffix(name, ".csv"), func(b *testing.B) {
			text := string(files[name])
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				rec := &ledger.Records{}
				if faults := parseKind(name, text, 0, rec); len(faults) > 0 {
					b.Fatal(faults)
				}
			}
		})
	}
}

// BenchmarkEdit notes a price of a food, without saving it: judged by the records of
// the food, and by all.
func BenchmarkEdit(b *testing.B) {
	check := func(rec *ledger.Records) ledger.Faults {
		_, faults := ledger.Join(rec, ledger.Options{Bare: true})
		return faults
	}
	for _, size := range sizes {
		dir := generated(b, size.times)
		o := Opening{Check: check, Judge: "a benchmark"}
		first, err := o.Open(b.Context(), dir)
		if err != nil {
			b.Fatal(err)
		}
		settings, _ := ledger.KindOf(ledger.SettingsFile)
		if _, err := first.Edit("first", func(tx *Tx) error {
			return tx.Append(settings, map[string]string{"setting": "show_mass", "value": "kg"})
		}); err != nil {
			b.Fatal(err)
		}
		if err := first.Close(); err != nil {
			b.Fatal(err)
		}
		for _, way := range []string{"excerpt", "whole"} {
			b.Run(size.name+"/"+way, func(b *testing.B) {
				b.ReportAllocs()
				done := reportCPU(b)
				for b.Loop() {
					notePrice(b, o, dir, way == "excerpt")
				}
				done()
			})
		}
	}
}

// notePrice would note a price.
func notePrice(b *testing.B, o Opening, dir string, excerpt bool) {
	book, err := o.Look(dir)
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	shelf, _ := ledger.KindOf(ledger.ShelfFile)
	food := ""
	read := book.Excerpt(func(rec *ledger.Records) (Scope, bool) {
		food = rec.Foods[0].ID
		return Scope{Foods: []string{food}}, excerpt
	})
	if excerpt != (read != nil) {
		b.Fatal("there is an excerpt:", read != nil)
	}
	if _, err := book.Try("bench", func(tx *Tx) error {
		return tx.Append(shelf, map[string]string{"date": "2024-01-01", "shop": "Mill Lane", "item": food, "size": "1 kg", "price": "1.00", "terms": "regular"})
	}); err != nil {
		b.Fatal(err)
	}
	if judged := book.records.Excerpt != nil; judged != excerpt {
		b.Fatal("judged by the excerpt:", judged)
	}
}
