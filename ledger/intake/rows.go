package intake

import (
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"iter"
	"slices"
)

// FileRows are rows to add to one file of the ledger. They are packed, since a
// large file has a million of them.
type FileRows struct {
	File    string   // such as ledger.ReceiptsFile
	Columns []string // the file's columns, in the order of the records

	n     int      // rows
	parts []string // each row its line, then each cell's length and text
	last  []byte   // of the parts, the one that is being filled
	bytes int      // of all rows, as packed
	all   hash.Hash
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
	from := len(f.last)
	f.last = binary.AppendUvarint(f.last, uint64(r.Line))
	for _, cell := range r.Cells {
		f.last = append(binary.AppendUvarint(f.last, uint64(len(cell))), cell...)
	}
	if f.all == nil {
		f.all = sha256.New()
	}
	f.all.Write(f.last[from:])
	f.bytes += len(f.last) - from
	if len(f.last) > partSize {
		f.parts, f.last = append(f.parts, string(f.last)), f.last[:0]
	}
	f.n++
}

// Size is about how many bytes the rows are in a file of the ledger.
func (f *FileRows) Size() int { return f.bytes }

// Rows goes through the rows in order. A row's cells are good until the next.
func (f *FileRows) Rows() iter.Seq[NewRow] { return f.each(func(int) {}) }

// Drain is [FileRows.Rows], and lets each row go that has been gone through.
func (f *FileRows) Drain() iter.Seq[NewRow] { return f.each(func(part int) { f.parts[part] = "" }) }

// each goes through the rows, and calls done behind each part.
func (f *FileRows) each(done func(part int)) iter.Seq[NewRow] {
	return func(yield func(NewRow) bool) {
		f.parts, f.last = append(f.parts, string(f.last)), nil
		r := NewRow{Cells: make([]string, len(f.Columns))}
		for i, part := range f.parts {
			for part != "" {
				if part = r.unpack(part); !yield(r) {
					return
				}
			}
			done(i)
		}
	}
}

// unpack reads the first row of a part, and returns the rest.
func (r *NewRow) unpack(part string) string {
	r.Line, part = number(part)
	for i := range r.Cells {
		var size int
		size, part = number(part)
		r.Cells[i], part = part[:size], part[size:]
	}
	return part
}

// number reads a number of [binary.AppendUvarint], out of a string as [binary.Uvarint]
// cannot, so that cells are parts of it and nothing is copied.
func number(text string) (n int, rest string) {
	for i := 0; ; i++ {
		n |= int(text[i]&0x7f) << (7 * i)
		if text[i] < 0x80 {
			return n, text[i+1:]
		}
	}
}

// Same reports whether two plans add the same rows and find as many bad.
func (p *Plan) Same(o *Plan) bool {
	return len(p.Bad) == len(o.Bad) && slices.EqualFunc(p.Add, o.Add, func(a, b FileRows) bool {
		return a.File == b.File && a.n == b.n && string(a.all.Sum(nil)) == string(b.all.Sum(nil))
	})
}
