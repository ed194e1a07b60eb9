package ledger

import (
	"cmp"
	"slices"

	"putby/pricing/exact"
)

// events gives the records that move things in the order in which they count:
// by date, and within a date by class. It merges one sorted list a class, so
// that records already in order cost one look each.
type events [classCount]struct {
	rows  []int32
	dates []exact.Date // of rows
}

// The classes of events, in their order within a day: what one draws on, those before
// it have put there. Food is bought before it is cooked and dried, and counted when all
// that the day took out is gone.
const (
	receiptClass = iota
	batchClass
	runClass // by start
	packClass
	drawClass
	frozenClass
	countClass
	classCount
)

// events lists all events of the ledger's records.
func (g *joiner) events() *events {
	e, rec := &events{}, g.Records
	bought := make([]int32, 0, rec.Receipts.Len())
	var back []int32 // after all that is bought that day
	for i := range rec.Receipts.rows {
		switch r := &rec.Receipts.rows[i]; {
		case !r.kind.Bought() || r.kind == OtherLine:
		case rec.countAt(int32(i)).Sign() >= 0:
			bought = append(bought, int32(i))
		case r.kind == SupplyLine:
			back = append(back, int32(i))
		} // else a fault of its own
	}
	bought = append(bought, back...)
	e.add(receiptClass, bought, func(i int32) exact.Date { return rec.Receipts.rows[i].date })
	e.add(batchClass, positions(len(rec.Batches)), func(i int32) exact.Date { return rec.Batches[i].Date })
	e.add(runClass, g.x.runOrder, func(i int32) exact.Date { return g.Runs[i].Date })
	e.add(packClass, positions(rec.Packs.Len()), func(i int32) exact.Date { return rec.Packs.rows[i].date })
	e.add(drawClass, positions(rec.Draws.Len()), func(i int32) exact.Date { return rec.Draws.rows[i].date })
	e.add(frozenClass, positions(len(rec.Freezes)), func(i int32) exact.Date { return rec.Freezes[i].Date })
	e.add(countClass, positions(len(rec.Counts)), func(i int32) exact.Date { return rec.Counts[i].Date })
	return e
}

// add lists the rows of a class by date, those of a date in the order given.
func (e *events) add(class int, rows []int32, date func(int32) exact.Date) {
	dates := make([]exact.Date, len(rows))
	for i, row := range rows {
		dates[i] = date(row)
	}
	if !slices.IsSorted(dates) {
		rows, dates = sortByDate(rows, dates)
	}
	e[class].rows, e[class].dates = rows, dates
}

// sortByDate sorts rows by their dates, keeping the order of those of a date.
// Where the days between the first and the last are few beside the rows, it
// counts the rows of each.
func sortByDate(rows []int32, dates []exact.Date) ([]int32, []exact.Date) {
	first, last := slices.Min(dates), slices.Max(dates)
	var order []int32
	if days := int(last) - int(first) + 1; days <= 4*len(rows) {
		order = group(days, len(rows), func(i int) int { return int(dates[i]) - int(first) }).items
	} else {
		order = positions(len(rows))
		slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(dates[a], dates[b]) })
	}
	sorted, by := make([]int32, len(rows)), make([]exact.Date, len(rows))
	for i, at := range order {
		sorted[i], by[i] = rows[at], dates[at]
	}
	return sorted, by
}

func positions(n int) []int32 {
	list := make([]int32, n)
	for i := range list {
		list[i] = int32(i)
	}
	return list
}

// each calls do for every event up to and on the date last.
func (e *events) each(last exact.Date, do [classCount]func(int32)) {
	var next [classCount]int
	for {
		day := exact.LastDate
		for class := range e {
			if at := next[class]; at < len(e[class].dates) {
				day = min(day, e[class].dates[at])
			}
		}
		if day == exact.LastDate || day > last {
			return
		}
		for class := range e {
			list := &e[class]
			for next[class] < len(list.dates) && list.dates[next[class]] == day {
				next[class]++
				do[class](list.rows[next[class]-1])
			}
		}
	}
}
