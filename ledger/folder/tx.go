package folder

import (
	"fmt"
	"io/fs"
	"iter"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
)

// A Tx is a change in the making: edits of records and files, of which none is
// saved before all are. Records are told by the line that they begin at in the
// file as it was before the change.
type Tx struct {
	book   *Book
	sheets map[string]*sheet
	files  map[string]*string // written whole, by name; nil: taken away
	others map[string]*string // files without records as they were
	mark   string
}

// Mark gives the change a name of its own, such as a form that was sent, by
// which [Book.Marked] and [Marked] find it again for as long as the ledger's
// history is there. Whoever must save something once and only once looks for
// the mark between [Opening.Open] and [Book.Edit], with the lock held.
func (tx *Tx) Mark(mark string) { tx.mark = mark }

// sheet opens the file of a kind of records, once.
func (tx *Tx) sheet(k ledger.Kind) (*sheet, error) {
	if s := tx.sheets[k.File]; s != nil {
		return s, nil
	}
	if _, written := tx.files[k.File]; written {
		return nil, fmt.Errorf("%s is written whole in this change already", k.File)
	}
	for _, f := range tx.book.files.faults {
		if f.File == k.File {
			return nil, &Refusal{Faults: ledger.Faults{f}, Already: true}
		}
	}
	open := openSheet
	if tx.book.records != nil && len(tx.book.faults) == 0 {
		open = beginSheet // it was read, or is known to have no fault
	}
	s, err := open(k.File, tx.book.files.texts[k.File], k.Header())
	if faults, ok := err.(ledger.Faults); ok {
		return nil, &Refusal{Faults: faults, Already: true}
	}
	if err != nil {
		return nil, err
	}
	tx.sheets[k.File] = s
	return s, nil
}

// Append adds a record behind the last, in a new file where there is none yet.
// Cells are by column; those left out are blank. A column that the file has
// done without so far is added to it.
func (tx *Tx) Append(k ledger.Kind, cells map[string]string) error {
	s, err := tx.sheet(k)
	if err != nil {
		return err
	}
	return s.append(cells)
}

// NextLine is the line at which the next record that is appended will begin.
func (tx *Tx) NextLine(k ledger.Kind) (int, error) {
	s, err := tx.sheet(k)
	if err != nil {
		return 0, err
	}
	return s.next, nil
}

// AppendRows is [Tx.Append] for many records, whose cells are in the order of
// columns and, of one, good until the next. Size is about how many bytes they
// come to. Began, which may be nil, is told at which line each begins.
func (tx *Tx) AppendRows(k ledger.Kind, columns []string, size int, rows iter.Seq[[]string], began func(line int)) error {
	s, err := tx.sheet(k)
	if err != nil {
		return err
	}
	s.added.Grow(size)
	return s.appendRows(columns, rows, began)
}

// Replace changes cells of the record that begins at a line. Cells that are not
// named stay as they are; "" makes one blank.
func (tx *Tx) Replace(k ledger.Kind, line int, cells map[string]string) error {
	s, i, err := tx.find(k, line)
	if err != nil {
		return err
	}
	return s.set(i, cells)
}

// Strike takes out the record that begins at a line.
func (tx *Tx) Strike(k ledger.Kind, line int) error {
	s, i, err := tx.find(k, line)
	if err != nil {
		return err
	}
	s.strike(i)
	return nil
}

// Row returns the cells of the record that begins at a line, by column, as the
// file has them with the edits made so far.
func (tx *Tx) Row(k ledger.Kind, line int) (map[string]string, error) {
	s, i, err := tx.find(k, line)
	if err != nil {
		return nil, err
	}
	return s.cells(i), nil
}

func (tx *Tx) find(k ledger.Kind, line int) (*sheet, int, error) {
	s, err := tx.sheet(k)
	if err != nil {
		return nil, 0, err
	}
	i, err := s.find(line)
	return s, i, err
}

// Rows returns the records that a file had before the change and that are not
// struck, by line, as [Tx.Row] does. A file that cannot be read has none.
func (tx *Tx) Rows(k ledger.Kind) iter.Seq2[int, map[string]string] { return tx.RowsWith(k, "") }

