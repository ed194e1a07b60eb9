package folder

import "putby/ledger"

// A Row is a record as its file has it.
type Row struct {
	Line  int               // where it begins
	Cells map[string]string // by column, unknown columns too
}

// Rows returns the records of one kind in the ledger at dir, in file order. It
// takes no lock and needs no leave to write. Faults are those of the file's
// form, not of what its cells hold.
func Rows(dir string, k ledger.Kind) ([]Row, error) {
	root, err := openRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	s, err := settled(root)
	if err != nil {
		return nil, err
	}
	return (&Book{root: root, files: s}).Rows(k)
}

// Rows is [Rows] of the ledger as it was read.
func (b *Book) Rows(k ledger.Kind) ([]Row, error) {
	tx := &Tx{book: b, sheets: map[string]*sheet{}}
	if _, err := tx.sheet(k); err != nil {
		return nil, err
	}
	var rows []Row
	for line, cells := range tx.Rows(k) {
		rows = append(rows, Row{line, cells})
	}
	return rows, nil
}
