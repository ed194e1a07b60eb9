package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A Share is what a report on one household adds to the sums over many. All
// reports of one question have shares of one kind.
type Share interface {
	columns() []Column
	rows() [][]Value // one for each unit, where units matter
	plus(Share) Share
}

// share is a [Share] of figures of one type.
type share[T any] struct {
	of   T
	cols []Column
	lay  func(T) [][]Value
	add  func(a, b T) T
}

func (s share[T]) columns() []Column { return s.cols }
func (s share[T]) rows() [][]Value   { return s.lay(s.of) }
func (s share[T]) plus(o Share) Share {
	s.of = s.add(s.of, o.(share[T]).of)
	return s
}

// ByHousehold is a report cut down to its own sums. Each names its currency, so that
// those of several households may stand in one table.
func ByHousehold(d Doc) Doc {
	t := &Table{Columns: append([]Column{currencyColumn}, d.Share.columns()...), Empty: "Nothing is recorded for that."}
	t.Rows = sumRows(t.Rows, d.Currency, nil, d.Share)
	return Doc{Title: d.Title + ", by household", Show: d.Show, Fields: []Field{field("rows", "By household", t)}, Share: d.Share}
}

var currencyColumn = Column{Key: "currency", Title: "currency"}

// sumRows appends the rows of a share, each with its currency and more before it.
func sumRows(rows []Row, c exact.Currency, more []Value, of Share) []Row {
	for _, cells := range of.rows() {
		row := Row{Cells: append([]Value{TextOf(c.Code())}, more...)}
		for _, v := range cells {
			row.Cells = append(row.Cells, v.In(c))
		}
		rows = append(rows, row)
	}
	return rows
}

// Sums add up reports on many households. Currencies are never added up: each has
// sums of its own.
type Sums struct{ list []currencySum }

type currencySum struct {
	currency   exact.Currency
	households int // that were added, 1 at least
	share      Share
}

// Add adds the report on a household.
func (s *Sums) Add(currency exact.Currency, of Share) {
	at, there := slices.BinarySearchFunc(s.list, currency.Code(), func(c currencySum, code string) int { return cmp.Compare(c.currency.Code(), code) })
	if !there {
		s.list = slices.Insert(s.list, at, currencySum{currency, 1, of})
		return
	}
	s.list[at].households++
	s.list[at].share = s.list[at].share.plus(of)
}

// Households is how many were added.
func (s *Sums) Households() (n int) {
	for _, c := range s.list {
		n += c.households
	}
	return n
}

func (s *Sums) table() *Table {
	t := &Table{Empty: "Nothing is recorded for that."}
	for _, c := range s.list {
		if t.Columns == nil {
			t.Columns = append([]Column{currencyColumn, {Key: "households", Title: "households"}}, c.share.columns()...)
		}
		t.Rows = sumRows(t.Rows, c.currency, []Value{CountOf(c.households)}, c.share)
	}
	return t
}

// An Aside is a household that is in no sum, and why.
type Aside struct {
	Name   string
	Why    string
	Faults int // of its records
}

// OverHouseholds ends the reports on many households with the sums over all. Left
// are those that are left out; silent those that have no answer, such as to a question
// about a food that they do not have.
func OverHouseholds(s *Sums, left, silent []Aside) Doc {
	out := &Table{Columns: []Column{{Key: "household"}, {Key: "why"}, {Key: "faults"}}}
	for _, a := range left {
		out.add(TextOf(a.Name), TextOf(a.Why), CountOf(a.Faults))
	}
	d := Doc{Title: "All households", Fields: []Field{field("sums", "In all", s.table()), field("left_out", "", out)}}
	d.Words = []string{fmt.Sprintf("The sums of %s are in the last table.", counted(s.Households(), "household"))}
	if len(left) > 0 {
		d.Words[0] += fmt.Sprintf(" Left out: %s.", someOf(left))
	}
	for _, why := range ledger.Distinct(silent, func(a *Aside) string { return a.Why }) {
		same := slices.DeleteFunc(slices.Clone(silent), func(a Aside) bool { return a.Why != why })
		d.Notes = append(d.Notes, fmt.Sprintf("without %s: %s", someOf(same), why))
	}
	return d
}

