package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Written is a record that was written, or several side by side: the name of
// their kind, and the position of the first among the records of that kind.
type Written struct {
	Kind string
	At   int // from 0
	More int // how many more come after the first
}

// mostSaved is how many records of one kind are told one by one.
const mostSaved = 10

// savedKinds say what records of a kind come to.
var savedKinds = map[string]func(s *savedWords, at []int){
	"food":    each("foods", (*savedWords).food),
	"supply":  each("supplies", (*savedWords).supply),
	"machine": each("machines", (*savedWords).machine),
	"wattage": each("rows", (*savedWords).wattage),
	"tariff":  each("bands", (*savedWords).band),
	"holiday": each("holidays", (*savedWords).holiday),
	"receipt": (*savedWords).receipts,
	"price":   (*savedWords).shelves,
	"batch":   each("batches", (*savedWords).batch),
	"run":     (*savedWords).runs,
	"phase":   (*savedWords).phases,
	"load":    (*savedWords).loads,
	"pack":    each("packs", (*savedWords).pack),
	"draw":    each("draws", (*savedWords).draw),
	"frozen":  each("foods", (*savedWords).freeze),
	"count":   (*savedWords).stocktakes,
}

// LastWritten returns the last n records of a kind, such as those just added.
func LastWritten(rec *ledger.Records, kind string, n int) []Written {
	if savedKinds[kind] == nil {
		return []Written{{Kind: kind}}
	}
	there := ledger.MustKind(kind).Len(rec)
	return writtenFrom(kind, max(0, there-n), there)
}

// writtenFrom returns the records of a kind from a position up to another.
func writtenFrom(kind string, from, to int) []Written {
	if from >= to {
		return nil
	}
	return []Written{{kind, from, to - from - 1}}
}

// Saved says what records come to, in sentences: what a run used, what a
// container costs, what was taken out is worth. The records are among the
// ledger's. It returns nil where one is of a kind that it has no words for. A line
// with a [Tab] in it is a row of a table.
func Saved(g *ledger.Ledger, list []Written) []string { return saved(g, nil, list) }

// TakenBack says what records came to that are taken out: those of the ledger as it
// was, with what is in hand as it is after that. It returns nil as [Saved] does.
func TakenBack(was, after *ledger.Ledger, list []Written) []string { return saved(was, after, list) }

func saved(g, after *ledger.Ledger, list []Written) []string {
	s := &savedWords{reporting: reportingOn(g), after: after, told: map[int]bool{}}
	var order []string
	at := map[string][]int{}
	for _, w := range list {
		if savedKinds[w.Kind] == nil {
			return nil
		}
		if at[w.Kind] == nil {
			order = append(order, w.Kind)
		}
		list := slices.Grow(at[w.Kind], w.More+1)
		for i := range w.More + 1 {
			list = append(list, w.At+i)
		}
		at[w.Kind] = list
	}
	for _, kind := range order {
		savedKinds[kind](s, at[kind])
	}
	return s.lines
}

// OneLine says what a record comes to, in one line; of a line of a receipt, what
// was bought, where and when. It is empty where there are no words for the record.
func OneLine(g *ledger.Ledger, w Written) string {
	switch w.Kind {
	case "load": // of its run several may be meant
		l := g.Records.Loads.At(w.At)
		return fmt.Sprintf("%s %s of run %s", phrasingOf(&g.Settings).quantity(l.Quantity), ItemTitle(g, l.Item), l.Run)
	case "phase":
		p := g.Records.Phases.At(w.At)
		return fmt.Sprintf("%v %s of run %s, step %d", p.Phase, exact.FormatDuration(p.Length), p.Run, p.Step)
	}
	said := Saved(g, []Written{w})
	if len(said) == 0 {
		return ""
	}
	if w.Kind != "receipt" || len(said) < 2 {
		return said[0]
	}
	r, s := g.Receipts.At(w.At), savedWords{reporting: reportingOn(g)}
	return commas(r.Shop, s.day(r.Date)) + ": " + s.lineWords(&r) + " " + s.figure(r.Printed(s.currency.Minor()).Ratio())
}

// savedWords gathers the sentences.
type savedWords struct {
	reporting
	after *ledger.Ledger // once the records are taken out; nil: they were written
	lines []string
	told  map[int]bool // runs

	receiptTold bool
}

func (s *savedWords) say(format string, args ...any) {
	s.lines = append(s.lines, fmt.Sprintf(format, args...))
}

// each says of some records what say says of one, and of more of them how many
// there are.
func each(many string, say func(*savedWords, int)) func(*savedWords, []int) {
	return func(s *savedWords, at []int) {
		for _, i := range s.first(at, many) {
			say(s, i)
		}
	}
}

// first returns what is told one by one, having said how many there are where
// that is not all.
func (s *savedWords) first(at []int, many string) []int {
	if len(at) <= mostSaved {
		return at
	}
	s.say("%d %s; the first %d of them:", len(at), many, mostSaved)
	return at[:mostSaved]
}

// runs says what runs used and cost, each once however many of its rows were
// written.
func (s *savedWords) runs(at []int) {
	at = slices.DeleteFunc(slices.Compact(at), func(i int) bool { return s.told[i] })
	for _, i := range at {
		s.told[i] = true
	}
	for _, i := range s.first(at, "runs") {
		s.run(i)
	}
}

func (s *savedWords) phases(at []int) {
	s.runsOf(at, func(i int) string { return s.g.Records.Phases.At(i).Run })
}

func (s *savedWords) loads(at []int) {
	s.runsOf(at, func(i int) string { return s.g.Records.Loads.At(i).Run })
}

// runsOf is runs for those that rows belong to.
func (s *savedWords) runsOf(rows []int, run func(int) string) {
	var at []int
	known := map[int]bool{}
	for _, row := range rows {
		if i, ok := s.g.FindRun(run(row)); ok && !known[i] {
			at, known[i] = append(at, i), true
		}
	}
	s.runs(at)
}
