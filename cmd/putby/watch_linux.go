package main

import (
	"os"
	"syscall"
)

// ownStderr returns another name of file 2 for what putby says, so that file 2
// can be left to traces.
func ownStderr() *os.File {
	fd, err := syscall.Dup(2)
	if err != nil {
		return nil
	}
	syscall.CloseOnExec(fd)
	return os.NewFile(uintptr(fd), os.Stderr.Name())
}

// redirectTraces lets file 2 be another file.
func redirectTraces(to *os.File) error { return syscall.Dup3(int(to.Fd()), 2, 0) }
