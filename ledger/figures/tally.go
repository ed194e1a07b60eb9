package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Spending is a kind of money out.
type Spending uint8

// The kinds of money out, in the order of reports. The first five are those of
// receipt lines.
const (
	FoodSpent Spending = iota
	SuppliesSpent
	MachinesSpent
	ServicesSpent
	OtherSpent
	ElectricitySpent
	spendings
)

var spendingNames = [spendings]string{"food", "supplies", "machines", "services", "other", "electricity"}

// String returns the kind's name, as settings have it.
func (s Spending) String() string { return spendingNames[s] }

// SpendingNames returns the names of all kinds.
func SpendingNames() []string { return slices.Clone(spendingNames[:]) }

// ParseSpending reads a kind's name, and reports false for any other text.
func ParseSpending(name string) (Spending, bool) {
	i := slices.Index(spendingNames[:], name)
	return Spending(max(i, 0)), i >= 0
}

// Outgoings are money out by kind.
type Outgoings [spendings]exact.Money

// Total is the money out of all kinds.
func (o *Outgoings) Total() (sum exact.Money) {
	for _, m := range o {
		sum = sum.Add(m)
	}
	return sum
}

// Plus is what two have spent together.
func (o Outgoings) Plus(p *Outgoings) Outgoings {
	for i := range o {
		o[i] = o[i].Add(p[i])
	}
	return o
}

// A Tally is what moved in a period, and what was in store at both of its ends.
// The comment at each field says by what date it counts.
type Tally struct {
	Spent    Outgoings                       // of receipt lines by their date; electricity by the run's start
	PutBy    exact.Money                     // packs, by their date
	Out      [ledger.Missing + 1]exact.Money // packs that left, by reason and by the day they did, at their cost
	Fresh    [ledger.Missing + 1]exact.Money // draws of food in hand
	Supplies exact.Money                     // drawn outright: broken, given away, missing in a count; in no pack's cost
	Lost     exact.Money                     // by the run's start
	Wear     exact.Money                     // inside what was used, spoiled, missing and lost
	Saved    exact.Ratio                     // shelf value of what was used from packs, less its cost
	Opening  exact.Money                     // packs in store
	Closing  exact.Money                     // packs in store when it ends
	Runs     int                             // by their start
}

// FreshSpoiled is what spoiled before it was dried, or was missing.
func (t *Tally) FreshSpoiled() exact.Money {
	return t.Fresh[ledger.Spoiled].Add(t.Fresh[ledger.Missing])
}

// Gone is what came to nothing.
func (t *Tally) Gone() exact.Money {
	return t.Lost.Add(t.Out[ledger.Spoiled]).Add(t.Out[ledger.Missing]).Add(t.FreshSpoiled())
}

// Net is what was saved less all that came to nothing.
func (t *Tally) Net() exact.Ratio { return t.Saved.Sub(t.Gone().Ratio()) }

// left is what must be in store at the end, by what came in and went out.
func (t *Tally) left() exact.Money {
	sum := t.Opening.Add(t.PutBy)
	for _, m := range t.Out {
		sum = sum.Sub(m)
	}
	return sum
}

// Minus is how much more t has of each than u. A field added to a Tally is to be added
// here and in Plus.
func (t Tally) Minus(u *Tally) Tally {
	for i := range t.Spent {
		t.Spent[i] = t.Spent[i].Sub(u.Spent[i])
	}
	for i := range t.Out {
		t.Out[i], t.Fresh[i] = t.Out[i].Sub(u.Out[i]), t.Fresh[i].Sub(u.Fresh[i])
	}
	t.Supplies, t.PutBy, t.Lost = t.Supplies.Sub(u.Supplies), t.PutBy.Sub(u.PutBy), t.Lost.Sub(u.Lost)
	t.Wear, t.Opening, t.Closing = t.Wear.Sub(u.Wear), t.Opening.Sub(u.Opening), t.Closing.Sub(u.Closing)
	t.Saved, t.Runs = t.Saved.Sub(u.Saved), t.Runs-u.Runs
	return t
}

