package ledger

import (
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// A field is a column of records of type R with the way to read it. Below is a
// constructor for each sort of cell; what else the column knows is added by the
// methods.
type field[R any] struct {
	Column
	reader func() func(*cell, *R) // of the cells of one file
}

// read makes a field of how a cell is read and where that goes.
func read[R, T any](name string, cells CellType, as func(*cell) T, set func(*R, T), help string) field[R] {
	return field[R]{Column{Name: name, Cell: cells, Help: help}, func() func(*cell, *R) {
		// Many rows say what the row before them does: they share its value.
		var text string
		var value T
		return func(c *cell, r *R) {
			if text != c.text {
				faults := len(c.row.faults)
				if value, text = as(c), c.text; len(c.row.faults) > faults {
					text = "" // no cell that is read is blank
				}
			}
			set(r, value)
		}
	}}
}

// need says that the cells may not be blank.
func (f field[R]) need() field[R] { f.Need = true; return f }

// main says that the column tells what a record is of, or how much.
func (f field[R]) main() field[R] { f.Main = true; return f }

// label is what a form calls the column, where its name does not say it.
func (f field[R]) label(text string) field[R] { f.Label = text; return f }

// beside says that the column stands beside what is said in words.
func (f field[R]) beside() field[R] { f.Beside = true; return f }

// blank says what a blank cell means.
func (f field[R]) blank(means string) field[R] { f.Blank = means; return f }

// ask gives the column its rank among the questions of a dialogue.
func (f field[R]) ask(rank int) field[R] { f.Ask = rank; return f }

// defaults says how a new record comes by a cell that nobody gives.
func (f field[R]) defaults(to Default) field[R] { f.Default = to; return f }

// in names the unit of a number.
func (f field[R]) in(unit string) field[R] { f.Unit = unit; return f }

// open says that the cell may name what the ledger does not have yet.
func (f field[R]) open() field[R] { f.Open = true; return f }

// among says that the cell holds one of some words.
func (f field[R]) among(words []string) field[R] { f.Words = words; return f }

// of says what the cell names.
func (f field[R]) of(things ...Thing) field[R] { f.Names = things; return f }

// id is the identifier of the record itself.
func id[R any](of Thing, set func(*R, string), help string) field[R] {
	f := read(of.String(), NameCell, (*cell).id, set, help).of(of).need()
	f.Own = true
	return f
}

// ref is the identifier of something else.
func ref[R any](name string, set func(*R, string), help string, things ...Thing) field[R] {
	return read(name, NameCell, (*cell).id, set, help).of(things...)
}

func text[R any](name string, set func(*R, string), help string) field[R] {
	return read(name, TextCell, func(c *cell) string { return c.row.own(c.text) }, set, help)
}

// note is a text of anything worth keeping.
func note[R any](set func(*R, string)) field[R] { return text("note", set, "") }

// word is a word of a closed list, whose place in the list is what is set.
func word[R any, W ~uint8](name string, list words, set func(*R, W), help string) field[R] {
	return read(name, WordCell, func(c *cell) W { return W(c.word(list)) }, set, help).among(list)
}

// number is a number that is not negative.
func number[R any](name string, set func(*R, exact.Number), help string) field[R] {
	return read(name, NumberCell, (*cell).number, set, help)
}

// positive is a number above 0.
func positive[R any](name string, set func(*R, exact.Number), help string) field[R] {
	return read(name, NumberCell, (*cell).positive, set, help)
}

// percent is 0 to 100.
func percent[R any](name string, set func(*R, exact.Number), help string) field[R] {
	return read(name, PercentCell, func(c *cell) exact.Number { return c.percent(false) }, set, help).in("%")
}

// money is an amount of money that is not negative.
func money[R any](name string, set func(*R, exact.Money), help string) field[R] {
	return read(name, MoneyCell, (*cell).money, set, help)
}

func whole[R any](name string, least, most int, set func(*R, int), help string) field[R] {
	f := read(name, WholeCell, func(c *cell) int { return c.whole(least, most) }, set, help)
	f.Least, f.Most = least, most
	return f
}

// span is a number of days or months.
func span[R any](name, unit string, set func(*R, exact.Opt[int]), help string) field[R] {
	return whole(name, 0, 10000, func(r *R, n int) { set(r, exact.Some(n)) }, help).in(unit)
}

// measure reads an amount of some dimensions.
func measure[R any](name string, dims []exact.Dimension, as func(*cell) exact.Quantity, set func(*R, exact.Quantity), help string) field[R] {
	f := read(name, AmountCell, as, set, help)
	f.Dims = dims
	return f
}

// quantity is a number with a unit, above 0.
func quantity[R any](name string, dims []exact.Dimension, set func(*R, exact.Quantity), help string) field[R] {
	return measure(name, dims, func(c *cell) exact.Quantity { return c.above(c.quantity(dims...)) }, set, help)
}

// amount is an amount of food or of pieces, above 0; a bare number is of pieces.
func amount[R any](name string, set func(*R, exact.Quantity), help string) field[R] {
	return measure(name, foodDims, func(c *cell) exact.Quantity { return c.above(c.amount(foodDims...)) }, set, help)
}

// maybe is an amount of food or of pieces, which may be 0.
func maybe[R any](name string, set func(*R, exact.Quantity), help string) field[R] {
	return measure(name, foodDims, func(c *cell) exact.Quantity { return c.amount(foodDims...) }, set, help)
}

// weight is a mass, which may be 0.
func weight[R any](name string, set func(*R, exact.Quantity), help string) field[R] {
	return measure(name, massDim, func(c *cell) exact.Quantity { return c.quantity(massDim...) }, set, help)
}

// date is a day of the calendar.
func date[R any](name string, set func(*R, exact.Date), help string) field[R] {
	return read(name, DateCell, (*cell).date, set, help)
}

// day is the day on which something happened.
func day[R any](set func(*R, exact.Date), help string) field[R] {
	return date(DateColumn, set, help).defaults(Today).need()
}

func moment[R any](name string, set func(*R, time.Time), help string) field[R] {
	return read(name, MomentCell, (*cell).moment, set, help)
}

func clock[R any](name string, set func(*R, energy.Clock), help string) field[R] {
	return read(name, ClockCell, by("a local clock is 07:00 or 22:30; blank is midnight", energy.ParseClock), set, help)
}

func duration[R any](name string, set func(*R, time.Duration), help string) field[R] {
	return read(name, DurationCell, (*cell).duration, set, help)
}

// uses are supplies with how many of each.
func uses[R any](name string, set func(*R, []Use), help string) field[R] {
	return read(name, SuppliesCell, (*cell).uses, set, help).of(Supplies)
}

// parts are foods with how much of each.
func parts[R any](name string, set func(*R, []Part), help string) field[R] {
	return read(name, FoodsCell, (*cell).parts, set, help).of(Foods)
}

// by reads a cell by a parser of another package, whose error says how it is
// written.
func by[T any](hint string, parse func(string) (T, error)) func(*cell) T {
	return func(c *cell) T {
		v, err := parse(c.text)
		if err != nil {
			c.fail(hint, "%v", err)
		}
		return v
	}
}
