package intake

import (
	"cmp"
	"slices"
	"strings"
)

// Definite returns the map with the order of dates and the decimal sign that
// the plan's file turned out to have, so that the next file is read alike
// whatever is in it.
func (p *Plan) Definite() Map {
	m := p.Map
	m.Fills = slices.Clone(m.Fills)
	m.Dates, m.Decimal = cmp.Or(m.Dates, p.Dates), cmp.Or(m.Decimal, p.Decimal)
	for i, c := range p.columns { // in the order of the fills, as [Map.bind] makes them
		if numeric(c.cell) && c.decimal != m.Decimal {
			m.Fills[i].How.Decimal = c.decimal
		}
	}
	return m
}

// A Filled shows how one column of the ledger is filled.
type Filled struct {
	Column  string // of the ledger
	From    string // header of the foreign column; empty for a constant
	Foreign string // the first foreign cell that is not blank
	Reads   string // what becomes of it
}

// An Unread is a foreign column that fills nothing, so that what it says is
// lost unless the map is mended.
type Unread struct {
	Header  string
	Foreign string // its first cell that is not blank
}

// samples finds, for each column, the first foreign cell that becomes something
// and what.
func (b *binding) samples() []Filled {
	var list []Filled
	for i := range b.columns {
		c := &b.columns[i]
		s := Filled{Column: c.Column, From: c.From, Reads: c.Value}
		for row := range b.rows() {
			text := c.text(row.Cells)
			if text == "" || !b.takes(row) {
				continue
			}
			// A cell that says nothing, as most names do of a size, shows little.
			reads, err := b.read(c, row)
			if err == nil && (reads != "" || s.Foreign == "") {
				s.Foreign, s.Reads = strings.Clone(oneLine(text)), strings.Clone(reads)
			}
			if s.Reads != "" && s.Foreign != "" {
				break
			}
		}
		list = append(list, s)
	}
	return list
}

// unread lists the foreign columns that nothing reads; blank ones say nothing.
func (b *binding) unread() []Unread {
	read := map[int]bool{}
	for _, c := range b.columns {
		for _, at := range c.at {
			read[at] = true
		}
	}
	for _, f := range b.only {
		read[f.at] = true
	}
	var list []Unread
	for at, header := range b.t.Row(b.header).Cells {
		if read[at] {
			continue
		}
		for row := range b.rows() {
			if text := cellAt(row.Cells, at); text != "" && b.takes(row) {
				list = append(list, Unread{oneLine(header), strings.Clone(oneLine(text))})
				break
			}
		}
	}
	return list
}