// Plus adds the period that follows t.
func (t Tally) Plus(u *Tally) Tally {
	t.Spent = t.Spent.Plus(&u.Spent)
	for i := range t.Out {
		t.Out[i], t.Fresh[i] = t.Out[i].Add(u.Out[i]), t.Fresh[i].Add(u.Fresh[i])
	}
	t.Supplies = t.Supplies.Add(u.Supplies)
	t.PutBy, t.Lost, t.Wear = t.PutBy.Add(u.PutBy), t.Lost.Add(u.Lost), t.Wear.Add(u.Wear)
	t.Saved, t.Closing = t.Saved.Add(u.Saved), u.Closing
	t.Runs += u.Runs
	return t
}

// A tallier sorts what moved into periods that follow each other, or by machines.
type tallier struct {
	g       *ledger.Ledger
	scope   Scope // of its dates nothing counts
	periods []Period
	dryers  []int // by pack: its machine, as [tallyMachines] has it; nil: sorted into periods
	tallies []Tally
	bought  []Notes // about what was spent in each period
	notes   []Notes // and about all else in it
}

// tallyUp sorts all that moved by the ledger's date into periods, which cover
// all of it. The error is [ErrUnbalanced].
func tallyUp(g *ledger.Ledger, scope Scope, periods []Period) (*tallier, error) {
	t := &tallier{g: g, scope: scope, periods: periods, tallies: make([]Tally, len(periods)),
		bought: make([]Notes, len(periods)), notes: make([]Notes, len(periods))}
	t.receipts()
	t.dried()
	t.packed()
	t.moved()
	return t, t.stores()
}

// tallyMachines sorts all that was dried, packed and moved by machine: first what none
// dried, then by the positions of Machines plus 1. The error is [ErrUnbalanced], where
// the packs in store of a machine are not what came in and is not gone.
func tallyMachines(g *ledger.Ledger, scope Scope) ([]Tally, error) {
	n := len(g.Machines) + 1
	t := &tallier{g: g, scope: scope, tallies: make([]Tally, n), notes: make([]Notes, n), dryers: make([]int, len(g.Packs))}
	for i := range g.Packs {
		t.dryers[i] = t.machine(machineOf(g, i))
		if p := &g.Packs[i]; p.Done && scope.Wants(p.Food) {
			row := &t.tallies[t.dryers[i]]
			row.Closing = row.Closing.Add(p.LeftCost())
		}
	}
	t.dried()
	t.packed()
	t.moved()
	for i := range t.tallies {
		// No Opening: these begin with the first record.
		if row := &t.tallies[i]; !row.left().Equal(row.Closing) {
			return nil, ErrUnbalanced
		}
	}
	return t.tallies, nil
}

// machine is where [tallyMachines] has a machine; what none has dried comes first.
func (t *tallier) machine(id string) int {
	if i, ok := t.g.FindMachine(id); ok {
		return i + 1
	}
	return 0
}

// atRun returns where a run counts, atPack where a pack does on a day; -1 is no pack.
func (t *tallier) atRun(run int) int {
	if t.dryers != nil {
		return t.machine(t.g.Records.Runs[run].Machine)
	}
	return t.at(t.g.Runs[run].Date)
}

func (t *tallier) atPack(pack int, d exact.Date) int {
	switch {
	case t.dryers == nil:
		return t.at(d)
	case pack < 0:
		return 0
	}
	return t.dryers[pack]
}

// at returns the position of the period of a day.
func (t *tallier) at(d exact.Date) int {
	i, _ := slices.BinarySearchFunc(t.periods, d, func(p Period, d exact.Date) int {
		if p.To < d {
			return -1
		}
		return 1
	})
	return i
}

// everything reports whether all foods and machines are tallied.
func (t *tallier) everything() bool { return t.scope.Food < 0 && !t.scope.Machine.Given() }

