package folder

import (
	"os"

	"putby/ledger"
)

// Locate fills in the columns of faults that were found later, across records:
// those with a line but no column. It reads the files that they are in again,
// and leaves a fault as it is where the file no longer has such a record.
func Locate(dir string, faults ledger.Faults) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return
	}
	defer root.Close()
	byFile := map[string]map[int][]*ledger.Fault{}
	for i := range faults {
		f := &faults[i]
		if f.Line == 0 || f.Column != 0 {
			continue
		}
		if byFile[f.File] == nil {
			byFile[f.File] = map[int][]*ledger.Fault{}
		}
		byFile[f.File][f.Line] = append(byFile[f.File][f.Line], f)
	}
	for name, lines := range byFile {
		if text, found, fault := readFile(root, name); found && fault == nil {
			locate(text, lines)
		}
	}
	faults.Sort()
}

// locate fills in the columns of faults in one text, given by line.
func locate(data string, lines map[int][]*ledger.Fault) {
	text, ok := decode(data, &tally{})
	if !ok {
		return
	}
	s := newScanner(text, separator(text))
	header, ok := s.header()
	if !ok {
		return
	}
	for again := true; again; again = s.next() {
		for _, f := range lines[s.startLine] {
			if f.Column == 0 {
				f.Line, f.Column = s.cellAt(column(header, f.Field, len(s.cells)))
			}
		}
	}
}
