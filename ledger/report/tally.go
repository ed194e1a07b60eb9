package report

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A spending is a kind of money out.
type spending uint8

// The kinds of money out, in the order of reports. The first five are those of
// receipt lines.
const (
	foodSpent spending = iota
	suppliesSpent
	machinesSpent
	servicesSpent
	otherSpent
	electricitySpent
	spendings
)

var spendingNames = [spendings]string{"food", "supplies", "machines", "services", "other", "electricity"}

// outgoings are money out by kind.
type outgoings [spendings]exact.Money

// total is the money out of all kinds.
func (o *outgoings) total() (sum exact.Money) {
	for _, m := range o {
		sum = sum.Add(m)
	}
	return sum
}

func (o outgoings) plus(p *outgoings) outgoings {
	for i := range o {
		o[i] = o[i].Add(p[i])
	}
	return o
}

// A tally is what moved in a period, and what was in store at both of its ends.
// The comment at each field says by what date it counts.
type tally struct {
	spent    outgoings   // of receipt lines by their date; electricity by the run's start
	putBy    exact.Money // packs, by their date
	out      [ledger.Missing + 1]exact.Money
	fresh    [ledger.Missing + 1]exact.Money // draws of food in hand
	supplies exact.Money                     // drawn outright: broken, given away, missing in a count; in no pack's cost
	lost     exact.Money                     // by the run's start
	wear     exact.Money                     // inside what was used, spoiled, missing and lost
	saved    exact.Ratio                     // shelf value of what was used from packs, less its cost
	opening  exact.Money                     // packs in store
	closing  exact.Money
	runs     int
	recorded bool // something in it moved money
}

// freshSpoiled is what spoiled before it was dried, or was missing.
func (t *tally) freshSpoiled() exact.Money {
	return t.fresh[ledger.Spoiled].Add(t.fresh[ledger.Missing])
}

// net is what was saved less all that came to nothing.
func (t *tally) net() exact.Ratio {
	gone := t.lost.Add(t.out[ledger.Spoiled]).Add(t.out[ledger.Missing]).Add(t.freshSpoiled())
	return t.saved.Sub(ratioOf(gone))
}

// left is what must be in store at the end, by what came in and went out.
func (t *tally) left() exact.Money {
	sum := t.opening.Add(t.putBy)
	for _, m := range t.out {
		sum = sum.Sub(m)
	}
	return sum
}

// plus adds the period that follows t.
func (t tally) plus(u *tally) tally {
	t.spent = t.spent.plus(&u.spent)
	for i := range t.out {
		t.out[i], t.fresh[i] = t.out[i].Add(u.out[i]), t.fresh[i].Add(u.fresh[i])
	}
	t.supplies = t.supplies.Add(u.supplies)
	t.putBy, t.lost, t.wear = t.putBy.Add(u.putBy), t.lost.Add(u.lost), t.wear.Add(u.wear)
	t.saved, t.closing = t.saved.Add(u.saved), u.closing
	t.runs, t.recorded = t.runs+u.runs, t.recorded || u.recorded
	return t
}

// A tallier sorts what moved into periods that follow each other.
type tallier struct {
	g       *ledger.Ledger
	food    int // position in Foods; -1 for all
	periods []period
	tallies []tally
	bought  []doubts // about what was spent in each period
	notes   []doubts // and about all else in it
}

// tallyUp sorts all that moved by the ledger's date into periods, which cover
// all of it. The error is [figures.ErrUnbalanced].
func tallyUp(g *ledger.Ledger, food int, periods []period) (*tallier, error) {
	t := &tallier{g: g, food: food, periods: periods, tallies: make([]tally, len(periods)),
		bought: make([]doubts, len(periods)), notes: make([]doubts, len(periods))}
	t.receipts()
	t.batches()
	t.dried()
	t.packed()
	t.moved()
	return t, t.stores()
}

// at returns the position of the period of a day.
func (t *tallier) at(d exact.Date) int {
	i, _ := slices.BinarySearchFunc(t.periods, d, func(p period, d exact.Date) int {
		if p.to < d {
			return -1
		}
		return 1
	})
	return i
}

