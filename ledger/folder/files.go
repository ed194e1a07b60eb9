package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"

	"putby/ledger"
)

// A snapshot is the text of all files of a ledger at one moment.
type snapshot struct {
	texts  map[string]string // by name within the folder; what does not exist is not there
	faults ledger.Faults     // files that cannot be read
}

// snap reads all files below root. Overlay, which may be nil, gives names
// other texts than the files have; a nil text means that the file is not
// there.
func snap(root *os.Root, overlay map[string]*string) (*snapshot, error) {
	s := &snapshot{texts: map[string]string{}}
	names := make([]string, 0, 16)
	for _, k := range append([]ledger.Kind{ledger.SettingsKind()}, ledger.Kinds()...) {
		names = append(names, k.File)
	}
	logs, fault := listLogs(root, overlay)
	if fault != nil {
		s.faults = append(s.faults, *fault)
	}
	names = append(names, logs...)
	var mu sync.Mutex
	parallel(names, func(name string) {
		text, found, fault := textOf(root, overlay, name)
		mu.Lock()
		defer mu.Unlock()
		if fault != nil {
			s.faults = append(s.faults, *fault)
		} else if found {
			s.texts[name] = text
		}
	})
	return s, nil
}

func textOf(root *os.Root, overlay map[string]*string, name string) (text string, found bool, fault *ledger.Fault) {
	if over, ok := overlay[name]; ok {
		if over == nil {
			return "", false, nil
		}
		return *over, true, nil
	}
	return readFile(root, name)
}

// parallel calls do for every item, as many at once as there are processors.
func parallel[T any](items []T, do func(T)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(items)) {
		wg.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(items) {
					return
				}
				do(items[i])
			}
		})
	}
	wg.Wait()
}

// listLogs returns the names of the meter logs, meter/RUN.csv.
func listLogs(root *os.Root, overlay map[string]*string) ([]string, *ledger.Fault) {
	var names []string
	for name := range overlay {
		if path.Dir(name) == ledger.MeterFolder && isLog(path.Base(name)) {
			names = append(names, name)
		}
	}
	info, err := root.Stat(ledger.MeterFolder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return names, nil
	case err != nil:
		return names, fileFault(ledger.MeterFolder, err)
	case !info.IsDir():
		return names, wrongType(ledger.MeterFolder, "a folder")
	}
	entries, err := fs.ReadDir(root.FS(), ledger.MeterFolder)
	if err != nil {
		return names, fileFault(ledger.MeterFolder, err)
	}
	for _, e := range entries {
		if name := path.Join(ledger.MeterFolder, e.Name()); isLog(e.Name()) && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, nil
}

// isLog tells a meter log by its name. Names in "._" are a file system's own
// notes beside a file.
func isLog(name string) bool {
	return strings.HasSuffix(name, ".csv") && !strings.HasPrefix(name, "._")
}

// readFile reads a file below root. It opens nothing but regular files, and
// does not wait for one that turns into a pipe meanwhile.
func readFile(root *os.Root, name string) (text string, found bool, fault *ledger.Fault) {
	info, err := root.Stat(name) // follows links, but not out of the folder
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := root.Lstat(name); err == nil {
			return "", false, &ledger.Fault{File: name, What: "the file is a link that leads nowhere", Hint: "put the file itself here"}
		}
		return "", false, nil
	case err != nil:
		return "", false, fileFault(name, err)
	case !info.Mode().IsRegular():
		return "", false, wrongType(name, "a file")
	case info.Size() > MaxFile:
		return "", false, tooLarge(name)
	}
	f, err := root.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return "", false, fileFault(name, err)
	}
	defer f.Close()
	if now, err := f.Stat(); err != nil || !now.Mode().IsRegular() {
		return "", false, wrongType(name, "a file")
	}
	var b strings.Builder
	b.Grow(int(info.Size()) + 1)
	n, err := io.Copy(&b, io.LimitReader(f, MaxFile+1))
	switch {
	case err != nil:
		return "", false, fileFault(name, err)
	case n > MaxFile:
		return "", false, tooLarge(name)
	}
	return b.String(), true, nil
}

func tooLarge(name string) *ledger.Fault {
	return &ledger.Fault{File: name, What: fmt.Sprintf("the file is larger than %d MiB", MaxFile>>20), Hint: "split the ledger by years"}
}

func wrongType(name, want string) *ledger.Fault {
	return &ledger.Fault{File: name, What: "it is not " + want, Hint: "move it out of the ledger's folder"}
}

// fileFault turns an error of the file system into a fault.
func fileFault(name string, err error) *ledger.Fault {
	if p := new(fs.PathError); errors.As(err, &p) {
		err = p.Err
	}
	f := &ledger.Fault{File: name, What: "the file cannot be read: " + err.Error()}
	// os.Root has no exported error for a path that leaves it.
	if strings.Contains(err.Error(), "path escapes") {
		f.What, f.Hint = "the file is a link that leaves the ledger's folder", "put the file itself here"
	}
	return f
}
