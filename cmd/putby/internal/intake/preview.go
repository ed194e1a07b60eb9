package intake

import "slices"

// Definite returns the map with the order of dates and the decimal sign that
// the plan's file turned out to have, so that the next file is read alike
// whatever is in it.
func (p *Plan) Definite() Map {
	m := p.Map
	m.Fills = slices.Clone(m.Fills)
	if m.Dates == AnyOrder {
		m.Dates = p.Dates
	}
	if m.Decimal == AnyDecimal {
		m.Decimal = p.Decimal
	}
	for i, c := range p.columns {
		if c.sort.numeric() && c.decimal != m.Decimal {
			m.Fills[i].How.Decimal = c.decimal
		}
	}
	return m
}

// A Preview is a plan in short, to be looked at before it is carried out.
type Preview struct {
	Form    string // how the file is written
	Header  int    // line of the header
	Dates   string // order of dates: dmy, mdy, ymd, or nothing
	Decimal string // decimal sign: point, comma, or nothing
	Fills   []FillPreview
	Add     int        // rows to add
	There   int        // rows that the ledger has already
	Differ  int        // rows that the ledger has with something else in them
	Bad     int        // rows that cannot be imported
	Left    int        // rows that the map leaves out
	First   []FileRows // the first rows to add, file by file
}

// A FillPreview shows how one column of the ledger is filled.
type FillPreview struct {
	Column  string // of the ledger
	From    string // header of the foreign column; empty for a constant
	Foreign string // the first foreign cell that is not blank
	Reads   string // what becomes of it
}

// Preview sums a plan up, with at most most rows of each file.
func (p *Plan) Preview(most int) Preview {
	v := Preview{
		Form: p.Form.String(), Header: p.Header, Dates: p.Dates.String(), Decimal: p.Decimal.String(),
		Fills: p.samples, Add: p.Rows(), There: len(p.There), Differ: len(p.Differ), Bad: len(p.Bad), Left: p.Left,
	}
	for _, f := range p.Add {
		f.Rows = f.Rows[:min(most, len(f.Rows))]
		v.First = append(v.First, f)
	}
	return v
}

// sample finds, for each column, the first foreign cell that becomes something
// and what.
func (b *binding) sample() []FillPreview {
	var list []FillPreview
	for i := range b.columns {
		c := &b.columns[i]
		s := FillPreview{Column: c.Column, From: c.From, Reads: c.Value}
		for _, row := range b.rows() {
			text := c.text(row.Cells)
			if text == "" || !b.takes(row) {
				continue
			}
			// A cell that says nothing, as most names do of a size, shows little.
			reads, err := b.read(c, row)
			if err == nil && (reads != "" || s.Foreign == "") {
				s.Foreign, s.Reads = oneLine(text), reads
			}
			if s.Reads != "" && s.Foreign != "" {
				break
			}
		}
		list = append(list, s)
	}
	return list
}
