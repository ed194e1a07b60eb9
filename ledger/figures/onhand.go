package figures

import (
	"cmp"
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// An OnHandQuery asks what is in the house. From and To mean nothing.
type OnHandQuery struct {
	Query
	Due exact.Opt[int] // only what is due within so many days, the soonest first
}

// An OnHandResult is what is in the house on a day. Where only what is due was
// asked for, Foods, Running, Awaiting, Supplies and Machines are empty; where one food
// was, Supplies and Machines are.
type OnHandResult struct {
	Food int        // asked about; -1: all
	Day  exact.Date // from which days are counted

	Packs    []PackInStore // the oldest first; of what is due, the soonest
	Foods    []FoodInStore // sums of Packs, in file order
	Fresh    []FreshFood   // the soonest to turn first
	Lots     []FreshLot    // of all of it, the soonest to turn first
	Running  []InMachine   // in order of start
	Awaiting []Awaiting    // packing, in order of the records
	Supplies []SupplyLeft  // that were ever bought or used
	Machines []MachineLeft
	Notes    Notes
}

// A PackInStore is a pack with containers left.
type PackInStore struct {
	Pack, Food int                    // positions
	Left       int                    // containers
	Amount     exact.Number           // what they make, in the food's basis unit
	Cost       exact.Money            // carried by the containers left
	Shelf      exact.Opt[exact.Ratio] // what the shelf asks for that amount on the day
	Packed     exact.Date             // packing day
	BestBy     exact.Date             // NoDate: nobody knows
	Past       bool                   // its best-by date is before the day
}

// A FoodInStore is the sum of a food's packs in store.
type FoodInStore struct {
	Food   int                    // position in Foods
	Left   int                    // containers
	Amount exact.Number           // reconstituted, in the food's basis unit
	Cost   exact.Money            // carried by those containers
	Shelf  exact.Opt[exact.Ratio] // money that the shelf asks for as much; not given: no price is known
	BestBy exact.Date             // the first; NoDate: nobody knows
}

// InMachine is a food that is being dried.
type InMachine struct {
	Run, At, Food int                  // positions in Runs, in its Items, and in Foods
	End           exact.Opt[time.Time] // as usual: an estimate
	Cost          exact.Money          // recorded so far
}

// Awaiting is a food that has been dried and is not in packs yet, or not all of
// it.
type Awaiting struct {
	Run, At, Food int          // positions in Runs, in its Items, and in Foods
	Packed        exact.Number // of it already, reconstituted, in the food's basis unit
	ToPack        exact.Ratio  // about so much more, by what the food's runs usually make: an estimate
	Cost          exact.Money  // of what is in no pack
}

// OnHand lists the packs in store, the fresh food in hand, what is in the
// machines, what awaits packing, the supplies left and the cycles left on the machines. The ledger must be
// joined through the query's AsOf. The error is that of [Query.In], or a [*FactError].
func OnHand(g *ledger.Ledger, q OnHandQuery) (*OnHandResult, error) {
	scope, err := q.In(g)
	if err != nil {
		return nil, err
	}
	if days, ok := q.Due.Get(); ok && days < 0 {
		return nil, &FactError{Fact: SoonFact, Fault: Negative, Count: days}
	}
	// Days are counted from the date asked about, even beyond the last record.
	h := holdings{OnHandResult: &OnHandResult{Food: scope.Food, Day: cmp.Or(q.AsOf, g.AsOf)}, g: g, due: q.Due, scope: scope}
	h.packs()
	h.fresh()
	if !q.Due.Given() {
		h.foods()
		h.running()
		h.awaiting()
		if scope.Food < 0 {
			h.Supplies, h.Machines = suppliesLeft(g), machinesLeft(g)
		}
	}
	return h.OnHandResult, nil
}

// DaysTo is how many days a last day is off, as for [DaysLeft].
func (r *OnHandResult) DaysTo(last exact.Date) exact.Opt[int] { return DaysLeft(r.Day, last) }

// DaysLeft is how many days a last day is off on a day, below 0 when it is past; not
// given where nobody knows it.
func DaysLeft(day, last exact.Date) (days exact.Opt[int]) {
	if last == exact.NoDate {
		return days
	}
	return exact.Some(int(last) - int(day))
}

// InStore is what all the packs cost, and what the shelf asks for those of which
// a price is known.
func (r *OnHandResult) InStore() (cost exact.Money, shelf exact.Ratio) {
	for i := range r.Packs {
		cost = cost.Add(r.Packs[i].Cost)
		asks, _ := r.Packs[i].Shelf.Get()
		shelf = shelf.Add(asks)
	}
	return cost, shelf
}

// Concerns reports whether a food is among what is listed, but for crumbs.
func (r *OnHandResult) Concerns(food int) bool {
	return slices.ContainsFunc(r.Packs, func(p PackInStore) bool { return p.Food == food }) ||
		slices.ContainsFunc(r.Fresh, func(f FreshFood) bool { return f.Food == food && !f.Soonest.Crumb }) ||
		slices.ContainsFunc(r.Running, func(m InMachine) bool { return m.Food == food }) ||
		slices.ContainsFunc(r.Awaiting, func(a Awaiting) bool { return a.Food == food })
}

// holdings is a result in the making.
type holdings struct {
	*OnHandResult
	g     *ledger.Ledger
	due   exact.Opt[int] // days after Day by which it is due, or past; not given: all is listed
	scope Scope
}

// wants reports whether something with a last day is to be listed.
func (h *holdings) wants(last exact.Date) bool {
	days, ok := h.due.Get()
	return !ok || last != exact.NoDate && last <= h.Day.AddDays(days)
}

// shelf is what the shelf asks on the day for an amount of a food.
func (h *holdings) shelf(food int, amount exact.Number) exact.Opt[exact.Ratio] {
	return exact.OptOf(ShelfAsks(h.g, food, amount, h.Day, &h.Notes))
}

// packs lists the packs in store.
func (h *holdings) packs() {
	for i := range h.g.Packs {
		p := &h.g.Packs[i]
		if p.Done && p.Left() > 0 && h.scope.Wants(p.Food) && h.wants(p.BestBy) {
			h.Packs = append(h.Packs, PackInStore{
				Pack: i, Food: p.Food, Left: p.Left(), Amount: p.MadeLeft(), Cost: p.LeftCost(),
				Packed: h.g.PackDate(i), BestBy: p.BestBy, Past: p.BestBy != exact.NoDate && p.BestBy < h.Day,
			})
		}
	}
	slices.SortStableFunc(h.Packs, func(a, b PackInStore) int {
		packed := cmp.Compare(a.Packed, b.Packed)
		if !h.due.Given() {
			return packed
		}
		return cmp.Or(cmp.Compare(a.BestBy, b.BestBy), packed)
	})
	for i := range h.Packs { // in their order, since that is the order of the notes
		h.Packs[i].Shelf = h.shelf(h.Packs[i].Food, h.Packs[i].Amount)
	}
}

// foods sums the packs in store.
func (h *holdings) foods() {
	sums := make([]FoodInStore, len(h.g.Foods))
	for i := range h.Packs {
		p := &h.Packs[i]
		s := &sums[p.Food]
		s.Left, s.Amount, s.Cost = s.Left+p.Left, s.Amount.Add(p.Amount), s.Cost.Add(p.Cost)
		if p.BestBy != exact.NoDate && (s.BestBy == exact.NoDate || p.BestBy < s.BestBy) {
			s.BestBy = p.BestBy
		}
	}
	for f, s := range sums {
		if s.Left > 0 {
			s.Food, s.Shelf = f, h.shelf(f, s.Amount)
			h.Foods = append(h.Foods, s)
		}
	}
}

// running lists what is in the machines.
func (h *holdings) running() {
	for _, i := range Running(h.g) {
		for j := range h.g.Runs[i].Items {
			if item := &h.g.Runs[i].Items[j]; h.scope.Wants(item.Food) {
				h.Running = append(h.Running, InMachine{Run: i, At: j, Food: item.Food, End: UsualEnd(h.g, i), Cost: item.Good.Total()})
			}
		}
	}
}

// awaiting lists what is in no pack yet.
func (h *holdings) awaiting() {
	for _, a := range awaitingOf(h.g) {
		if h.scope.Wants(a.Food) {
			h.Awaiting = append(h.Awaiting, a)
		}
	}
}

// awaitingOf lists what every finished good run made that is in no pack yet.
func awaitingOf(g *ledger.Ledger) (list []Awaiting) {
	for i := range g.Runs {
		run := &g.Runs[i]
		if !run.Done || !g.Records.Runs[i].Good() {
			continue
		}
		for j := range run.Items {
			item := &run.Items[j]
			cost, waits := unpacked(g, item)
			if !waits {
				continue
			}
			a := Awaiting{Run: i, At: j, Food: item.Food, Cost: cost}
			for _, p := range item.Packs {
				if g.Packs[p].Done {
					a.Packed = a.Packed.Add(g.Packs[p].Made())
				}
			}
			if left := item.Usual.Sub(exact.RatioOf(a.Packed)); left.Sign() > 0 {
				a.ToPack = left
			}
			list = append(list, a)
		}
	}
	return list
}
