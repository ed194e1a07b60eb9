package folder

import (
	"putby/ledger"
)

// Locate fills in the columns of faults that were found later, across records:
// those with a line but no column. It reads the files that they are in again,
// and leaves a fault as it is where the file no longer has such a record.
func Locate(dir string, faults ledger.Faults) {
	root, err := openTree(dir)
	if err != nil {
		return
	}
	defer root.Close()
	locateIn(func(name string) string {
		text, _, _ := root.read(name, MaxFile)
		return text
	}, faults)
}

// locateIn is Locate for texts that are at hand.
func locateIn(text func(name string) string, faults ledger.Faults) {
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
		locate(text(name), lines)
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
