package ledger

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/pricing/exact"
)

// A cell is one cell being read. Its methods return the value it holds; when
// it holds none they note a fault and return zero, so that reading goes on and
// all faults come at once.
type cell struct {
	row  *rowReader
	name string // of its column
	text string
	says string // what messages call it, if not by its column
}

// rowReader is what the cells of a file share.
type rowReader struct {
	file   string
	line   int // of the record at hand, 1 being the header; 0: of no file
	zone   *time.Location
	faults Faults
	packed bool // the record's texts are packed, so that they need no memory of their own
}

// part is a part of a cell.
func (c *cell) part(text string) *cell { return &cell{c.row, c.name, text, c.says} }

func (c *cell) fail(hint, format string, args ...any) {
	c.row.faults = append(c.row.faults, Fault{
		File: c.row.file, Line: c.row.line, Field: c.name,
		What: cmp.Or(c.says, c.name) + ": " + fmt.Sprintf(format, args...), Hint: hint,
	})
}

// word finds the cell in a closed list.
func (c *cell) word(list words) int {
	i := slices.Index(list, c.text)
	if i < 0 {
		c.fail("one of: "+strings.Join(list, ", "), "%s is not one of its words", exact.Quote(c.text))
		return 0
	}
	return i
}

// id reads an identifier.
func (c *cell) id() string { return c.row.own(c.identifier()) }

// own returns a text of a record, which outlives the file that it is read from.
func (r *rowReader) own(text string) string {
	if r.packed {
		return text
	}
	return strings.Clone(text)
}

// identifier is the cell's text, when that is an identifier.
func (c *cell) identifier() string {
	if why := badID(c.text); why != "" {
		c.fail("use letters, digits, '-', '_' and '.', at most 64", "%s is not an identifier: %s", exact.Quote(c.text), why)
		return ""
	}
	return c.text
}

func badID(s string) string {
	if len(s) > 64 {
		return "it is longer than 64"
	}
	for i := 0; i < len(s); i++ {
		switch b := s[i]; {
		case b >= 'a' && b <= 'z', b >= 'A' && b <= 'Z', b >= '0' && b <= '9', b == '-', b == '_', b == '.':
		default:
			return "it has " + exact.Quote(string([]rune(s[i:])[0]))
		}
	}
	return ""
}

// CheckID says whether s can be an identifier, such as a tariff's name.
func CheckID(s string) error {
	if s == "" {
		return errors.New("it is empty")
	}
	if why := badID(s); why != "" {
		return fmt.Errorf("%s is not an identifier: %s", exact.Quote(s), why)
	}
	return nil
}

// ids reads identifiers between commas.
func (c *cell) ids() []string {
	list := make([]string, 0, strings.Count(c.text, ",")+1)
	for part := range strings.SplitSeq(c.text, ",") {
		one := c.part(strings.TrimSpace(part))
		list = append(list, strings.Clone(one.identifier()))
	}
	return list
}

// number reads a number that is not negative.
func (c *cell) number() exact.Number {
	n := c.signed()
	if n.Sign() < 0 {
		c.fail("write 0 or more", "%s is below 0", c.text)
		return exact.Number{}
	}
	return n
}

// signed reads any number.
func (c *cell) signed() exact.Number {
	n, err := exact.ParseNumber(c.text)
	if err != nil {
		c.fail("write digits with a point, such as 12.50", "%v", err)
	}
	return n
}

// positive reads a number above 0.
func (c *cell) positive() exact.Number {
	before := len(c.row.faults)
	n := c.signed()
	if n.Sign() <= 0 && len(c.row.faults) == before {
		c.fail("write more than 0", "%s is not above 0", c.text)
		return exact.Number{}
	}
	return n
}

// percent reads 0 to 100; under says that 100 itself is too much.
func (c *cell) percent(under bool) exact.Number {
	n := c.number()
	if hundred := exact.Int(100); hundred.Less(n) || under && n.Equal(hundred) {
		c.fail("a part of the whole is at most 100 %, and some must be left", "%s %% is too much", c.text)
		return exact.Number{}
	}
	return n
}

// money reads an amount that is not negative.
func (c *cell) money() exact.Money { return exact.MoneyOf(c.number()) }

// whole reads a whole number from low to high.
func (c *cell) whole(low, high int) int {
	n, err := strconv.Atoi(c.text)
	if err != nil || n < low || n > high || c.text[0] == '+' {
		c.fail("write digits alone, such as "+strconv.Itoa(max(low, 1)), "%s is not a whole number from %d to %d", exact.Quote(c.text), low, high)
		return low
	}
	return n
}

// quantity reads a number and a unit, not negative, of one of the dimensions.
func (c *cell) quantity(dims ...exact.Dimension) exact.Quantity {
	q, err := exact.ParseQuantity(c.text)
	switch {
	case errors.Is(err, exact.ErrUnit): // it says which there are
		c.fail("write a number and one of these, such as 1.5 L or 500 g", "%v", err)
	case errors.Is(err, exact.ErrNumber):
		c.fail("write digits with a point, then the unit, such as 1.5 kg", "%v", err)
	case err != nil:
		c.fail(unitHint(dims), "%v", err)
	}
	if err != nil {
		return exact.Quantity{}
	}
	return c.checkQuantity(q, dims)
}

