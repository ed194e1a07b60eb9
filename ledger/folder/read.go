package folder

import (
	"cmp"
	"errors"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"syscall"

	"putby/ledger"
	"putby/pricing/exact"
)

// Read reads the ledger in dir. All faults of all files come at once, sorted,
// each at its line and column; records that have one are read as far as they
// go. The error, an [ledger.Fault], is for a dir that is not a ledger.
func Read(dir string) (*ledger.Records, ledger.Faults, error) {
	s, err := readIn(dir, func(root *tree) (*snapshot, error) { return settled(root) })
	if err != nil {
		return nil, nil, err
	}
	rec, faults := parse(s, letGo)
	return rec, faults, nil
}

// readIn opens the ledger in dir, reads something of it, and closes it again.
func readIn[T any](dir string, read func(root *tree) (T, error)) (none T, err error) {
	root, err := openRoot(dir)
	if err != nil {
		return none, err
	}
	defer root.Close()
	return read(root)
}

// openRoot opens a folder that has a settings.csv.
func openRoot(dir string) (*tree, error) {
	root, err := openTree(dir)
	if err != nil {
		return nil, notOpened(dir, err)
	}
	// A new ledger whose making was interrupted has its journal first.
	for _, name := range []string{ledger.SettingsFile, journalFile} {
		switch _, err := root.Lstat(name); {
		case err == nil:
			return root, nil
		case !isMissing(err):
			root.Close()
			return nil, cannot(exact.Quote(dir)+" cannot be read: "+name, err)
		}
	}
	root.Close()
	return nil, notLedger(exact.Quote(dir)+" is not a ledger: it has no "+ledger.SettingsFile, nil)
}

// notOpened tells a folder that is not there from one that cannot be reached.
func notOpened(dir string, err error) error {
	for _, other := range []error{fs.ErrPermission, syscall.EIO, syscall.EMFILE, syscall.ENFILE, syscall.ENOMEM} {
		if errors.Is(err, other) {
			return &ledger.Fault{
				Kind: ErrFailed, What: exact.Quote(dir) + " cannot be opened", Err: Cause(err),
				Hint: "look at the folder's permissions and at its disk, and run the command again",
			}
		}
	}
	return notLedger(exact.Quote(dir)+" cannot be opened as a ledger", Cause(err))
}

func notLedger(what string, err error) *ledger.Fault {
	return &ledger.Fault{
		Kind: ErrNotLedger, What: what, Err: err, Choice: ledger.WhichLedger,
	}
}

// What becomes of the texts of a ledger once they are records.
const (
	keepTexts = false
	letGo     = true
)

// parse turns the texts of a ledger into records.
func parse(s *snapshot, release bool) (*ledger.Records, ledger.Faults) {
	rec := &ledger.Records{}
	faults := append(slices.Clone(s.faults), parseSettings(s.texts[ledger.SettingsFile], rec)...)
	names := make([]string, 0, len(s.texts))
	for name := range s.texts {
		if name != ledger.SettingsFile {
			names = append(names, name)
		}
	}
	// The longest first, so that no processor waits for it at the end.
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(len(s.texts[b]), len(s.texts[a])), cmp.Compare(a, b))
	})
	var mu sync.Mutex
	take := func(name string) string {
		mu.Lock()
		defer mu.Unlock()
		text := s.texts[name]
		if release {
			delete(s.texts, name)
		}
		return text
	}
	ledger.ParallelEach(names, func(name string) {
		keep, found := parseRecords(name, take(name), 0, rec)
		mu.Lock()
		defer mu.Unlock()
		faults = append(faults, found...)
		keep(rec)
	})
	faults.Sort()
	return rec, faults
}

// rowReader reads the rows of one file, as [ledger.Reader.Row] does.
type rowReader func(line int, cells []string) ledger.Faults

