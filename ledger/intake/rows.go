package intake

import (
	"encoding/binary"
	"iter"
)

// FileRows are rows to add to one file of the ledger. They are packed, since a
// large file has a million of them.
type FileRows struct {
	File    string   // such as ledger.ReceiptsFile
	Columns []string // the file's columns, in the order of the records

	n     int
	parts [][]byte // each row its line, then each cell's length and text
}

// A NewRow is a row to add.
type NewRow struct {
	Line  int      // of the foreign file
	Cells []string // as records write them, one for each of the columns
}

// partSize is how many bytes of rows lie together.
const partSize = 256 << 10

// Len is how many rows there are.
func (f *FileRows) Len() int { return f.n }

// Add adds a row.
func (f *FileRows) Add(r NewRow) {
	size := binary.MaxVarintLen64
	for _, cell := range r.Cells {
		size += binary.MaxVarintLen64 + len(cell)
	}
	last := len(f.parts) - 1
	if last < 0 || cap(f.parts[last])-len(f.parts[last]) < size {
		f.parts = append(f.parts, make([]byte, 0, max(size, partSize)))
		last++
	}
	b := binary.AppendUvarint(f.parts[last], uint64(r.Line))
	for _, cell := range r.Cells {
		b = append(binary.AppendUvarint(b, uint64(len(cell))), cell...)
	}
	f.parts[last] = b
	f.n++
}

// Drop lets the rows go; how many there were is still known.
func (f *FileRows) Drop() { f.parts = nil }

// Rows goes through the rows in order.
func (f *FileRows) Rows() iter.Seq[NewRow] {
	return func(yield func(NewRow) bool) {
		for _, part := range f.parts {
			for len(part) > 0 {
				var r NewRow
				if r, part = f.unpack(part); !yield(r) {
					return
				}
			}
		}
	}
}

// unpack reads the first row of a part.
func (f *FileRows) unpack(part []byte) (NewRow, []byte) {
	number := func() int {
		n, size := binary.Uvarint(part)
		part = part[size:]
		return int(n)
	}
	r := NewRow{Line: number(), Cells: make([]string, len(f.Columns))}
	for i := range r.Cells {
		size := number()
		r.Cells[i], part = string(part[:size]), part[size:]
	}
	return r, part
}