// buys reports whether a row of a receipt is money out for what is tallied.
func (t *tallier) buys(r *ledger.ReceiptRow) bool {
	switch {
	case t.scope.Machine.Given():
		return (r.Kind == ledger.MachineLine || r.Kind == ledger.ServiceLine) && r.Item != "" && t.scope.On(r.Item)
	case t.scope.Food >= 0:
		return r.Kind == ledger.FoodLine && r.Item == t.g.Foods[t.scope.Food].ID
	}
	return r.Kind.Bought()
}

func (t *tallier) receipts() {
	for i, r := range t.g.Receipts.All() {
		if r.Date > t.g.AsOf || !t.buys(&r) {
			continue
		}
		at := t.at(r.Date)
		kind := Spending(r.Kind) // the kinds of lines come in the order of spendings
		t.tallies[at].Spent[kind] = t.tallies[at].Spent[kind].Add(t.g.Spends[i])
		t.bought[at].addStated(t.g.SpendNotes(i))
	}
}

func (t *tallier) dried() {
	for i := range t.g.Runs {
		run := &t.g.Runs[i]
		if !run.Done || !t.scope.On(t.g.Records.Runs[i].Machine) {
			continue
		}
		at := t.atRun(i)
		row, wanted := &t.tallies[at], false
		for j := range run.Items {
			item := &run.Items[j]
			if !t.scope.Wants(item.Food) {
				continue
			}
			wanted = true
			e := ledger.ElectricityCost
			row.Spent[ElectricitySpent] = row.Spent[ElectricitySpent].Add(item.Good[e]).Add(item.Lost[e])
			row.Lost = row.Lost.Add(item.Lost.Total())
			row.Wear = row.Wear.Add(item.Lost[ledger.WearCost])
		}
		if wanted {
			row.Runs++
			t.notes[at].addStated(run.Notes)
		}
	}
}

func (t *tallier) packed() {
	for i := range t.g.Packs {
		pack := &t.g.Packs[i]
		if !pack.Done {
			continue
		}
		if at := t.atPack(i, t.g.Records.PackDate(i)); t.scope.wantsPack(t.g, i) {
			t.tallies[at].PutBy = t.tallies[at].PutBy.Add(pack.Total())
			t.notes[at].addStated(pack.Notes())
		}
	}
}

func (t *tallier) moved() {
	for i := range t.g.Moves {
		m := &t.g.Moves[i]
		at := t.atPack(m.Pack, m.Date)
		row := &t.tallies[at]
		switch {
		case m.Supply >= 0 && t.everything():
			row.Supplies = row.Supplies.Add(m.Cost)
		case m.Food < 0 || !t.scope.Wants(m.Food):
		// Fresh food is of no machine; a pack is of that of its run.
		case m.Pack < 0 && !t.scope.On(""), m.Pack >= 0 && !t.scope.wantsPack(t.g, m.Pack):
		case m.Pack < 0:
			row.Fresh[m.Reason] = row.Fresh[m.Reason].Add(m.Cost)
		default:
			row.Out[m.Reason] = row.Out[m.Reason].Add(m.Cost)
			// What is given away saved nothing and came to nothing: its wear earns nothing back.
			if m.Reason != ledger.Given {
				row.Wear = row.Wear.Add(m.Wear)
			}
			if m.Reason == ledger.Used {
				row.Saved = row.Saved.Add(t.saved(m, &t.notes[at]))
			}
		}
	}
}

// saved is what a draw from a pack saved: its value at the shelf price of its
// day, less its cost. What has no price saves nothing, with a note.
func (t *tallier) saved(m *ledger.Move, notes *Notes) exact.Ratio {
	price, ok := t.g.ShelfPrice(m.Food, m.Date, pricing.Fresh)
	if !ok {
		notes.Add(Note{Kind: UsedUnpriced, Food: m.Food})
		return exact.Ratio{}
	}
	notes.addPrice(m.Food, price, m.Date)
	return price.PerUnit.Times(m.Amount).Sub(m.Cost.Ratio())
}
