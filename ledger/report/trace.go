package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A TraceQuery names what is followed through the records.
type TraceQuery struct {
	figures.Query
	Name string // of a pack, a run, a batch or a receipt
	Line string // of a receipt; empty is all its lines
	Kind string // pack, run, batch or receipt, where several have the name; empty is any
}

var traceKinds = []string{"pack", "run", "batch", "receipt"}

// Trace follows a receipt, a batch, a run or a pack back to what it was made
// of and forward to every pack that holds it: a list for a recall. The ledger
// must be joined through the query's AsOf, with Itemize. The error is a
// [*QueryError] or an [*figures.UnknownError].
func Trace(g *ledger.Ledger, q TraceQuery) (Doc, error) {
	if _, err := q.In(g); err != nil {
		return Doc{}, asked(g, err)
	}
	kind, err := q.kind(g)
	if err != nil {
		return Doc{}, err
	}
	t := newThread(g)
	d := newDoc(g, "Where "+kind+" "+q.title()+" came from and went")
	switch kind {
	case "pack":
		i, _ := g.FindPack(q.Name)
		t.fromPack(i)
	case "run":
		i, _ := g.FindRun(q.Name)
		t.fromRun(i)
	case "batch":
		t.fromBatch(batchAt(g, q.Name))
	default:
		t.fromReceipt(receiptRows(g, q.Name, q.Line))
	}
	t.follow()
	d.Words = []string{t.inWords()}
	d.Fields = append([]Field{
		{Key: "as_of", Node: DateOf(g.AsOf)}, {Key: "kind", Node: TextOf(kind)}, {Key: "name", Node: TextOf(q.Name)}, {Key: "line", Node: textOrNone(q.Line)},
	}, t.fields()...)
	d.Notes = append(t.remarks(kind), cautions(g, func(f int) bool { return t.foods[f] })...)
	return d, nil
}

func (q TraceQuery) title() string {
	if q.Line == "" {
		return q.Name
	}
	return q.Name + " line " + q.Line
}

// kind finds what the name is of.
func (q TraceQuery) kind(g *ledger.Ledger) (string, error) {
	if q.Kind != "" && !slices.Contains(traceKinds, q.Kind) {
		return "", &QueryError{"kind", exact.Quote(q.Kind) + " is not a kind that is traced", "one of: " + strings.Join(traceKinds, ", ")}
	}
	var has []string
	for _, kind := range traceKinds {
		if (q.Kind == "" || q.Kind == kind) && named(g, kind, q.Name) {
			has = append(has, kind)
		}
	}
	switch {
	case len(has) == 0 && q.Kind != "":
		return "", &figures.UnknownError{What: q.Kind, Name: q.Name}
	case len(has) == 0:
		return "", &figures.UnknownError{What: "pack, run, batch or receipt", Name: q.Name}
	case len(has) > 1:
		return "", &QueryError{"kind", fmt.Sprintf("%s is a %s", exact.Quote(q.Name), strings.Join(has, " and a ")), "say which is meant, such as --kind " + has[0]}
	case q.Line == "":
	case has[0] != "receipt":
		return "", &QueryError{"line", fmt.Sprintf("%s is a %s, and has no lines", exact.Quote(q.Name), has[0]), "only receipts have lines"}
	case len(receiptRows(g, q.Name, q.Line)) == 0:
		return "", &figures.UnknownError{What: "line of receipt " + q.Name, Name: q.Line}
	}
	return has[0], nil
}

// named reports whether a record of a kind has a name, by the ledger's date.
func named(g *ledger.Ledger, kind, name string) bool {
	switch kind {
	case "pack":
		i, ok := g.FindPack(name)
		return ok && g.Packs[i].Done
	case "run":
		i, ok := g.FindRun(name)
		return ok && g.Runs[i].Done
	case "batch":
		return batchAt(g, name) >= 0
	}
	return len(receiptRows(g, name, "")) > 0
}

// batchAt returns the position of a batch by the ledger's date, or -1.
func batchAt(g *ledger.Ledger, name string) int {
	return slices.IndexFunc(g.Batches, func(b ledger.Batch) bool { return b.ID == name && b.Date <= g.AsOf })
}

// receiptRows returns the positions of a receipt's rows of things bought, or of
// one of its lines, by the ledger's date.
func receiptRows(g *ledger.Ledger, name, line string) (rows []int) {
	for i := range g.Receipts {
		r := &g.Receipts[i]
		if r.Receipt == name && (line == "" || r.Number == line) && r.Kind.Bought() && r.Date <= g.AsOf {
			rows = append(rows, i)
		}
	}
	return rows
}

// inWords says how many containers hold what is traced, and where they are.
func (t *thread) inWords() string {
	count, left := 0, 0
	var out [ledger.Missing + 1]int
	for _, p := range t.packs {
		count += t.g.Records.Packs[p].Count
		left += t.g.Packs[p].Left()
		for reason, n := range t.gone[p] {
			out[reason] += n
		}
	}
	if len(t.packs) == 0 {
		return "No pack holds it."
	}
	words := fmt.Sprintf("%s of %s: %d in store", counted(count, "container"), counted(len(t.packs), "pack"), left)
	for reason, n := range out {
		words += fmt.Sprintf(", %d %v", n, ledger.Reason(reason))
	}
	return words + "."
}

// remarks says what a trace rests on.
func (t *thread) remarks(kind string) []string {
	notes := t.notes
	switch {
	case kind != "receipt" && kind != "batch":
	case t.g.Settings.Costing == ledger.Average:
		notes.add("under average costing the books cannot tell lots apart: amounts are taken to leave oldest first, so hold the packs of other lots of those days back as well")
	case t.assumed:
		notes.add("where no load names its lot, and in batches and draws, the books take the oldest first: if you took another, hold its neighbours back as well")
	}
	notes.add("in a recall do as the maker or the food-safety authority says; in doubt do not eat it")
	return notes
}
