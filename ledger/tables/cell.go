package tables

import (
	"time"

	"putby/pricing/exact"
)

// A Cell is one value of a row. Which field holds it is a matter of its column's
// [Type].
type Cell struct {
	Null   bool         // it is blank, and the rest is zero
	Text   string       // of a Text
	Number exact.Number // of a Decimal
	Int    int64        // of a Whole; of a Date the days, of a Moment the seconds since 1 January 1970
}

var null = Cell{Null: true}

// A Type is what the cells of a column are.
type Type uint8

// The types of cells.
const (
	Text    Type = iota
	Whole        // 64 bits
	Decimal      // of the column's digits and places
	Date         // a civil date
	Moment       // a date and a time of day, without a zone
)

// columns of R's rows are made by the functions below, one for each sort of
// value. Blank text, NoDate and an Opt that is not given make a blank cell.
type column[R any] struct {
	Column
	of func(*R) Cell
}

// key says that the column is part of its table's key.
func (c column[R]) key() column[R] { c.Key = true; return c }

// refers names the table whose key the column, with the household, is.
func (c column[R]) refers(table string) column[R] { c.Refers = table; return c }

func text[R any](name string, of func(*R) string, help string) column[R] {
	return column[R]{Column{Name: name, Type: Text, Help: help}, func(r *R) Cell {
		s := of(r)
		return Cell{Text: s, Null: s == ""}
	}}
}

func whole[R any](name string, of func(*R) int, help string) column[R] {
	return column[R]{Column{Name: name, Type: Whole, Help: help}, func(r *R) Cell { return Cell{Int: int64(of(r))} }}
}

func maybeWhole[R any](name string, of func(*R) exact.Opt[int], help string) column[R] {
	return column[R]{Column{Name: name, Type: Whole, Help: help}, func(r *R) Cell {
		n, given := of(r).Get()
		return Cell{Int: int64(n), Null: !given}
	}}
}

// date is a civil date. One beyond the last that there is counts as not given.
func date[R any](name string, of func(*R) exact.Date, help string) column[R] {
	return column[R]{Column{Name: name, Type: Date, Help: help}, func(r *R) Cell {
		d := of(r)
		if d == exact.NoDate || d == exact.LastDate {
			return null
		}
		return Cell{Int: d.UnixDays()}
	}}
}

// moment is what a clock in the zone of the time that of returns shows.
func moment[R any](name string, of func(*R) time.Time, help string) column[R] {
	return column[R]{Column{Name: name, Type: Moment, Help: help}, func(r *R) Cell {
		at := of(r)
		if at.IsZero() {
			return null
		}
		_, east := at.Zone() // the clock's reading as if it were UTC, since a TIMESTAMP has no zone
		return Cell{Int: at.Unix() + int64(east)}
	}}
}

// Digits of decimal columns: in all, and after the point. Every number that a
// record may hold fits the first; sums, products and quotients have the second.
const (
	Digits      = 24
	Places      = 9
	exactDigits = 38
	Exact       = 24
)

func decimal[R any](name string, digits, places int, of func(*R) exact.Opt[exact.Number], help string) column[R] {
	below := exact.New(1, places-digits) // 10 to the power of the digits before the point
	return column[R]{Column{Name: name, Type: Decimal, Digits: digits, Places: places, Help: help, below: below}, func(r *R) Cell {
		n, given := of(r).Get()
		return Cell{Number: n, Null: !given}
	}}
}

// money is an amount as it is posted, or as a record has it.
func money[R any](name string, of func(*R) exact.Money, help string) column[R] {
	return decimal(name, Digits, Places, func(r *R) exact.Opt[exact.Number] { return exact.Some(of(r).Number()) }, help)
}

// number is a number as a record has it, where it has one.
func number[R any](name string, of func(*R) exact.Opt[exact.Number], help string) column[R] {
	return decimal(name, Digits, Places, of, help)
}

// amount is an amount of something, exactly.
func amount[R any](name string, of func(*R) exact.Number, help string) column[R] {
	return decimal(name, exactDigits, Exact, func(r *R) exact.Opt[exact.Number] { return exact.Some(of(r)) }, help)
}

// maybe is an amount that may not exist.
func maybe[R any](name string, of func(*R) exact.Opt[exact.Number], help string) column[R] {
	return decimal(name, exactDigits, Exact, of, help)
}

// quotient is what comes from a division, where it exists.
func quotient[R any](name string, of func(*R) exact.Opt[exact.Ratio], help string) column[R] {
	return maybe(name, func(r *R) exact.Opt[exact.Number] {
		return exact.Map(of(r), func(q exact.Ratio) exact.Number { return q.Round(Exact, exact.HalfEven) })
	}, help)
}
