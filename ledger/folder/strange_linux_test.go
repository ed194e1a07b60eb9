package folder

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"syscall"
	"testing"
	"unsafe"

	"golang.org/x/sys/unix"
)

var _ = addRole("strange", onStrangeDisk)

// addRole adds a role that only this system has.
func addRole(name string, do func(dir string) error) bool { roles[name] = do; return true }

// refuse lets calls of this process fail from now on, as they do on a file
// system that does not have them.
func refuse(calls map[uint32]syscall.Errno) error {
	filter := []unix.SockFilter{{Code: unix.BPF_LD | unix.BPF_W | unix.BPF_ABS, K: 0}}
	for call, errno := range calls {
		filter = append(filter,
			unix.SockFilter{Code: unix.BPF_JMP | unix.BPF_JEQ | unix.BPF_K, Jf: 1, K: call},
			unix.SockFilter{Code: unix.BPF_RET | unix.BPF_K, K: unix.SECCOMP_RET_ERRNO | uint32(errno)})
	}
	filter = append(filter, unix.SockFilter{Code: unix.BPF_RET | unix.BPF_K, K: unix.SECCOMP_RET_ALLOW})
	program := unix.SockFprog{Len: uint16(len(filter)), Filter: &filter[0]}
	if err := unix.Prctl(unix.PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0); err != nil {
		return err
	}
	_, _, errno := syscall.Syscall(unix.SYS_SECCOMP, unix.SECCOMP_SET_MODE_FILTER, unix.SECCOMP_FILTER_FLAG_TSYNC, uintptr(unsafe.Pointer(&program)))
	if errno != 0 {
		return errno
	}
	return nil
}

// onStrangeDisk makes and changes a ledger without locks, syncs and swaps.
func onStrangeDisk(dir string) error {
	var errno int
	if _, err := fmt.Sscan(os.Getenv(whoVariable), &errno); err != nil {
		return err
	}
	lacks := syscall.Errno(errno)
	if err := refuse(map[uint32]syscall.Errno{unix.SYS_FLOCK: lacks, unix.SYS_FSYNC: lacks, unix.SYS_RENAMEAT2: lacks}); err != nil {
		fmt.Println("skip", err)
		return nil
	}
	if err := Create(context.Background(), dir+"/new", "init", map[string][]byte{"settings.csv": []byte(okSettings)}); err != nil {
		return err
	}
	b, err := opened(context.Background(), dir, packsDrawn)
	if err != nil {
		return err
	}
	for _, do := range []func() (Change, error){
		func() (Change, error) { return b.Edit("pair", pairOf("1")) },
		func() (Change, error) { return b.Edit("pair", pairOf("2")) },
		b.Undo,
	} {
		if _, err := do(); err != nil {
			return err
		}
	}
	for _, w := range b.Warnings() {
		fmt.Println("warning:", w.What)
	}
	return b.Close()
}

// TestStrangeFileSystem: a folder whose file system knows neither locks nor
// syncing nor how to swap two names, as on a network, works all the same, and one
// warning says what is not promised there.
func TestStrangeFileSystem(t *testing.T) {
	for _, errno := range []syscall.Errno{syscall.EINVAL, syscall.EOPNOTSUPP, syscall.ENOLCK, syscall.ENOSYS} {
		dir := numbered(t)
		out, err := child(t, "strange", dir, fmt.Sprint(int(errno))).CombinedOutput()
		if strings.HasPrefix(string(out), "skip") {
			t.Skip(string(out))
		}
		if err != nil {
			t.Errorf("%v: %v\n%s", errno, err, out)
			continue
		}
		if told := string(out); strings.Count(told, "warning:") != 1 || !strings.Contains(told, "keeps no locks") || !strings.Contains(told, "power cut") {
			t.Errorf("%v: told %q", errno, out)
		}
		rec, faults := read(t, dir)
		if draws, _ := notes(rec); len(faults) > 0 || fmt.Sprint(draws) != "[1]" {
			t.Errorf("%v: %v, %v", errno, draws, faults)
		}
		leftovers(t, dir)
		if _, err := os.Stat(dir + "/new/settings.csv"); err != nil {
			t.Error(err)
		}
	}
	// A real error is none of these.
	if isUnsupported(errors.Join(syscall.EIO, syscall.EACCES)) {
		t.Error("an error of the disk is taken for a lack")
	}
}