func (t *tallier) of(d exact.Date) *tally { return &t.tallies[t.at(d)] }

func (t *tallier) wants(food int) bool { return t.food < 0 || t.food == food }

// buys reports whether a row of a receipt is money out for what is tallied.
func (t *tallier) buys(r *ledger.ReceiptRow) bool {
	return r.Kind.Bought() && (t.food < 0 || r.Kind == ledger.FoodLine && r.Item == t.g.Foods[t.food].ID)
}

func (t *tallier) receipts() {
	for i := range t.g.Receipts {
		r := &t.g.Receipts[i]
		if r.Date > t.g.AsOf {
			continue
		}
		at := t.at(r.Date)
		t.tallies[at].recorded = true
		if !t.buys(r) {
			continue
		}
		kind := spending(r.Kind) // the kinds of lines come in the order of spendings
		t.tallies[at].spent[kind] = t.tallies[at].spent[kind].Add(t.g.Spends[i].Cost)
		t.bought[at].add(t.g.Spends[i].Notes...)
	}
}

func (t *tallier) batches() {
	for i := range t.g.Batches {
		if d := t.g.Batches[i].Date; d <= t.g.AsOf {
			t.of(d).recorded = true
		}
	}
}

func (t *tallier) dried() {
	for i := range t.g.Runs {
		run := &t.g.Runs[i]
		if !run.Done {
			continue
		}
		at := t.at(run.Date)
		row, wanted := &t.tallies[at], false
		row.recorded = true
		for j := range run.Items {
			item := &run.Items[j]
			if !t.wants(item.Food) {
				continue
			}
			wanted = true
			e := ledger.ElectricityCost
			row.spent[electricitySpent] = row.spent[electricitySpent].Add(item.Good[e]).Add(item.Lost[e])
			row.lost = row.lost.Add(item.Lost.Total())
			row.wear = row.wear.Add(item.Lost[ledger.WearCost])
		}
		if wanted {
			row.runs++
			t.notes[at].add(run.Notes...)
		}
	}
}

func (t *tallier) packed() {
	for i := range t.g.Packs {
		pack := &t.g.Packs[i]
		if !pack.Done {
			continue
		}
		at := t.at(t.g.Records.Packs[i].Date)
		t.tallies[at].recorded = true
		if t.wants(pack.Food) {
			t.tallies[at].putBy = t.tallies[at].putBy.Add(pack.Total)
			t.notes[at].add(pack.Notes...)
		}
	}
}

func (t *tallier) moved() {
	for i := range t.g.Moves {
		m := &t.g.Moves[i]
		at := t.at(m.Date)
		row := &t.tallies[at]
		row.recorded = true
		switch {
		case m.Supply >= 0 && t.food < 0:
			row.supplies = row.supplies.Add(m.Cost)
		case m.Food < 0 || !t.wants(m.Food):
		case m.Pack < 0:
			row.fresh[m.Reason] = row.fresh[m.Reason].Add(m.Cost)
		default:
			row.out[m.Reason] = row.out[m.Reason].Add(m.Cost)
			if m.Reason != ledger.Given {
				row.wear = row.wear.Add(m.Wear)
			}
			if m.Reason == ledger.Used {
				row.saved = row.saved.Add(t.saved(m, &t.notes[at]))
			}
		}
	}
}

// saved is what a draw from a pack saved: its value at the shelf price of its
// day, less its cost. What has no price saves nothing, with a note.
func (t *tallier) saved(m *ledger.Move, notes *doubts) exact.Ratio {
	food := &t.g.Foods[m.Food]
	price, ok := t.g.ShelfPrice(m.Food, m.Date, pricing.Fresh)
	if !ok {
		notes.addf("no fresh shelf price of %s is known: what was used of it counts neither as saved nor as dearer", food.Title())
		return exact.Ratio{}
	}
	notes.aboutPrice(food, price, price.Ask.Date > m.Date)
	return price.PerUnit.Times(m.Amount).Sub(ratioOf(m.Cost))
}
