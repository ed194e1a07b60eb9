package figures

import (
	"slices"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A TraceQuery names what is followed through the records.
type TraceQuery struct {
	Name string // of a pack, a run, a batch or a receipt
	Line string // of a receipt; empty is all its lines
	Kind string // one of TraceKinds, where several have the name; empty is any
}

// traced are the things that can be traced.
var traced = []ledger.Thing{ledger.Packs, ledger.Runs, ledger.Batches, ledger.Receipts}

// TraceKinds are the kinds of what is traced, as [TraceQuery.Kind] names them.
func TraceKinds() []string { return kinds(traced) }

// kinds is what things are called.
func kinds(things []ledger.Thing) (list []string) {
	for _, t := range things {
		list = append(list, t.String())
	}
	return list
}

// A TraceResult is where something came from and where it went: a list for a
// recall. Lists are in the order of the records, but sources, which are in the
// order in which they were drawn.
type TraceResult struct {
	Kind     ledger.Thing
	Lines    []int        // of receipts: positions in Receipts; what is traced, where that was bought
	Packs    []TracedPack // that hold it
	Moves    []TracedMove // that took some of it out
	InHand   []int32      // lots with some of it left: positions in Lots
	Batches  []int        // it went into: positions in Batches
	Passages []Passage    // foods of runs that hold it
	Sources  []Source     // it was made of
	Bands    []BandUse    // of the tariffs, in which its electricity fell
	Foods    []bool       // by position in Foods: those that it is of, holds or was made of

	Opening bool // a pack of opening stock: the records begin with it
	Assumed bool // some was drawn oldest first, as the books assume, and named no lot
}

// A TracedPack is a pack that holds what is traced, and how many of its
// containers left it, by reason.
type TracedPack struct {
	Pack int                     // position in Packs
	Gone [ledger.Missing + 1]int // containers, by reason
}

// A TracedMove is a draw or count that took some of it out: containers of its
// packs, else an amount in the food's unit, or uses of a supply.
type TracedMove struct {
	Move     int          // position in Moves
	Quantity exact.Number // above 0
}

// A Role says what something was drawn for.
type Role uint8

// The roles of a [Source] and of a [Passage].
const (
	InFood       Role = iota + 1
	OnPack            // a container, a lid, an absorber
	OfTheMachine      // a cycle of its life
	InCycle           // a supply that a run uses
)

// A Source is an amount that came from a lot, or was charged at list price.
type Source struct {
	For      Role
	Via      string       // the batch by whose way; empty: none
	Item     string       // empty at list price
	Unit     exact.Unit   // of a food; NoUnit: uses or cycles
	Lot      int32        // position in Lots, or ledger.ListPrice
	Quantity exact.Number // in Unit, or uses or cycles
}

// A Passage is a food of a run that holds what is traced.
type Passage struct {
	Run, Item int                     // positions in Runs, and in its Items
	Amount    exact.Opt[exact.Number] // of it; not given where it is no food
	As        Role                    // 0: the run or pack itself is traced
	Waits     bool                    // some of it, or all, is in no pack yet
}

// A BandUse is the energy of a run under one band of its tariff.
type BandUse struct {
	Run    int // position in Runs
	Tariff string
	Band   energy.Band
	Energy exact.Ratio // kWh

	paid exact.Ratio // money before tax
}

// MeanRate is what a kWh cost on average before tax, under an hourly band; not
// given under others, and where nothing was used.
func (b BandUse) MeanRate() (mean exact.Opt[exact.Ratio]) {
	if b.Band.Hourly && b.Energy.Sign() > 0 {
		mean = exact.Some(b.paid.Quo(b.Energy))
	}
	return mean
}

// Trace follows a receipt, a batch, a run or a pack back to what it was made
// of and forward to every pack that holds it. The ledger must be joined through
// the day at which it stands, with Itemize. The error is an [*UnknownError], also
// for a line of a receipt, or a [*FactError] where several kinds have the name, or
// what has it has no lines.
func Trace(g *ledger.Ledger, q TraceQuery) (*TraceResult, error) {
	kind, err := q.kind(g)
	if err != nil {
		return nil, err
	}
	t := newChain(g)
	t.Kind = kind
	switch kind {
	case ledger.Packs:
		i, _ := g.FindPack(q.Name)
		t.fromPack(i)
	case ledger.Runs:
		i, _ := g.FindRun(q.Name)
		t.fromRun(i)
	case ledger.Batches:
		t.fromBatch(batchAt(g, q.Name))
	default:
		t.fromReceipt(receiptRows(g, q.Name, q.Line))
	}
	t.follow()
	t.finish()
	return &t.TraceResult, nil
}

// kind finds what the name is of.
func (q TraceQuery) kind(g *ledger.Ledger) (ledger.Thing, error) {
	asked := slices.DeleteFunc(slices.Clone(traced), func(t ledger.Thing) bool { return q.Kind != "" && q.Kind != t.String() })
	has := slices.DeleteFunc(slices.Clone(asked), func(t ledger.Thing) bool { return !named(g, t, q.Name) })
	switch {
	case len(has) == 0:
		return 0, &UnknownError{Of: asked, Name: q.Name}
	case len(has) > 1:
		return 0, &FactError{Fact: KindFact, Fault: SeveralNamed, Name: q.Name, Among: kinds(has)}
	case q.Line == "":
	case has[0] != ledger.Receipts:
		return 0, &FactError{Fact: LineFact, Fault: NoLines, Name: q.Name, Among: kinds(has)}
	case len(receiptRows(g, q.Name, q.Line)) == 0:
		return 0, &UnknownError{Of: has, Receipt: q.Name, Name: q.Line}
	}
	return has[0], nil
}

// named reports whether a record of a kind has a name, by the ledger's date.
func named(g *ledger.Ledger, kind ledger.Thing, name string) bool {
	switch kind {
	case ledger.Packs:
		i, ok := g.FindPack(name)
		return ok && g.Packs[i].Done
	case ledger.Runs:
		i, ok := g.FindRun(name)
		return ok && g.Runs[i].Done
	case ledger.Batches:
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
	for i, r := range g.Receipts.All() {
		if r.Receipt == name && (line == "" || r.Number == line) && r.Kind.Bought() && r.Date <= g.AsOf {
			rows = append(rows, i)
		}
	}
	return rows
}
