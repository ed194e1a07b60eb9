//go:build unix

package folder

import (
	"os/exec"
	"syscall"
)

func umask(mask int) { syscall.Umask(mask) }

func mkfifo(path string) error { return syscall.Mkfifo(path, 0o600) }

// mkzero makes a device without end, /dev/zero's twin.
func mkzero(path string) error { return syscall.Mknod(path, syscall.S_IFCHR|0o600, 5) }

func asNobody(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
}
