//go:build unix

package main

import (
	"io"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"putby/ledger/ledgertest"
)

// BenchmarkCost is the main job as a process does it, from the files to CSV.
func BenchmarkCost(b *testing.B) {
	for _, size := range []struct {
		name  string
		times int
	}{{"decade", 1}, {"hundred", 100}} {
		b.Run(size.name, func(b *testing.B) {
			dir := b.TempDir()
			if err := ledgertest.Write(dir, 1, size.times); err != nil {
				b.Fatal(err)
			}
			env := environment{
				stdin: strings.NewReader(""), stdout: io.Discard, stderr: os.Stderr, getenv: func(string) string { return "" }, now: time.Now,
			}
			b.ReportAllocs()
			before := cpuTime(b)
			for b.Loop() {
				if status := run(b.Context(), []string{"cost", "--ledger", dir, "--format", "csv"}, env); status != exitDone {
					b.Fatal("exit status", status)
				}
			}
			b.ReportMetric(float64(cpuTime(b)-before)/1e6/float64(b.N), "cpu-ms/op")
		})
	}
}

// cpuTime is the processor time used so far, all threads together: on a busy
// machine it tells more than the clock does.
func cpuTime(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
