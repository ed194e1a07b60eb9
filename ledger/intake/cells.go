package intake

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// text returns the foreign text of a column in a row: its cells without blanks
// around them, joined by a space.
func (c *column) text(cells []string) string {
	if len(c.at) == 1 {
		return cellAt(cells, c.at[0])
	}
	var parts []string
	for _, at := range c.at {
		if text := cellAt(cells, at); text != "" {
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, " ")
}

// cellAt returns a cell without blanks around it; a row may end early.
func cellAt(cells []string, at int) string {
	if at < 0 || at >= len(cells) {
		return ""
	}
	return strings.TrimSpace(cells[at])
}

// number returns the number that a workbook stores for a column: of a date and
// its time in two cells, their sum.
func (b *binding) number(c *column, cells []string) (exact.Number, bool) {
	sum, any := exact.Number{}, false
	for _, at := range c.at {
		text := cellAt(cells, at)
		if text == "" {
			continue
		}
		n, ok := stored(text)
		if !ok {
			return n, false
		}
		sum, any = sum.Add(n), true
	}
	return sum, any
}

// A reading is what a cell was read as, or why it cannot be.
type reading struct {
	cell string
	err  error
}

// read returns a cell as records write it. Blank cells are the map's value.
func (b *binding) read(c *column, row Row) (string, error) {
	text := c.text(row.Cells)
	if text == "" {
		return c.Value, nil
	}
	if len(c.at) > 1 { // mostly dates with their times, of which none comes twice
		return b.readCell(c, row, text)
	}
	r := c.read.of(text, func() (r reading) { r.cell, r.err = b.readCell(c, row, text); return r })
	return r.cell, r.err
}

func (b *binding) readCell(c *column, row Row, text string) (string, error) {
	switch {
	case c.cell == ledger.NameCell:
		return readID(text)
	case c.isDate():
		return b.readDate(c, row.Cells, text)
	case numeric(c.cell):
		return b.readNumeric(c, text)
	case c.cell == ledger.WordCell && c.Column != "kind": // of which the names may say another
		return readWord(text), nil
	}
	return oneLine(text), nil
}

// readID turns a foreign number or name into an identifier.
func readID(text string) (string, error) {
	id := strings.Trim(identifier(text), "-")
	switch {
	case id == "":
		return "", fmt.Errorf("%s has no letter or digit of an identifier", exact.Quote(text))
	case len(text) > maxID:
		return "", fmt.Errorf("%s is longer than the %d characters of an identifier", exact.Quote(text), maxID)
	}
	return id, nil
}

// outcomes are words for how a run went.
var outcomes = map[string]string{
	"ok": "good", "yes": "good", "success": "good", "gut": "good", "done": "good",
	"failed": "spoiled", "bad": "spoiled", "no": "spoiled", "lost": "spoiled", "verdorben": "spoiled", "spoilt": "spoiled",
}

// readWord reads a word of a closed list.
func readWord(text string) string {
	word := strings.ToLower(oneLine(text))
	if known, ok := outcomes[word]; ok {
		return known
	}
	return word
}

// readDate reads a date, or a date and time where the column wants one.
func (b *binding) readDate(c *column, cells []string, text string) (string, error) {
	// In a workbook a number counts days, unless it looks like 20250228; in a text file only where
	// the map says so.
	if n, ok := b.number(c, cells); ok && (b.t.Form.Workbook && !isCompact(text) || c.order == Serial) {
		date, sec, err := serialDate{n, b.t.Form.From1904}.moment()
		if err != nil {
			return "", fmt.Errorf("%s %w", exact.Quote(text), err)
		}
		if c.cell == ledger.DateCell {
			return date.String(), nil
		}
		return formatMoment(date, clock{sec: sec}), nil
	}
	w, err := takeApart(text)
	if err != nil {
		return "", fmt.Errorf("%s %w", exact.Quote(text), err)
	}
	date, ok := w.in(c.order)
	switch {
	case !ok && c.order == AnyOrder:
		return "", fmt.Errorf("%s %w", exact.Quote(text), errNotDate)
	case !ok:
		return "", fmt.Errorf("%s is not a date in the order %s", exact.Quote(text), c.order)
	case c.cell == ledger.DateCell:
		return date.String(), nil
	case !w.clock.given:
		return "", fmt.Errorf("%s %w", exact.Quote(text), errNoClock)
	}
	return formatMoment(date, w.clock), nil
}

// isCompact reports whether a number is a date as YYYYMMDD.
func isCompact(text string) bool {
	return len(text) == 8 && strings.Trim(text, "0123456789") == "" && text >= "19000101"
}

// formatMoment writes date, time and offset as records do.
func formatMoment(date exact.Date, c clock) string {
	s := fmt.Sprintf("%s %02d:%02d", date, c.sec/3600, c.sec/60%60)
	if c.sec%60 != 0 {
		s += fmt.Sprintf(":%02d", c.sec%60)
	}
	switch c.offset {
	case "", "Z":
		return s + c.offset
	}
	return s + time.Time{}.In(time.FixedZone("", c.east)).Format("-07:00")
}

// readNumeric reads the cells that are, or begin with, a number.
func (b *binding) readNumeric(c *column, text string) (out string, err error) {
	number := func(s string) (string, error) { return b.readPlain(c, s) }
	switch {
	case c.cell == ledger.AmountCell:
		if c.How.Within {
			return within(text, number), nil
		}
		out, err = readAmount(text, number, c.How.Unit)
	case measures(c.of, exact.Energy):
		out, err = readEnergy(text, number, cmp.Or(c.How.Unit, exact.KWh))
	case c.cell == ledger.DurationCell:
		return b.readSpan(c, text, number)
	default:
		out, err = number(text)
	}
	if err == nil && c.How.Negate {
		out = negated(out)
	}
	return out, err
}

// within returns the one amount that a text mentions, or nothing.
func within(text string, number func(string) (string, error)) string {
	found := mentions(text)
	if len(found) != 1 {
		return ""
	}
	amount, _ := readAmount(found[0], number, exact.NoUnit) // what cannot be read counts as not mentioned
	return amount
}

// maybeSerial is how many decimals make a stored length of time look like a
// fraction of a day, not a number of hours or minutes.
const maybeSerial = 5

// readSpan reads a length of time. A workbook stores a time of day as a
// fraction of a day.
func (b *binding) readSpan(c *column, text string, number func(string) (string, error)) (string, error) {
	n, isNumber := b.numberOf(text)
	switch {
	case !isNumber:
	case c.How.Span == 0:
		return "", fmt.Errorf("%s does not say in what unit of time it is", exact.Quote(text))
	case c.How.Span == 24*time.Hour: // exactly, whatever the digits
		return formatSpan(text, n.Mul(exact.Int(86400)))
	case n.Places() > maybeSerial:
		return "", fmt.Errorf("%s looks like a part of a day, as a workbook stores 9:30", exact.Quote(text))
	}
	return readSpan(text, number, c.How.Span)
}

// numberOf returns a number as a workbook stores it.
func (b *binding) numberOf(text string) (exact.Number, bool) {
	if !b.t.Form.Workbook {
		return exact.Number{}, false
	}
	return stored(text)
}

var errTextNumber = errors.New("could be a stored number or a text with a separator of thousands")

// readPlain reads a number alone.
func (b *binding) readPlain(c *column, text string) (string, error) {
	n, ok := b.numberOf(text)
	if !ok {
		return readNumber(text, c.decimal)
	}
	// A stored number always has a point. With decimal commas about, a text
	// such as 1.234 looks like one.
	if c.decimal == Comma {
		var x evidence
		if x.seeNumber(1, text); x.differ.line > 0 {
			return "", fmt.Errorf("%s %w", exact.Quote(text), errTextNumber)
		}
	}
	return recordNumber(n)
}

// negated turns the sign of a number, or of a quantity, around.
func negated(s string) string {
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		return rest
	}
	if strings.Trim(s, "0.") == "" {
		return s
	}
	return "-" + s
}

// takes reports whether a row passes a filter.
func (f filter) takes(row Row) bool {
	text := cellAt(row.Cells, f.at)
	return slices.ContainsFunc(f.Values, func(v string) bool {
		if v != "<0" && v != ">0" {
			return ledger.Fold(v) == ledger.Fold(text)
		}
		plain, _ := readNumber(text, f.decimal)
		n, _ := exact.ParseNumber(plain) // what is no number is neither
		return v == "<0" && n.Sign() < 0 || v == ">0" && n.Sign() > 0
	})
}

// takes reports whether the map takes a row at all.
func (b *binding) takes(row Row) bool {
	return !slices.ContainsFunc(b.only, func(f filter) bool { return !f.takes(row) })
}