// RowsWith is [Tx.Rows] for the records in which an identifier stands, whatever it is
// there: in a file of years to take all of them apart is most of an edit.
func (tx *Tx) RowsWith(k ledger.Kind, id string) iter.Seq2[int, map[string]string] {
	return func(yield func(int, map[string]string) bool) {
		s, err := tx.sheet(k)
		if err != nil || s.load() != nil {
			return
		}
		for i := range s.rows {
			if text := s.textOf(i); i == 0 || text == "" || !strings.Contains(text, id) {
				continue
			}
			if !yield(s.rows[i].line, s.cells(i)) {
				return
			}
		}
	}
}

// WriteFile writes a file whole: a meter log, or one that holds no records,
// such as a map of columns. Its name is FILE or FOLDER/FILE.
func (tx *Tx) WriteFile(name string, data []byte) error {
	text := string(data)
	return tx.put(name, &text)
}

// RemoveFile takes a file away that [Tx.WriteFile] could have written. One that
// is not there is fine.
func (tx *Tx) RemoveFile(name string) error { return tx.put(name, nil) }

func (tx *Tx) put(name string, text *string) error {
	if tx.sheets[name] != nil {
		return fmt.Errorf("the records of %s are edited in this change already", name)
	}
	have, err := tx.ReadFile(name)
	switch {
	case err != nil:
		return err
	case text != nil:
		err = tx.portable(name)
	case have == nil: // nor need it be a name that this system can have
		return nil
	}
	if err != nil {
		return err
	}
	tx.files[name] = text
	return nil
}

// ReadFile returns what a file holds that [Tx.WriteFile] could have written,
// nil when there is none.
func (tx *Tx) ReadFile(name string) ([]byte, error) {
	if err := checkName(name); err != nil {
		return nil, err
	}
	text, known := tx.files[name]
	if !known {
		text, known = tx.others[name]
	}
	if !known && isRecords(name) {
		if have, ok := tx.book.files.texts[name]; ok {
			text = &have
		}
	} else if !known {
		var err error
		if text, err = tx.book.readOther(name); err != nil {
			return nil, err
		}
		tx.others[name] = text
	}
	if text == nil {
		return nil, nil
	}
	return []byte(*text), nil
}

// checkName holds the name of a file to one folder at most, and to what the
// ledger does not use itself.
func checkName(name string) error {
	parts := strings.Split(name, "/")
	hidden := slices.ContainsFunc(parts, func(p string) bool { return strings.HasPrefix(p, ".") })
	if !fs.ValidPath(name) || len(parts) > 2 || hidden || strings.Contains(name, `\`) {
		return &ledger.Fault{Kind: ErrInvalid, What: fmt.Sprintf("%q is not a name for a file in a ledger", name)}
	}
	return nil
}

// collect gathers what the edits change.
func (tx *Tx) collect(s *staged) {
	for _, name := range slices.Sorted(maps.Keys(tx.sheets)) {
		sh := tx.sheets[name]
		_, found := tx.book.files.texts[name]
		hunks := sh.hunks()
		if len(hunks) == 0 || len(sh.rows) == 0 && sh.count == 0 { // no more than a new header
			continue
		}
		text, _ := apply(sh.text, hunks)
		share(text, hunks)
		s.add(name, sh.text, found, &text, hunks)
	}
	for _, name := range slices.Sorted(maps.Keys(tx.files)) {
		before, found := tx.book.files.texts[name]
		if was := tx.others[name]; was != nil {
			before, found = *was, true
		}
		after := tx.files[name]
		if after == nil && !found || after != nil && found && *after == before {
			continue
		}
		to := ""
		if after != nil {
			to = *after
		}
		s.add(name, before, found, after, diff(before, to))
	}
}

// add adds a changed file to a change.
func (s *staged) add(name, before string, found bool, after *string, hunks []Hunk) {
	f := FileChange{Name: name, Before: sumOf(before, found), Hunks: hunks}
	if after != nil {
		f.After = sum(*after)
	}
	if found && isRecords(name) {
		f.Header = headerLine(before)
	}
	s.texts[name] = after
	s.change.Files = append(s.change.Files, f)
}
