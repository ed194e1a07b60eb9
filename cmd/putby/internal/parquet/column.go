package parquet

import (
	"encoding/binary"
	"errors"
	"math/bits"
	"time"

	"putby/pricing/exact"
)

// A Type is what the values of a column are.
type Type uint8

// The types of columns.
const (
	Text    Type = iota
	Whole        // 64 bits
	Decimal      // of the column's digits and places
	Date         // days since 1 January 1970
	Moment       // seconds since 1 January 1970, of a clock without a zone
)

// A Column is a column of a file.
type Column struct {
	Name           string
	Type           Type
	Digits, Places int  // of a Decimal: in all, at most 38, and after the point
	Need           bool // it has no blanks
}

// ErrDigits is a decimal that has more digits than its column.
var ErrDigits = errors.New("a decimal has more digits than its column")

// A Value is what stands in a column of a row: the field of its type, or nothing
// where it is Blank.
type Value struct {
	Blank  bool
	Text   string
	Int    int64 // of a Whole, a Date or a Moment
	Number exact.Number
}

// chunk is the values of a column that are not written yet.
type chunk struct {
	Column
	bytes  int    // of a decimal
	plain  []byte // in plain encoding
	levels []run  // which of them are blank
	text   []byte // of a number
}

// run is a number of values one after the other that are there, or are blank.
type run struct {
	there bool
	n     int
}

// width is how many bytes hold the digits of a decimal and its sign, in two's
// complement.
func (c *Column) width() int {
	hi, lo := uint64(0), uint64(1)
	for range c.Digits {
		hi, lo = times10(hi, lo, 0)
	}
	length := bits.Len64(lo)
	if hi > 0 {
		length = 64 + bits.Len64(hi)
	}
	return (length + 8) / 8
}

// add takes the value of one more row.
func (c *chunk) add(v Value) error {
	if n := len(c.levels); n > 0 && c.levels[n-1].there == !v.Blank {
		c.levels[n-1].n++
	} else {
		c.levels = append(c.levels, run{!v.Blank, 1})
	}
	if v.Blank {
		return nil
	}
	switch c.Type {
	case Text:
		c.plain = binary.LittleEndian.AppendUint32(c.plain, uint32(len(v.Text)))
		c.plain = append(c.plain, v.Text...)
	case Whole:
		c.plain = binary.LittleEndian.AppendUint64(c.plain, uint64(v.Int))
	case Moment:
		c.plain = binary.LittleEndian.AppendUint64(c.plain, uint64(v.Int*int64(time.Second/time.Microsecond)))
	case Date:
		c.plain = binary.LittleEndian.AppendUint32(c.plain, uint32(v.Int))
	case Decimal:
		return c.addDecimal(v.Number)
	}
	return nil
}

// addDecimal adds the digits of a number as a whole number of its last place, the
// highest byte first.
func (c *chunk) addDecimal(n exact.Number) error {
	c.text = n.AppendFixed(c.text[:0], c.Places)
	var hi, lo uint64
	digits := 0
	for _, b := range c.text {
		if b >= '0' && b <= '9' {
			hi, lo = times10(hi, lo, uint64(b-'0'))
			if digits > 0 || b != '0' {
				digits++
			}
		}
	}
	if n.Places() > c.Places || digits > c.Digits {
		return ErrDigits
	}
	if n.Sign() < 0 {
		var borrow uint64
		lo, borrow = bits.Sub64(0, lo, 0)
		hi, _ = bits.Sub64(0, hi, borrow)
	}
	var all [16]byte
	binary.BigEndian.PutUint64(all[:8], hi)
	binary.BigEndian.PutUint64(all[8:], lo)
	c.plain = append(c.plain, all[16-c.bytes:]...)
	return nil
}

// times10 is ten times a number of 128 bits, and a digit.
func times10(hi, lo, digit uint64) (uint64, uint64) {
	carry, low := bits.Mul64(lo, 10)
	low, over := bits.Add64(low, digit, 0)
	return hi*10 + carry + over, low
}