// amount reads a quantity, or a bare number of things. No cell or part of one that is
// read is blank, so there is a last character.
func (c *cell) amount(dims ...exact.Dimension) exact.Quantity {
	if last := c.text[len(c.text)-1]; last < '0' || last > '9' {
		return c.quantity(dims...)
	}
	return c.checkQuantity(exact.NoUnit.Of(c.signed()), dims)
}

func (c *cell) checkQuantity(q exact.Quantity, dims []exact.Dimension) exact.Quantity {
	if q.Sign() < 0 {
		c.fail("write how much, without a sign", "%s is below 0", c.text)
		return exact.Quantity{}
	}
	if q.Given() && !slices.Contains(dims, q.Unit().Dimension()) {
		c.fail(unitHint(dims), "%s measures %v", c.text, q.Unit().Dimension())
		return exact.Quantity{}
	}
	return q
}

// above refuses a quantity of nothing.
func (c *cell) above(q exact.Quantity) exact.Quantity {
	if q.Sign() == 0 && (q.Given() || strings.Trim(c.text, "0.") == "") { // else it could not be read
		c.fail("write how much, or take the row out", "%s is not above 0", c.text)
	}
	return q
}

var (
	foodDims = []exact.Dimension{exact.Volume, exact.Mass, exact.Count}
	massDim  = []exact.Dimension{exact.Mass}
)

func unitHint(dims []exact.Dimension) string {
	return "units are " + strings.Join(unitNames(dims...), " ")
}

func unitNames(dims ...exact.Dimension) (names []string) {
	for _, d := range dims {
		for _, u := range exact.Units(d) {
			names = append(names, u.String())
		}
	}
	return names
}

// unit reads the name of a unit of a dimension.
func (c *cell) unit(d exact.Dimension) exact.Unit {
	u, err := exact.ParseUnit(c.text)
	if err != nil || u.Dimension() != d {
		c.fail(unitHint([]exact.Dimension{d}), "%s is not a unit of %v", exact.Quote(c.text), d)
		return d.Base()
	}
	return u
}

// date reads a civil date.
func (c *cell) date() exact.Date {
	d, err := exact.ParseDate(c.text)
	if err != nil {
		c.fail("a date is year, month and day, such as 2025-02-28", "%v", err)
	}
	return d
}

// duration reads a length of time.
func (c *cell) duration() time.Duration {
	d, err := exact.ParseDuration(c.text)
	if err != nil {
		c.fail("hours and minutes are 8h24m or 8:24, minutes alone 504m; at most 31 days", "%v", err)
	}
	return d
}

// moment reads a local date and time, or one with an offset.
func (c *cell) moment() time.Time {
	t, err := exact.ParseMoment(c.text, c.row.zone)
	if err != nil {
		c.fail("a local date and time is 2025-02-28 17:30; one with an offset is 2025-02-28T17:30+01:00", "%v", err)
	}
	return t
}

// uses reads supplies, such as "1 jar-1l, 2 lid".
func (c *cell) uses() []Use {
	list := make([]Use, 0, strings.Count(c.text, ",")+1)
	for part := range strings.SplitSeq(c.text, ",") {
		count, name, found := strings.Cut(strings.TrimSpace(part), " ")
		if !found {
			c.fail("write a number and a supply, such as 1 jar-1l, 1 lid", "%s names no number and supply", exact.Quote(part))
			continue
		}
		number := c.part(count)
		supply := c.part(strings.TrimSpace(name))
		list = append(list, Use{Number: number.positive(), Supply: strings.Clone(supply.identifier())})
	}
	return list
}

// parts reads amounts of foods, such as "2 kg leeks, 0.5 L cream, 6 eggs".
func (c *cell) parts() []Part {
	var list []Part
	for part := range strings.SplitSeq(c.text, ",") {
		part = strings.TrimSpace(part)
		at := strings.LastIndexByte(part, ' ')
		if at < 0 {
			c.fail("write an amount and a food, such as 2 kg leeks, 6 eggs", "%s names no amount and food", exact.Quote(part))
			continue
		}
		amount := c.part(strings.TrimSpace(part[:at]))
		food := c.part(part[at+1:])
		list = append(list, Part{Item: food.id(), Quantity: amount.above(amount.amount(foodDims...))})
	}
	return list
}

// ParseUses reads supplies as a `with` cell has them, such as "1 jar-1l, 1
// lid".
func ParseUses(s string) ([]Use, error) {
	row := &rowReader{}
	c := cell{row: row, name: WithColumn, text: s}
	list := c.uses()
	if len(row.faults) > 0 {
		return nil, errors.New(row.faults[0].What)
	}
	return list, nil
}
