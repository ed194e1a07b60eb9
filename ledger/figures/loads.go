package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A LoadsLeft says for how many full loads of a food there are containers, lids
// and absorbers. It is an estimate: a load is taken to give what loads of it
// gave.
type LoadsLeft struct {
	Food       int         // position in Foods
	Containers int         // that a full load fills
	Loads      int         // whole ones
	Short      int         // position in Supplies of what is used up first
	last       exact.Ratio // loads, and part of one, that Short does for
}

// RoomForLoads lists for how many loads of each food there is something to pack
// them in, the fewest first: of the foods that were dried in the year up to
// the ledger's day, or of which some waits to be dried, each packed as it
// was last.
func RoomForLoads(g *ledger.Ledger, waits []Waiting) (list []LoadsLeft) {
	since := g.Day().AddMonths(-12)
	for food := range g.Foods {
		recent := slices.ContainsFunc(waits, func(w Waiting) bool { return w.Food == food && w.Slot.Given() })
		for i := range g.Runs {
			recent = recent || g.Runs[i].Done && g.Runs[i].Date > since && g.Runs[i].Loaded(food)
		}
		if l, ok := loadsOf(g, food); recent && ok {
			list = append(list, l)
		}
	}
	slices.SortStableFunc(list, func(a, b LoadsLeft) int { return a.Loads - b.Loads })
	return list
}

// loadsOf is for how many loads of a food there is something to pack them in.
func loadsOf(g *ledger.Ledger, food int) (l LoadsLeft, known bool) {
	machine, dried := driedIn(g, food)
	pack := lastPackOf(g, food)
	if !dried || pack < 0 || g.Packs[pack].Each.Sign() <= 0 {
		return l, false
	}
	load, ok := g.Machines[machine].Capacity(&g.Foods[food]).Most.Get()
	if !ok {
		return l, false
	}
	containers := YieldOf(g, food).Ratio.Times(load).Quo(exact.RatioOf(g.Packs[pack].Each)).Ceil()
	n, fits := containers.Int64()
	if !fits || n <= 0 {
		return l, false
	}
	l.Food, l.Containers, l.Short = food, int(n), -1
	for _, u := range g.Records.Packs.At(pack).With {
		s, ok := g.FindSupply(u.Supply)
		if !ok || !holdsFood(g.Supplies[s].Kind) || u.Number.Sign() <= 0 {
			continue
		}
		last := readyOf(g, s).Quo(exact.RatioOf(u.Number.Mul(containers)))
		loads, fits := last.Floor().Int64()
		// By loads and their part: of two that do for as many whole ones, one is used up first.
		if fits && (l.Short < 0 || last.Cmp(l.last) < 0) {
			l.Loads, l.Short, l.last = int(loads), s, last
		}
	}
	return l, l.Short >= 0
}

// holdsFood reports whether food cannot be packed without supplies of a kind.
func holdsFood(k ledger.SupplyKind) bool {
	return k == ledger.Jar || k == ledger.Bag || k == ledger.Lid || k == ledger.Absorber
}

// readyOf is how many uses of a supply there are now: of what serves again,
// one of each piece that is free.
func readyOf(g *ledger.Ledger, supply int) exact.Ratio {
	p := g.Pieces(supply)
	if g.Supplies[supply].ServesAgain() {
		return p.Free
	}
	return exact.RatioOf(p.UsesLeft)
}

// LastPack is the pack that says how a food is packed, as a position, or -1: of
// those of its last packing day the one of the most containers, since the others
// hold what was left over; of equal ones the last. Packs for which skip says so
// are passed over, where it is given.
func LastPack(rec *ledger.Records, food string, skip func(pack int) bool) int {
	last, day, most := -1, exact.NoDate, 0
	for i := range rec.Packs.Len() {
		if rec.PackDate(i) < day || rec.PackItem(i) != food || skip != nil && skip(i) {
			continue
		}
		if p := rec.Packs.At(i); last < 0 || p.Date > day || p.Count >= most {
			last, day, most = i, p.Date, p.Count
		}
	}
	return last
}

// lastPackOf is [LastPack] by the ledger's day.
func lastPackOf(g *ledger.Ledger, food int) int {
	return LastPack(g.Records, g.Foods[food].ID, func(i int) bool { return !g.Packs[i].Done })
}

// A Yield is what comes back of what is loaded.
type Yield struct {
	Ratio exact.Ratio // reconstituted over loaded, both in their basis units
	Taken bool        // all of it, since no run tells
	Runs  []int       // that tell it: positions in Runs
}

// YieldOf is what a food made once reconstituted over what was loaded of it, in
// the runs that are packed, but not over.
func YieldOf(g *ledger.Ledger, food int) (y Yield) {
	var loaded, made exact.Number
	for i := range g.Runs {
		for j := range g.Runs[i].Items {
			if item := &g.Runs[i].Items[j]; g.Runs[i].Done && item.Food == food && item.Made.Sign() > 0 && !item.Short && !item.Over {
				loaded, made = loaded.Add(item.Loaded), made.Add(item.Made)
				y.Runs = append(y.Runs, i)
			}
		}
	}
	if loaded.Sign() <= 0 {
		return Yield{Ratio: wholeRatio(1), Taken: true}
	}
	// Sum over sum, not the mean of the runs: a large run tells more.
	y.Ratio = made.Over(loaded)
	return y
}
