//go:build unix

package folder

import (
	"io/fs"
	"syscall"
)

// owner returns whose a file is.
func owner(info fs.FileInfo) (user, group int, known bool) {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return int(s.Uid), int(s.Gid), true
	}
	return 0, 0, false
}
