package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
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

func (s *snapshot) text(name string) string { return s.texts[name] }

// with returns the snapshot with other texts for some files, nil where one is
// not there. Files that hold no records are left out.
func (s *snapshot) with(texts map[string]*string) *snapshot {
	next := &snapshot{make(map[string]string, len(s.texts)+len(texts)), s.faults}
	maps.Copy(next.texts, s.texts)
	for name, text := range texts {
		if text == nil {
			delete(next.texts, name)
		} else if isRecords(name) {
			next.texts[name] = *text
		}
	}
	return next
}

// isRecords tells the files of a ledger by their names.
func isRecords(name string) bool {
	if k, ok := ledger.KindOf(name); ok {
		return k.File == name
	}
	return path.Dir(name) == ledger.MeterFolder && isLog(path.Base(name))
}

// snap reads all files below root, with a change that is being saved made.
func snap(root *os.Root, pending *Change) *snapshot {
	s := &snapshot{texts: map[string]string{}}
	names := []string{ledger.SettingsFile}
	for _, k := range ledger.Kinds() {
		names = append(names, k.File)
	}
	logs, fault := listLogs(root)
	if fault != nil {
		s.faults = append(s.faults, *fault)
	}
	names = append(names, logs...)
	ahead := map[string]FileChange{}
	if pending != nil {
		for _, f := range pending.Files {
			ahead[f.Name] = f
			if isRecords(f.Name) && !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
		}
	}
	var mu sync.Mutex
	parallel(names, func(name string) {
		text, found, fault := readFile(root, name)
		if f, ok := ahead[name]; ok && fault == nil {
			text, found, _ = f.after(text, found)
		}
		mu.Lock()
		defer mu.Unlock()
		if fault != nil {
			s.faults = append(s.faults, *fault)
		} else if found {
			s.texts[name] = text
		}
	})
	return s
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
func listLogs(root *os.Root) ([]string, *ledger.Fault) {
	info, err := root.Stat(ledger.MeterFolder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, fileFault(ledger.MeterFolder, err)
	case !info.IsDir():
		return nil, wrongType(ledger.MeterFolder, "a folder")
	}
	entries, err := fs.ReadDir(root.FS(), ledger.MeterFolder)
	if err != nil {
		return nil, fileFault(ledger.MeterFolder, err)
	}
	var names []string
	for _, e := range entries {
		if isLog(e.Name()) {
			names = append(names, path.Join(ledger.MeterFolder, e.Name()))
		}
	}
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
	chunk := make([]byte, min(info.Size()+1, 32<<10)) // no more than a small file needs
	n, err := io.CopyBuffer(&b, io.LimitReader(f, MaxFile+1), chunk)
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
	err = cause(err)
	f := &ledger.Fault{File: name, What: "the file cannot be read: " + err.Error(), Hint: "look at its permissions"}
	// os.Root has no exported error for a path that leaves it.
	if strings.Contains(err.Error(), "path escapes") {
		f.What, f.Hint = "the file is a link that leaves the ledger's folder", "put the file itself here"
	}
	return f
}
