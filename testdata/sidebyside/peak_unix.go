//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peakOf is the most memory that a process had, in bytes.
func peakOf(s *os.ProcessState) int64 {
	usage, ok := s.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "linux" {
		return int64(usage.Maxrss) << 10
	}
	return int64(usage.Maxrss)
}
