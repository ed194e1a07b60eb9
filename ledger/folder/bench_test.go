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