// someOf names households, the first few where there are many.
func someOf(list []Aside) string {
	return Some(worded(list, func(a Aside) string { return a.Name }))
}

// Some lists names in a sentence, the first few where there are many.
func Some(names []string) string {
	const most = 6
	if len(names) <= most {
		return Listed(names)
	}
	return Listed(append(slices.Clone(names[:most-1]), fmt.Sprintf("%d more", len(names)-most+1)))
}

// The shares of the reports.

// shareByUnit is a share with a row for each unit, which add up by unit.
func shareByUnit[T figures.UnitSum[T]](totals []T, columns []Column, cells func(T) []Value) Share {
	return share[[]T]{totals, columns, func(totals []T) (rows [][]Value) {
		for _, t := range totals {
			rows = append(rows, cells(t))
		}
		return rows
	}, figures.AddByUnit[T]}
}

func costShare(totals []figures.CostTotal) Share {
	columns := append(costTotals(nil).Columns, Column{Key: "per_unit", Title: "per unit"})
	return shareByUnit(figures.AddByUnit(nil, totals), columns, func(t figures.CostTotal) []Value { // of totals that are the ledger's own
		return append(totalCells(t), optPrice(t.PerUnit(), t.Unit))
	})
}

func monthShare(t figures.Tally) Share {
	return share[figures.Tally]{t, monthColumns("")[1:], func(t figures.Tally) [][]Value {
		return [][]Value{monthCells(None, &t)[1:]}
	}, func(a, b figures.Tally) figures.Tally { return a.With(&b) }}
}

func onHandShare(g *ledger.Ledger, r *figures.OnHandResult) Share {
	columns := []Column{{Key: "unit", Title: "unit"}, {Key: "left", Title: "containers"}, {Key: "quantity", Title: "makes"},
		{Key: "cost", Title: "cost"}, {Key: "shelf_value", Title: "the shelf asks"}}
	return shareByUnit(r.Totals(g), columns, func(t figures.StoreTotal) []Value {
		return []Value{UnitOf(t.Unit), CountOf(t.Left), AmountOf(t.Amount, t.Unit), MoneyOf(t.Cost), optMoney(t.Shelf)}
	})
}

func paybackShare(r *figures.PaybackResult) Share {
	columns := []Column{{Key: "machines", Title: "machines"}, {Key: "price", Title: "price", Rank: 2}, {Key: "repairs", Title: "repairs", Rank: 3}, {Key: "residual", Title: "residual", Rank: 3},
		{Key: "target", Title: "to earn back"}, {Key: "earned", Title: "earned"}, {Key: "left", Title: "left"}, {Key: "paid_for", Title: "households paid for", Rank: 1}}
	return share[figures.EarnedTotal]{r.Total(), columns, func(t figures.EarnedTotal) [][]Value {
		return [][]Value{{CountOf(t.Machines), MoneyOf(t.Price), MoneyOf(t.Repairs), MoneyOf(t.Residual), MoneyOf(t.Target()),
			MoneyQuotient(t.Earned), MoneyQuotient(t.Left()), CountOf(t.Paid)}}
	}, figures.EarnedTotal.Plus}
}

func offersShare(g *ledger.Ledger, r *figures.OffersResult) Share {
	columns := []Column{{Key: "unit", Title: "unit"}, {Key: "prices", Title: "prices of the year"}, {Key: "lowest", Title: "lowest"}, {Key: "highest", Title: "highest"},
		{Key: "times_on_offer", Title: "times on offer"}}
	return shareByUnit(r.Totals(g), columns, func(t figures.PricesTotal) []Value {
		return []Value{UnitOf(t.Unit), CountOf(t.Count), PriceOf(t.Lowest, t.Unit), PriceOf(t.Highest, t.Unit), CountOf(t.Times)}
	})
}
