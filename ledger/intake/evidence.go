package intake

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// An evidence gathers what the cells of a file tell of the way in which they are
// written, of several ways: of dates the [orders], of numbers the [signs].
type evidence struct {
	any     bool
	against [len(orders)]toldCell // of each way, the first cell that cannot be written so
	differ  toldCell              // the first cell that means another thing in each way
}

// A toldCell is a cell of a file; a line of 0 stands for none.
type toldCell struct {
	line int // of the file, from 1; 0: there is no cell
	text string
}

func (c *toldCell) set(to toldCell) {
	if c.line == 0 {
		*c = to
	}
}

// see takes a cell that fits some of the ways.
func (x *evidence) see(cell toldCell, differ bool, fits ...bool) {
	x.any = true
	for i, fit := range fits {
		if !fit {
			x.against[i].set(cell)
		}
	}
	if differ {
		x.differ.set(cell)
	}
}

// join takes in what another column tells, behind what this one does.
func (x *evidence) join(o *evidence) {
	x.any = x.any || o.any
	for i := range x.against {
		x.against[i].set(o.against[i])
	}
	x.differ.set(o.differ)
}

// left returns which of so many ways fit all cells.
func (x *evidence) left(of int) (ways []int) {
	for i := range of {
		if x.against[i].line == 0 {
			ways = append(ways, i)
		}
	}
	return ways
}

// The ways in which dates and numbers may be written.
var (
	orders = [...]Order{DayMonthYear, MonthDayYear, YearMonthDay}
	signs  = [...]Decimal{Point, Comma}
)

// seeDate takes a cell of dates; what is a date in no order says nothing.
func (x *evidence) seeDate(line int, text string) {
	w, err := takeApart(text)
	if err != nil {
		return
	}
	var dates []exact.Date
	fits, differ := make([]bool, len(orders)), false
	for i, o := range orders {
		if d, ok := w.in(o); ok {
			fits[i], dates = true, append(dates, d)
			differ = differ || d != dates[0]
		}
	}
	if len(dates) > 0 {
		x.see(toldCell{line, text}, differ, fits...)
	}
}

// seeNumber takes a cell of numbers; one without a point or comma says nothing.
func (x *evidence) seeNumber(line int, text string) {
	n, err := bare(text)
	if err != nil || !strings.ContainsAny(n.body, ".,") {
		return
	}
	_, point := n.plain(Point)
	_, comma := n.plain(Comma)
	if point || comma {
		x.see(toldCell{line, text}, point && comma, point, comma)
	}
}

// settled reports whether dates can be read in one order alone. ISO dates fit
// all orders.
func (x *evidence) settled() bool { return x.any && len(x.left(len(orders))) == 1 }

// order returns an order that gives all cells the dates that they can only have,
// or [AnyOrder] where there are none.
func (x *evidence) order() (Order, *ledger.Fault) {
	left := x.left(len(orders))
	switch {
	case !x.any:
		return AnyOrder, nil
	case len(left) == 1 || len(left) > 1 && x.differ.line == 0:
		return orders[left[0]], nil
	case len(left) == 0:
		return AnyOrder, &ledger.Fault{
			Kind: ErrMixed, Line: x.against[0].line, Choice: ledger.MainDateOrder,
			What: fmt.Sprintf("no one order of day, month and year fits all dates: not dmy (%s, line %d), not mdy (%s, line %d)",
				exact.Quote(x.against[0].text), x.against[0].line, exact.Quote(x.against[1].text), x.against[1].line),
		}
	}
	return AnyOrder, &ledger.Fault{
		Kind: ErrAmbiguous, Line: x.differ.line, Choice: ledger.DateOrder,
		What: fmt.Sprintf("the dates, such as %s, fit %s and %s alike", exact.Quote(x.differ.text), orders[left[0]], orders[left[1]]),
	}
}

// sign returns the decimal sign that all cells agree on, or [AnyDecimal] where none
// needs one.
func (x *evidence) sign() (Decimal, *ledger.Fault) {
	left := x.left(len(signs))
	// The first cell that can have no decimal point has a comma, and the other way round.
	switch comma, point := x.against[0], x.against[1]; {
	case len(left) == 0:
		return AnyDecimal, &ledger.Fault{
			Kind: ErrMixed, Line: max(point.line, comma.line),
			What: fmt.Sprintf("numbers have decimal points (%s, line %d) and decimal commas (%s, line %d)",
				exact.Quote(point.text), point.line, exact.Quote(comma.text), comma.line),
			Hint: "give each column its sign: write point or comma under how in the map",
		}
	case len(left) == 1:
		return signs[left[0]], nil
	case x.differ.line > 0:
		return AnyDecimal, &ledger.Fault{
			Kind: ErrAmbiguous, Line: x.differ.line, Choice: ledger.DecimalSign,
			What: exact.Quote(x.differ.text) + " has thousands or decimals, and no other number tells which",
		}
	}
	return AnyDecimal, nil
}
