package folder

import (
	"io/fs"
	"syscall"
)

// An ownStamp is what the system knows of a file besides its size and the time at
// which its content changed: that time can be set back, the change of the rest
// cannot.
type ownStamp struct {
	device, number uint64           // which file it is; 0 where the system does not say
	changed        syscall.Timespec // when content, name or access last changed
}

func ownStampOf(info fs.FileInfo) (s ownStamp) {
	if sys, ok := info.Sys().(*syscall.Stat_t); ok {
		s = ownStamp{uint64(sys.Dev), sys.Ino, sys.Ctim}
	}
	return s
}
