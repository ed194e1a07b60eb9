package ledger

import (
	"cmp"
	"math"
	"slices"

	"putby/pricing/exact"
)

// events gives the records that move things in the order in which they count:
// by date, and within a date by class. It merges one sorted list a class, so
// that records already in order cost one look each.
type events struct {
	lists [classCount][]int32
	dates [classCount]func(int32) exact.Date
}

// The classes of events, in their order within a day.
const (
	receiptClass = iota
	batchClass
	runClass // by start
	packClass
	drawClass
	countClass
	classCount
)

func newEvents(rec *Records, rows []int32) *events {
	e := &events{}
	e.add(receiptClass, rows, func(i int32) exact.Date { return rec.Receipts[i].Date })
	e.add(batchClass, positions(len(rec.Batches)), func(i int32) exact.Date { return rec.Batches[i].Date })
	runs := positions(len(rec.Runs))
	slices.SortStableFunc(runs, func(a, b int32) int { return rec.Runs[a].Start.Compare(rec.Runs[b].Start) })
	e.add(runClass, runs, func(i int32) exact.Date { return exact.DateIn(rec.Runs[i].Start) })
	e.add(packClass, positions(len(rec.Packs)), func(i int32) exact.Date { return rec.Packs[i].Date })
	e.add(drawClass, positions(len(rec.Draws)), func(i int32) exact.Date { return rec.Draws[i].Date })
	e.add(countClass, positions(len(rec.Counts)), func(i int32) exact.Date { return rec.Counts[i].Date })
	return e
}

func (e *events) add(class int, list []int32, date func(int32) exact.Date) {
	order := func(a, b int32) int { return cmp.Compare(date(a), date(b)) }
	if !slices.IsSortedFunc(list, order) {
		slices.SortStableFunc(list, order)
	}
	e.lists[class], e.dates[class] = list, date
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
	for {
		day := exact.Date(math.MaxInt32)
		for class, list := range e.lists {
			if len(list) > 0 {
				day = min(day, e.dates[class](list[0]))
			}
		}
		if day == math.MaxInt32 || day > last {
			return
		}
		for class := range e.lists {
			for len(e.lists[class]) > 0 && e.dates[class](e.lists[class][0]) == day {
				i := e.lists[class][0]
				e.lists[class] = e.lists[class][1:]
				do[class](i)
			}
		}
	}
}
