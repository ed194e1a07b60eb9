package folder

import (
	"io"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"syscall"
)

// A tree is a ledger's folder as it is read; nothing outside it can be reached.
type tree struct {
	*os.Root
	fail func(step string) error // lets tests have a step of reading fail; nil otherwise
}

func openTree(dir string) (*tree, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	return &tree{Root: root}, nil
}

func (t *tree) step(what string) error {
	if t.fail == nil {
		return nil
	}
	return t.fail(what)
}

// Stat is that of [os.Root]: it follows links, but not out of the folder.
func (t *tree) Stat(name string) (fs.FileInfo, error) {
	if err := t.step("stat " + name); err != nil {
		return nil, err
	}
	return t.Root.Stat(name)
}

// Lstat is that of [os.Root].
func (t *tree) Lstat(name string) (fs.FileInfo, error) {
	if err := t.step("lstat " + name); err != nil {
		return nil, err
	}
	return t.Root.Lstat(name)
}

// OpenFile is that of [os.Root].
func (t *tree) OpenFile(name string, flag int, perm fs.FileMode) (*os.File, error) {
	if err := t.step("open " + name); err != nil {
		return nil, err
	}
	return t.Root.OpenFile(name, flag, perm)
}

// names lists what lies in a folder, in no order.
func (t *tree) names(name string) ([]string, error) {
	f, err := t.OpenFile(name, os.O_RDONLY, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return f.Readdirnames(-1)
}

// numbers returns the numbers of the files in a folder that are called by one, in
// order; fileOf is the name that the file of a number has.
func (t *tree) numbers(folder string, fileOf func(int) string) ([]int, error) {
	names, err := t.names(folder)
	if err != nil {
		return nil, err
	}
	var numbers []int
	for _, name := range names {
		if n, _ := strconv.Atoi(strings.TrimSuffix(name, ".json")); n > 0 && fileOf(n) == folder+"/"+name {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	return numbers, nil
}

// exists reports whether something is there by that name.
func (t *tree) exists(name string) bool {
	_, err := t.Lstat(name)
	return err == nil
}

// openRegular opens a file to read, and nothing but a regular one of at most
// so many bytes; it does not wait for one that turns into a pipe meanwhile.
// Without an error and without a file there is none.
func (t *tree) openRegular(name string, most int64) (*os.File, fs.FileInfo, error) {
	info, err := t.Stat(name)
	// One that came between two looks is looked at again: a save renames it into place.
	for tries := 3; err != nil; tries-- {
		came, bad := t.missing(name, err)
		if !came || tries == 0 {
			return nil, nil, bad
		}
		info, err = t.Stat(name)
	}
	if err := regular(name, info, most); err != nil {
		return nil, nil, err
	}
	f, err := t.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		_, err = t.missing(name, err)
		return nil, nil, err
	}
	info, err = f.Stat()
	if err == nil {
		err = regular(name, info, most)
	}
	if err != nil {
		f.Close()
		return nil, nil, unreadable(name, err)
	}
	return f, info, nil
}

// missing tells a file that is not there, which is no error, from one that
// cannot be reached, and from one that came at this moment.
func (t *tree) missing(name string, err error) (came bool, bad error) {
	if !isMissing(err) {
		return false, unreadable(name, err)
	}
	info, err := t.Lstat(name)
	if err == nil && info.Mode()&fs.ModeSymlink != 0 {
		return false, &fileError{name: name, what: "the file is a link that leads nowhere", hint: "put the file itself here"}
	}
	return err == nil, nil
}

func regular(name string, info fs.FileInfo, most int64) error {
	switch {
	case !info.Mode().IsRegular():
		return &fileError{name: name, what: "it is not a file", hint: "move it out of the ledger's folder"}
	case info.Size() > most:
		return tooLarge(name, most)
	}
	return nil
}

// read reads a file of at most so many bytes.
func (t *tree) read(name string, most int64) (text string, found bool, err error) {
	text, info, err := t.readInfo(name, most)
	return text, info != nil, err
}

// readInfo is read, with what the system knew of the file before it was read; nil
// where there is none.
func (t *tree) readInfo(name string, most int64) (text string, info fs.FileInfo, err error) {
	f, info, err := t.openRegular(name, most)
	if f == nil {
		return "", nil, err
	}
	defer f.Close()
	var b strings.Builder
	b.Grow(int(info.Size()) + 1)
	chunk := make([]byte, min(info.Size()+1, 32<<10)) // no more than a small file needs
	n, err := io.CopyBuffer(&b, io.LimitReader(t.reader(name, f), most+1), chunk)
	switch {
	case err != nil:
		return "", nil, unreadable(name, err)
	case n > most:
		return "", nil, tooLarge(name, most)
	}
	return b.String(), info, nil
}

// same reports whether a file holds a text, and nothing else, without reading
// it into memory.
func (t *tree) same(name, text string) (bool, error) {
	f, info, err := t.openRegular(name, MaxFile)
	if f == nil || info.Size() != int64(len(text)) {
		return false, err
	}
	defer f.Close()
	r := t.reader(name, f)
	for chunk := make([]byte, min(len(text)+1, 256<<10)); ; {
		n, err := r.Read(chunk)
		if n > len(text) || string(chunk[:n]) != text[:n] {
			return false, nil
		}
		text = text[n:]
		if err == io.EOF {
			return text == "", nil
		}
		if err != nil {
			return false, unreadable(name, err)
		}
	}
}

// reader reads an open file.
func (t *tree) reader(name string, f *os.File) io.Reader { return treeFile{t, name, f} }

type treeFile struct {
	tree *tree
	name string
	file *os.File
}

func (f treeFile) Read(p []byte) (int, error) {
	if err := f.tree.step("read " + f.name); err != nil {
		return 0, err
	}
	return f.file.Read(p)
}
