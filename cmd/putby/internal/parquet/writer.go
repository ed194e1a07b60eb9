package parquet

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"io"
)

// magic begins and ends a file.
const magic = "PAR1"

// groupRows is how many rows are kept in memory, and written together.
const groupRows = 1 << 16

// A Writer writes rows to a file.
type Writer struct {
	out    io.Writer
	at     int64 // how much is written
	chunks []chunk
	rows   int // of the group at hand
	groups []group
	packed bytes.Buffer
	gzip   *gzip.Writer
}

// A group is rows that are written, column by column.
type group struct {
	rows  int
	pages []page
}

// A page is where all values of a column are, in a group.
type page struct {
	at           int64
	plain, bytes int // length of it, with its header, before and after it is compressed
}

// NewWriter begins a file of columns.
func NewWriter(out io.Writer, columns []Column) (*Writer, error) {
	w := &Writer{out: out, chunks: make([]chunk, len(columns)), gzip: gzip.NewWriter(nil)}
	for i, c := range columns {
		w.chunks[i] = chunk{Column: c, bytes: c.width()}
	}
	return w, w.write([]byte(magic))
}

// Add takes a row: a value for each column. The error may be [ErrDigits].
func (w *Writer) Add(row []Value) error {
	for i := range w.chunks {
		if err := w.chunks[i].add(row[i]); err != nil {
			return err
		}
	}
	if w.rows++; w.rows == groupRows {
		return w.flush()
	}
	return nil
}

// Close writes what is left, and what the file holds. It does not close what the
// file is written to.
func (w *Writer) Close() error {
	if w.rows > 0 {
		if err := w.flush(); err != nil {
			return err
		}
	}
	footer := w.footer()
	footer = binary.LittleEndian.AppendUint32(footer, uint32(len(footer)))
	return w.write(append(footer, magic...))
}

func (w *Writer) write(p []byte) error {
	n, err := w.out.Write(p)
	w.at += int64(n)
	return err
}

// flush writes the rows at hand as a group.
func (w *Writer) flush() error {
	g := group{rows: w.rows}
	for i := range w.chunks {
		p, err := w.page(&w.chunks[i])
		if err != nil {
			return err
		}
		g.pages = append(g.pages, p)
	}
	w.groups, w.rows = append(w.groups, g), 0
	return nil
}

// page writes all values of a column that are at hand.
func (w *Writer) page(c *chunk) (page, error) {
	levels := c.encodeLevels()
	w.packed.Reset()
	w.gzip.Reset(&w.packed)
	for _, part := range [][]byte{levels, c.plain} {
		if _, err := w.gzip.Write(part); err != nil {
			return page{}, err
		}
	}
	if err := w.gzip.Close(); err != nil {
		return page{}, err
	}
	plain := len(levels) + len(c.plain)
	head := pageHeader(plain, w.packed.Len(), w.rows)
	p := page{at: w.at, plain: len(head) + plain, bytes: len(head) + w.packed.Len()}
	c.plain, c.levels = c.plain[:0], c.levels[:0]
	if err := w.write(head); err != nil {
		return p, err
	}
	return p, w.write(w.packed.Bytes())
}

// encodeLevels says which values of a column are there, in runs: nothing of one
// that has no blanks.
func (c *chunk) encodeLevels() []byte {
	if c.Need {
		return nil
	}
	runs := make([]byte, 4, 4+4*len(c.levels))
	for _, r := range c.levels {
		runs = binary.AppendUvarint(runs, uint64(r.n)<<1)
		there := byte(0)
		if r.there {
			there = 1
		}
		runs = append(runs, there)
	}
	binary.LittleEndian.PutUint32(runs, uint32(len(runs)-4))
	return runs
}