// parseSettings reads settings.csv.
func parseSettings(data string, rec *ledger.Records) ledger.Faults {
	var r *ledger.SettingsReader
	faults, began := parseFile(ledger.SettingsFile, data, func(header []string) (rowReader, ledger.Faults) {
		var faults ledger.Faults
		if r, faults = ledger.ReadSettings(rec, header); r == nil {
			return nil, faults
		}
		return r.Row, faults
	})
	if r == nil {
		r, _ = ledger.ReadSettings(rec, []string{"setting", "value"})
		if missing := r.Close(); !began && len(faults) == 0 {
			return missing
		}
		return faults
	}
	return append(faults, r.Close()...)
}

// parseRecords reads any other file, one of records after its header from an offset on;
// with 0 all of them. Files of several kinds may be read at once; what is in one of a
// series, keep puts among the records, for one after the other. Of no text there are none.
func parseRecords(name, data string, from int, rec *ledger.Records) (keep func(*ledger.Records), faults ledger.Faults) {
	if isSeries(name) {
		return parseSeries(name, data, rec.Settings.Zone)
	}
	return func(*ledger.Records) {}, parseKind(name, data, from, rec)
}

func parseKind(name, data string, from int, rec *ledger.Records) ledger.Faults {
	k, _ := ledger.KindOf(name)
	faults, _ := parseFrom(name, data, from, func(header []string) (rowReader, ledger.Faults) {
		r, faults := k.Read(rec, rec.Settings.Zone, header)
		if r == nil {
			return nil, faults
		}
		// No row is shorter than its separators and line end.
		k.Grow(rec, min(strings.Count(data[from:], "\n"), len(data[from:])/(len(header)+1)))
		return r.Row, faults
	})
	return faults
}

// parseFile reads the header of a file, begins with it, and reads each row. It
// reports whether there was a header.
func parseFile(name, data string, begin func(header []string) (rowReader, ledger.Faults)) (ledger.Faults, bool) {
	return parseFrom(name, data, 0, begin)
}

// parseFrom is parseFile for the rows that begin at an offset or after it.
func parseFrom(name, data string, from int, begin func(header []string) (rowReader, ledger.Faults)) (ledger.Faults, bool) {
	t := &tally{file: name}
	text, ok := decode(data, t)
	if !ok {
		return t.faults(), true
	}
	s := newScanner(text, separator(text))
	header, ok := s.header()
	if !ok {
		return t.faults(), false
	}
	if s.bad != nil {
		t.add(*s.bad)
		return t.faults(), true
	}
	read, faults := begin(header)
	for _, f := range faults {
		t.cell(s, header, f)
	}
	if skipped := from - (len(data) - len(text)); from > 0 { // from counts the byte order mark, the scanner does not
		s.skipTo(skipped)
	}
	for read != nil && s.next() {
		switch {
		case s.bad != nil:
			t.add(*s.bad)
		case s.blank():
		default:
			for i, cell := range s.cells {
				if strings.HasPrefix(cell, "'") {
					s.cells[i] = ledger.UnescapeFormula(cell)
				}
			}
			for _, f := range read(s.startLine, s.cells) {
				t.cell(s, header, f)
			}
		}
	}
	return t.faults(), true
}

// header scans the first record that is not blank, and returns the names in
// it. It reports false when there is none.
func (s *scanner) header() ([]string, bool) {
	for s.next() {
		if !s.blank() {
			header := slices.Clone(s.cells)
			for i, name := range header {
				header[i] = strings.Trim(name, " \t")
			}
			return header, true
		}
	}
	return nil, false
}

// cell adds a fault of the record scanned last at the cell that it names.
func (t *tally) cell(s *scanner, header []string, f ledger.Fault) {
	f.Line, f.Column = s.cellAt(column(header, f.Field, len(s.cells)))
	t.add(f)
}

// column returns the index of the column that a fault is at. A name that is in
// the header twice is meant where it comes last. Without a name it is the
// first cell beyond the header, or -1.
func column(header []string, field string, cells int) int {
	if field == "" {
		if cells > len(header) {
			return len(header)
		}
		return -1
	}
	for i, name := range slices.Backward(header) {
		if name == field {
			return i
		}
	}
	return -1
}
