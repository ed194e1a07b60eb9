package report

import (
	"fmt"
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// facts are what a decision needs, from the query where it says so, else from
// the ledger. Amounts are in the basis unit of the food that is dried.
type facts struct {
	g       *ledger.Ledger
	q       WorthQuery
	bought  int          // position of the food bought
	dried   int          // of the food it is dried as; mostly the same
	ratio   exact.Number // basis units of dried per basis unit bought
	machine int          // position, or -1
	cycle   time.Duration
	power   power
	sale    pricing.Sale
	visits  []pricing.Visit
	missing []MissingFact
	notes   []string
	err     error // the first wrong option
}

func (f *facts) note(format string, args ...any) {
	f.notes = append(f.notes, fmt.Sprintf(format, args...))
}

func (f *facts) lack(what, flag, record string) {
	f.missing = append(f.missing, MissingFact{what, flag, record})
}

func (f *facts) wrong(option, hint, format string, args ...any) {
	if f.err == nil {
		f.err = &QueryError{option, fmt.Sprintf(format, args...), hint}
	}
}

// food is the food that is dried.
func (f *facts) food() *ledger.Food { return &f.g.Foods[f.dried] }

// gather finds all facts. Its error is a [*QueryError] for an option that is
// wrong, or a [*MissingError] that names everything that is missing.
func gather(g *ledger.Ledger, q WorthQuery) (*facts, error) {
	f := &facts{g: g, q: q, machine: -1, ratio: exact.Int(1)}
	if !f.findFoods() {
		return nil, f.err
	}
	f.findMachine()
	f.offer()
	f.shelf()
	f.load()
	f.cycleTime()
	f.yield()
	f.packing()
	f.limits()
	f.cycleCosts()
	switch {
	case f.err != nil:
		return nil, f.err
	case f.missing != nil:
		return nil, &MissingError{f.missing}
	}
	return f, nil
}

func (f *facts) findFoods() bool {
	var ok bool
	if f.bought, ok = f.g.FindFood(f.q.Item); !ok {
		f.wrong("item", "foods are listed in "+ledger.FoodsFile+"; add one with putby food add", "no food is called %s", exact.Quote(f.q.Item))
		return false
	}
	f.dried = f.bought
	if f.q.As == "" {
		return true
	}
	if f.dried, ok = f.g.FindFood(f.q.As); !ok {
		f.wrong("as", "foods are listed in "+ledger.FoodsFile, "no food is called %s", exact.Quote(f.q.As))
		return false
	}
	return f.findRatio()
}

// findRatio finds what one unit bought makes, from --ratio or the latest batch
// that made the dried food from the bought one.
func (f *facts) findRatio() bool {
	if f.q.Ratio.Given() {
		f.ratio = f.amount("ratio", f.food(), f.q.Ratio)
		if f.err == nil && f.ratio.Sign() <= 0 {
			f.wrong("ratio", "", "what one unit makes must be above 0")
		}
		return f.err == nil
	}
	i, ok := f.g.LatestBatch(f.dried, f.g.AsOf)
	if ok {
		b := &f.g.Batches[i]
		for j, part := range b.From {
			if part.Item != f.q.Item {
				continue
			}
			made := f.g.Batch[i].Made.Over(f.g.Batch[i].Parts[j])
			f.ratio = made.Round(exact.QuantityPlaces, exact.HalfEven)
			f.note("one %v of %s makes %v of %s, as in batch %s", f.g.Foods[f.bought].Basis, f.q.Item, f.food().Basis.Of(f.ratio), f.food().ID, b.ID)
			if len(b.From) > 1 {
				f.note("batch %s took other foods too: they are left out of cost and value alike", b.ID)
			}
			return true
		}
	}
	f.wrong("as", "give --ratio, such as --ratio \"48 mL\" made per unit bought", "no batch makes %s from %s", f.q.As, f.q.Item)
	return false
}

// amount reads a quantity in a food's basis unit.
func (f *facts) amount(option string, food *ledger.Food, q exact.Quantity) exact.Number {
	n, err := food.InBasis(q)
	if err != nil {
		f.wrong(option, "write it in a unit of "+food.Basis.Dimension().String()+", or add the food's density", "%v", err)
	}
	return n
}

// findMachine takes the machine named, else that of the food's last run, else
// the first one.
func (f *facts) findMachine() {
	if f.q.Machine != "" {
		i, ok := f.g.FindMachine(f.q.Machine)
		if !ok {
			f.wrong("machine", "machines are listed in "+ledger.MachinesFile, "no machine is called %s", exact.Quote(f.q.Machine))
			return
		}
		f.machine = i
		return
	}
	if len(f.g.Machines) > 0 {
		f.machine = 0
	}
	for i := range f.g.Runs {
		if f.g.Runs[i].Done && f.g.Runs[i].Loaded(f.dried) {
			if m, ok := f.g.FindMachine(f.g.Records.Runs[i].Machine); ok {
				f.machine = m
			}
		}
	}
}

// offer reads the price, the size and the shop's limit.
func (f *facts) offer() {
	bought := &f.g.Foods[f.bought]
	if !f.q.Size.Given() && f.q.Size.Sign() == 0 {
		f.lack("the size of a package", "--size", "")
		return
	}
	size := f.amount("size", bought, f.q.Size).Round(exact.QuantityPlaces, exact.HalfEven)
	if f.err == nil && size.Sign() <= 0 {
		f.wrong("size", "write it as 500 g", "%v is not above 0", f.q.Size)
	}
	f.sale.Size = size.Mul(bought.EdiblePart()).Mul(f.ratio)
	if f.q.Price.Sign() < 0 {
		f.wrong("price", "", "%v is below 0", f.q.Price)
	}
	f.sale.Price = f.q.Price
	if limit, ok := f.q.Limit.Get(); ok {
		f.sale.Limit = exact.Some(limit * max(f.q.Visits, 1))
	}
}

// shelf finds what the shop asks for the same amount.
func (f *facts) shelf() {
	if s, ok := f.q.Shelf.Get(); ok {
		f.sale.Shelf = s.Over(f.ratio)
		return
	}
	price, ok := f.g.ShelfPrice(f.dried, f.g.AsOf, pricing.Fresh)
	if f.dried != f.bought && (!ok || price.Batch != "") {
		// What it is made from, so that both sides leave out the rest.
		if price, ok = f.g.ShelfPrice(f.bought, f.g.AsOf, pricing.Fresh); ok {
			price.PerUnit = price.PerUnit.Quo(exact.RatioOf(f.ratio))
		}
	}
	if !ok {
		f.lack("the shelf price", "--shelf", "one with putby price add")
		return
	}
	f.sale.Shelf = price.PerUnit
	if price.Ask.Date > f.g.AsOf {
		f.note("the shelf price is of a later day, %v", price.Ask.Date)
	}
}

// load finds the most of the food that a cycle takes.
func (f *facts) load() {
	if f.q.Load.Given() || f.q.Load.Sign() != 0 {
		f.sale.Load = f.amount("load", f.food(), f.q.Load)
		if f.err == nil && f.sale.Load.Sign() <= 0 {
			f.wrong("load", "write it as 4 L", "%v is not above 0", f.q.Load)
		}
		return
	}
	if f.machine >= 0 {
		if n, ok := loadOf(f.food(), &f.g.Machines[f.machine]); ok {
			f.sale.Load = n
			return
		}
	}
	f.lack("the most that a cycle takes", "--load", "load_volume or load_mass of the machine")
}

// loadOf is what a machine takes of a food: the capacity that the food is
// measured by, else the other one through density or the weight of a piece.
func loadOf(food *ledger.Food, m *ledger.Machine) (exact.Number, bool) {
	first, second := m.LoadVolume, m.LoadMass
	if food.Basis != exact.L {
		first, second = second, first
	}
	for _, q := range []exact.Quantity{first, second} {
		if !q.Given() {
			continue
		}
		if n, err := food.InBasis(q); err == nil && n.Sign() > 0 {
			return n, true
		}
		piece, ok := food.PieceKg.Get()
		if ok && food.Basis == exact.Ea && q.Unit().Dimension() == exact.Mass {
			return q.Base().Number().Over(piece).Round(0, exact.Down), true
		}
	}
	return exact.Number{}, false
}

// cycleTime is the median length of the food's good runs on the machine, else of all of
// the machine's.
func (f *facts) cycleTime() {
	if t, ok := f.q.CycleTime.Get(); ok {
		f.cycle = t
		return
	}
	if t, ok := medianLength(f.lengths(true)); ok {
		f.cycle = t
		return
	}
	if t, ok := medianLength(f.lengths(false)); ok {
		f.cycle = t
		f.note("no good run of %s tells how long a cycle takes: the machine's median is used", f.food().ID)
		return
	}
	f.lack("how long a cycle takes", "--cycle-hours", "a run with its phases")
}

// lengths are those of the good runs on the machine, of the food or of any.
func (f *facts) lengths(ofFood bool) []time.Duration {
	var list []time.Duration
	for i := range f.g.Runs {
		r := &f.g.Runs[i]
		length, ok := r.Length.Get()
		if ok && f.goodRun(i) && (!ofFood || r.Loaded(f.dried)) {
			list = append(list, length)
		}
	}
	return list
}

// goodRun reports whether a run counts for what is usual on the machine.
func (f *facts) goodRun(i int) bool {
	run := &f.g.Records.Runs[i]
	return f.g.Runs[i].Done && !run.Spoiled && (f.machine < 0 || run.Machine == f.g.Machines[f.machine].ID)
}

func medianLength(list []time.Duration) (time.Duration, bool) {
	if len(list) == 0 {
		return 0, false
	}
	slices.Sort(list)
	n := len(list)
	return (list[(n-1)/2] + list[n/2]) / 2, true
}

// yield is what was reconstituted over what was loaded, of packed runs.
func (f *facts) yield() {
	if y, ok := f.q.Yield.Get(); ok {
		f.sale.Yield = exact.RatioOf(y)
		if y.Sign() <= 0 {
			f.wrong("yield", "1 means that as much comes back as went in", "%v is not above 0", y)
		}
		return
	}
	var loaded, made exact.Number
	for i := range f.g.Runs {
		for j := range f.g.Runs[i].Items {
			if item := &f.g.Runs[i].Items[j]; f.g.Runs[i].Done && item.Food == f.dried && item.Made.Sign() > 0 {
				loaded, made = loaded.Add(item.Loaded), made.Add(item.Made)
			}
		}
	}
	if f.sale.Yield = exact.RatioOf(exact.Int(1)); loaded.Sign() > 0 {
		f.sale.Yield = made.Over(loaded)
		return
	}
	f.note("no run of %s is packed: it is reckoned to come back to what went in", f.food().ID)
}

// packing is what a container gives and costs, as last done for the food.
func (f *facts) packing() {
	each, with := f.q.Each, f.q.With
	if last := f.lastPack(); last != nil {
		if !each.Given() && each.Sign() == 0 {
			each = last.Each
		}
		if with == nil {
			with = last.With
		}
	}
	if !each.Given() && each.Sign() == 0 {
		f.lack("what a container gives", "--each", "a pack of it")
	} else if f.sale.Each = f.amount("each", f.food(), each); f.err == nil && f.sale.Each.Sign() <= 0 {
		f.wrong("each", "write it as 1 L", "%v is not above 0", each)
	}
	cost, given := f.q.PackCost.Get()
	switch {
	case given:
		cost = cost.Round(f.g.Places(), exact.HalfEven)
	case with == nil:
		f.lack("what a container takes", "--with or --pack-cost", "a pack of it")
		return
	default:
		var notes []string
		var err error
		if cost, notes, err = f.g.NextUses(with, exact.Int(1)); err != nil {
			f.wrong("with", "give --pack-cost, or a price in "+ledger.SuppliesFile, "%v", err)
		}
		f.notes = append(f.notes, notes...)
	}
	if !slices.Contains(f.q.Without, ledger.SuppliesCost) {
		f.sale.Containers = func(n int) exact.Money { return cost.Times(exact.Int(int64(n))) }
	}
}

// lastPack is the newest pack of the food, or nil.
func (f *facts) lastPack() *ledger.Pack {
	var last *ledger.Pack
	for i := range f.g.Packs {
		p := &f.g.Records.Packs[i]
		if f.g.Packs[i].Done && f.g.Packs[i].Food == f.dried && (last == nil || p.Date >= last.Date) {
			last = p
		}
	}
	return last
}
