package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
)

// Trace lays out where a receipt, a batch, a run or a pack came from and went;
// see [figures.Trace], whose errors it returns.
func Trace(g *ledger.Ledger, q figures.TraceQuery) (Doc, error) {
	found, err := figures.Trace(g, q)
	if err != nil {
		return Doc{}, err
	}
	t, name := trace{reportingOn(g), found}, q.Name
	if q.Line != "" {
		name += " line " + q.Line
	}
	d := newDoc(g, "Where "+t.Kind.String()+" "+name+" came from and went")
	d.Words = []string{t.inWords()}
	d.Fields = append([]Field{
		{Key: "as_of", Node: DateOf(g.AsOf)}, {Key: "kind", Node: TextOf(t.Kind.String())}, {Key: "name", Node: TextOf(q.Name)}, {Key: "line", Node: textOrNone(q.Line)},
	}, t.fields()...)
	d.Notes, d.Cautions = t.remarks(), cautions(g, func(f int) bool { return t.Foods[f] })
	return d, nil
}

// trace is a trace being laid out.
type trace struct {
	reporting
	*figures.TraceResult
}

// inWords says how many containers hold what is traced, and where they are.
func (t trace) inWords() string {
	count, left := 0, 0
	var out [ledger.Missing + 1]int
	for _, p := range t.Packs {
		count += t.g.Records.Packs.At(p.Pack).Count
		left += t.g.Packs[p.Pack].Left()
		for reason, n := range p.Gone {
			out[reason] += n
		}
	}
	if len(t.Packs) == 0 {
		return "No pack holds it."
	}
	say := phrasingOf(&t.g.Settings)
	words := fmt.Sprintf("%s of %s: %s in store", say.counted(count, "container"), say.counted(len(t.Packs), "pack"), say.count(left))
	for reason, n := range out {
		words += fmt.Sprintf(", %s %v", say.count(n), ledger.Reason(reason))
	}
	return words + "."
}

// remarks says what a trace rests on.
func (t trace) remarks() []string {
	var notes noteList
	if t.Opening {
		notes.add("opening stock: the records begin with it, so nothing is known of where it came from")
	}
	switch {
	case t.Kind != ledger.Receipts && t.Kind != ledger.Batches:
	case t.g.Settings.Costing == ledger.Average:
		notes.add("under average costing the books cannot tell lots apart: amounts are taken to leave oldest first, so hold the packs of other lots of those days back as well")
	case t.Assumed:
		notes.add("where no load names its lot, and in batches and draws, the books take the oldest first: if you took another, hold its neighbours back as well")
	}
	notes.add("in a recall, do as the maker or the food-safety authority says; if in doubt, do not eat it")
	return notes
}
