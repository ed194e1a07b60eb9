package ledger_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

// A twin works out what a ledger costs once more, slowly and in its own way:
// with fractions of math/big, one list of lots for each thing, and every event
// in one long list. It shares no arithmetic with the package.
type twin struct {
	rec   *ledger.Records
	lots  map[string][]*twinLot
	notes []string // what each posting came to, in order
	share map[string]*big.Rat
	packs map[string]*twinPack
	owned map[string]*big.Rat // pieces of each supply that serves again
	loads bool                // the machine is being loaded
}

func newTwin(rec *ledger.Records) *twin {
	return &twin{rec: rec, lots: map[string][]*twinLot{}, share: map[string]*big.Rat{}, packs: map[string]*twinPack{}, owned: map[string]*big.Rat{}}
}

type twinLot struct {
	receipt              string
	left, cost, residual *big.Rat
	bought, frozen       *big.Rat // as bought; the part of left that is in the freezer
}

type twinPack struct {
	total *big.Rat
	count int64
	taken int64
}

func rat(s fmt.Stringer) *big.Rat {
	r, ok := new(big.Rat).SetString(s.String())
	if !ok {
		panic("not a number: " + s.String())
	}
	return r
}

func whole64(n int64) *big.Rat { return big.NewRat(n, 1) }

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func quo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }
func add(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }

// posted rounds half to even at 6 decimals, as the ledger posts euros.
func posted(r *big.Rat) *big.Rat { return rounded(r, 1_000_000, false) }

// rounded rounds at a power of ten, ties to the even neighbour or away.
func rounded(r *big.Rat, unit int64, away bool) *big.Rat {
	scaled := mul(r, whole64(unit))
	floor := new(big.Int).Div(scaled.Num(), scaled.Denom()) // Euclidean: down
	rest := sub(scaled, new(big.Rat).SetInt(floor))
	switch c := rest.Cmp(big.NewRat(1, 2)); {
	case c > 0, c == 0 && !away && floor.Bit(0) == 1, c == 0 && away && r.Sign() > 0:
		floor.Add(floor, big.NewInt(1))
	}
	return quo(new(big.Rat).SetInt(floor), whole64(unit))
}

// portions splits an amount over weights: each its part rounded down, the
// steps that are left to the largest fractions, on a tie to the earlier.
func portions(amount *big.Rat, weights []*big.Rat, unit int64) []*big.Rat {
	sum := new(big.Rat)
	for _, w := range weights {
		sum.Add(sum, w)
	}
	parts, order := make([]*big.Rat, len(weights)), make([]int, len(weights))
	rests, left := make([]*big.Rat, len(weights)), mul(new(big.Rat).Abs(amount), whole64(unit))
	for i, w := range weights {
		part := quo(mul(mul(new(big.Rat).Abs(amount), whole64(unit)), w), sum)
		down := new(big.Rat).SetInt(new(big.Int).Quo(part.Num(), part.Denom()))
		parts[i], rests[i], order[i] = down, sub(part, down), i
		left.Sub(left, down)
	}
	slices.SortStableFunc(order, func(a, b int) int { return rests[b].Cmp(rests[a]) })
	for _, i := range order {
		if left.Sign() > 0 {
			parts[i].Add(parts[i], whole64(1))
			left.Sub(left, whole64(1))
		}
	}
	for _, p := range parts {
		p.Quo(p, whole64(unit))
		if amount.Sign() < 0 {
			p.Neg(p)
		}
	}
	return parts
}

// note writes down what something cost.
func (w *twin) note(what string, cost *big.Rat) {
	w.notes = append(w.notes, what+" "+cost.FloatString(6))
}

// follow goes through the ledger.
func (w *twin) follow() {
	type event struct {
		day   exact.Date
		class int
		do    func()
	}
	var events []event
	on := func(day exact.Date, class int, do func()) { events = append(events, event{day, class, do}) }
	costs := w.receipts()
	for i := range w.rec.Receipts.Len() {
		class := 0
		if w.rec.Receipts.At(i).Count.Sign() < 0 {
			class = 1
		}
		on(w.rec.Receipts.At(i).Date, class, func() { r := w.rec.Receipts.At(i); w.buy(&r, costs[i]) })
	}
	for i := range w.rec.Batches {
		on(w.rec.Batches[i].Date, 2, func() { w.cook(&w.rec.Batches[i]) })
	}
	for i := range w.rec.Runs { // one a day at most
		on(exact.DateIn(w.rec.Runs[i].Start), 3, func() { w.dry(&w.rec.Runs[i]) })
	}
	for i := range w.rec.Packs.Len() {
		on(w.rec.Packs.At(i).Date, 4, func() { p := w.rec.Packs.At(i); w.pack(&p) })
	}
	for i := range w.rec.Draws.Len() {
		on(w.rec.Draws.At(i).Date, 5, func() { d := w.rec.Draws.At(i); w.draw(&d) })
	}
	for i := range w.rec.Freezes {
		on(w.rec.Freezes[i].Date, 6, func() { w.freeze(&w.rec.Freezes[i]) })
	}
	for i := range w.rec.Counts {
		on(w.rec.Counts[i].Date, 7, func() { w.count(&w.rec.Counts[i]) })
	}
	slices.SortStableFunc(events, func(a, b event) int {
		if a.day != b.day {
			return int(a.day - b.day)
		}
		return a.class - b.class
	})
	for _, e := range events {
		e.do()
	}
}

// receipts returns what each row cost.
func (w *twin) receipts() []*big.Rat {
	costs := make([]*big.Rat, w.rec.Receipts.Len())
	rows := map[string][]int{}
	var bases []*big.Rat
	for i, r := range w.rec.Receipts.All() {
		base := sub(rounded(mul(rat(r.Count), rat(r.Price)), 100, true), rat(r.Discount()))
		bases, costs[i] = append(bases, base), new(big.Rat)
		if r.Kind <= ledger.OtherLine {
			costs[i] = add(base, rat(r.Tax()))
			rows[r.Receipt] = append(rows[r.Receipt], i)
		}
	}
	for _, r := range w.rec.Receipts.All() {
		if r.Kind != ledger.ChargeLine {
			continue
		}
		var weights []*big.Rat
		zero := true
		var bear []int
		for _, i := range rows[r.Receipt] {
			if w.rec.Receipts.At(i).Count.Sign() < 0 {
				continue
			}
			bear = append(bear, i)
			weights = append(weights, bases[i])
			zero = zero && bases[i].Sign() == 0
		}
		for i := range weights {
			if zero {
				weights[i] = whole64(1)
			}
		}
		for i, part := range portions(rat(r.Price), weights, 100) {
			at := bear[i]
			costs[at] = add(costs[at], part)
		}
	}
	return costs
}

func (w *twin) food(id string) *ledger.Food {
	return &w.rec.Foods[slices.IndexFunc(w.rec.Foods, func(f ledger.Food) bool { return f.ID == id })]
}

func (w *twin) supply(id string) *ledger.Supply {
	return &w.rec.Supplies[slices.IndexFunc(w.rec.Supplies, func(s ledger.Supply) bool { return s.ID == id })]
}

func (w *twin) put(what, receipt string, amount, cost, residual *big.Rat) {
	w.lots[what] = append(w.lots[what], &twinLot{receipt, amount, cost, residual, amount, new(big.Rat)})
}

func (w *twin) buy(r *ledger.ReceiptRow, cost *big.Rat) {
	switch r.Kind {
	case ledger.FoodLine:
		f := w.food(r.Item)
		amount := mul(rat(r.Size.Number()), rat(r.Count)) // sizes are in the food's own unit
		if f.Basis != exact.Ea {
			amount = mul(amount, quo(sub(whole64(100), rat(f.Refuse)), whole64(100)))
		}
		w.put(r.Item, r.Receipt, amount, cost, new(big.Rat))
	case ledger.SupplyLine:
		pieces := mul(rat(r.Size.Number()), rat(r.Count))
		if pieces.Sign() < 0 {
			w.takeBack(r, new(big.Rat).Neg(pieces), cost)
			return
		}
		w.put(r.Item, r.Receipt, mul(pieces, w.usesOf(r.Item)), cost, new(big.Rat))
		w.owned[r.Item] = add(w.ownedOf(r.Item), pieces)
	case ledger.MachineLine:
		m := w.rec.Machines[0]
		w.put(r.Item, r.Receipt, whole64(int64(m.Cycles)), cost, rat(m.Residual))
	case ledger.ServiceLine:
		if lots := w.lots[r.Item]; len(lots) > 0 && lots[len(lots)-1].left.Sign() > 0 {
			lots[len(lots)-1].cost = add(lots[len(lots)-1].cost, cost)
		}
	}
}

// take draws an amount: from the lots of one receipt when it is named, else
// oldest first, or from all at the mean price.
func (w *twin) take(what, receipt string, amount *big.Rat) (cost, missing *big.Rat) {
	lots := w.lots[what]
	if isFood := slices.ContainsFunc(w.rec.Foods, func(f ledger.Food) bool { return f.ID == what }); isFood && w.rec.Settings.Costing == ledger.Average {
		pool := &twinLot{"", new(big.Rat), new(big.Rat), new(big.Rat), new(big.Rat), new(big.Rat)}
		for _, l := range lots {
			pool.left, pool.cost = add(pool.left, l.left), add(pool.cost, l.cost)
		}
		w.lots[what] = []*twinLot{pool}
		lots = w.lots[what]
	}
	cost, missing = new(big.Rat), new(big.Rat).Set(amount)
	if !w.loads {
		defer w.keepFrozen(lots)()
	}
	for _, l := range lots {
		if receipt != "" && l.receipt != receipt || missing.Sign() == 0 || l.left.Sign() == 0 {
			continue
		}
		wears := sub(l.cost, l.residual)
		if wears.Sign() < 0 {
			wears = new(big.Rat)
		}
		part, money := l.left, wears
		if missing.Cmp(l.left) < 0 {
			part = new(big.Rat).Set(missing)
			money = posted(quo(mul(wears, part), l.left))
		}
		w.thaw(l, part)
		l.left, l.cost = sub(l.left, part), sub(l.cost, money)
		cost, missing = add(cost, money), sub(missing, part)
	}
	return cost, missing
}

// thaw says what a part that leaves a lot takes out of the freezer: a load what
// there is, a meal only what is not in the fridge.
func (w *twin) thaw(l *twinLot, part *big.Rat) {
	out := part
	if !w.loads {
		out = sub(part, sub(l.left, l.frozen))
	}
	if out.Cmp(l.frozen) > 0 {
		out = l.frozen
	}
	if out.Sign() > 0 {
		l.frozen = sub(l.frozen, out)
	}
}

// keepFrozen says what is frozen of lots before a meal, and afterwards has as much of
// what is left frozen as there can be: of the oldest that is not.
func (w *twin) keepFrozen(lots []*twinLot) (after func()) {
	frozen := new(big.Rat)
	for _, l := range lots {
		frozen = add(frozen, l.frozen)
	}
	return func() {
		for _, l := range lots {
			frozen = sub(frozen, l.frozen)
		}
		for _, l := range lots {
			part := sub(l.left, l.frozen)
			if frozen.Cmp(part) < 0 {
				part = frozen
			}
			l.frozen, frozen = add(l.frozen, part), sub(frozen, part)
		}
	}
}

// freeze puts the oldest lots that are not frozen into the freezer.
func (w *twin) freeze(f *ledger.Freeze) {
	rest := rat(f.Quantity.Number())
	for _, l := range w.lots[f.Item] {
		part := sub(l.left, l.frozen)
		if part.Cmp(rest) > 0 {
			part = rest
		}
		l.frozen, rest = add(l.frozen, part), sub(rest, part)
	}
}

// parts writes down what is in hand of every food, lot by lot.
func (w *twin) parts() (lines []string) {
	for _, f := range w.rec.Foods {
		for _, l := range w.lots[f.ID] {
			if l.left.Sign() == 0 {
				continue
			}
			amounts := []*big.Rat{sub(l.left, l.frozen), l.frozen}
			costs := portions(l.cost, amounts, 1_000_000)
			for i, state := range []string{"fresh", "frozen"} {
				if n := amounts[i]; n.Sign() > 0 {
					crumb := mul(n, whole64(100)).Cmp(l.bought) < 0
					lines = append(lines, fmt.Sprintf("%s %s %s %s for %s, crumb %t", f.ID, l.receipt, state, n.FloatString(12), costs[i].FloatString(6), crumb))
				}
			}
		}
	}
	return lines
}

// supplies draws supplies, beyond their lots at list price.
func (w *twin) supplies(uses []ledger.Use, times int64) *big.Rat {
	sum := new(big.Rat)
	for _, u := range uses {
		sum = add(sum, w.useSupply(u.Supply, mul(rat(u.Number), whole64(times))))
	}
	return sum
}

func (w *twin) useSupply(id string, amount *big.Rat) *big.Rat {
	cost, missing := w.take(id, "", amount)
	s := w.supply(id)
	price, _ := s.Price.Get()
	return add(cost, posted(quo(mul(rat(price), missing), whole64(int64(s.Uses)))))
}

func (w *twin) cook(b *ledger.Batch) {
	cost := posted(rat(b.Cost))
	for _, part := range b.From {
		food, _ := w.take(part.Item, "", rat(part.Quantity.Number()))
		cost = add(cost, food)
	}
	w.note("batch "+b.ID, cost)
	w.put(b.Item, b.ID, rat(b.Quantity.Number()), cost, new(big.Rat))
}

// dry loads a run, shares what it has in common, takes off what was lost, and
// splits the rest over its packs.
func (w *twin) dry(r *ledger.Run) {
	w.loads = true
	var loads []*ledger.Load
	var costs [][5]*big.Rat
	for i := range w.rec.Loads.Len() {
		if l := w.rec.Loads.At(i); l.Run == r.ID {
			food, _ := w.take(l.Item, l.Receipt, rat(l.Quantity.Number()))
			loads, costs = append(loads, &l), append(costs, [5]*big.Rat{food})
		}
	}
	w.loads = false
	wear, _ := w.take(r.Machine, "", whole64(1))
	common := []*big.Rat{
		w.electricity(r), w.supplies(w.rec.Machines[0].With, 1), wear,
		posted(mul(big.NewRat(int64(r.Hands.Minutes()), 60), rat(w.rec.Settings.HourValue))),
	}
	weights := w.weights(loads)
	for e, total := range common {
		for i, part := range portions(total, weights, 1_000_000) {
			costs[i][e+1] = part
		}
	}
	w.spread(r, loads, costs)
}

// electricity is posted phase by phase: the kWh of each, or its watts over its
// time, in proportion to the metered total. A run that is running may have
// phases of which nothing is known, or nothing at all.
func (w *twin) electricity(r *ledger.Run) *big.Rat {
	rate, sum := rat(w.rec.Tariffs[0].Rate), new(big.Rat)
	var used, minutes []*big.Rat
	told, time := new(big.Rat), new(big.Rat)
	for i := range w.rec.Phases.Len() {
		p := w.rec.Phases.At(i)
		if p.Run != r.ID {
			continue
		}
		long, kwh := whole64(int64(p.Length.Minutes())), new(big.Rat)
		if watts, ok := p.Watts.Get(); ok {
			kwh = quo(mul(rat(watts), long), whole64(60_000))
		}
		if own, ok := p.KWh.Get(); ok {
			kwh = rat(own)
		}
		used, minutes, told, time = append(used, kwh), append(minutes, long), add(told, kwh), add(time, long)
	}
	metered, ok := r.KWh.Get()
	for i := range used {
		switch {
		case !ok:
		case told.Sign() > 0:
			used[i] = quo(mul(used[i], rat(metered)), told)
		case time.Sign() > 0:
			used[i] = quo(mul(minutes[i], rat(metered)), time)
		default:
			used[i] = quo(rat(metered), whole64(int64(len(used))))
		}
		sum = add(sum, posted(mul(used[i], rate)))
	}
	if ok && used == nil {
		return posted(mul(rat(metered), rate))
	}
	return sum
}

// weights tries the ways of sharing.
func (w *twin) weights(loads []*ledger.Load) []*big.Rat {
	by := map[ledger.Share]func(l *ledger.Load) *big.Rat{
		ledger.ByWater: func(l *ledger.Load) *big.Rat {
			if !l.Wet.Given() || !l.Dry.Given() {
				return nil
			}
			return sub(rat(l.Wet.Number()), rat(l.Dry.Number()))
		},
		ledger.ByMass: func(l *ledger.Load) *big.Rat {
			f, amount := w.food(l.Item), rat(l.Quantity.Number())
			switch {
			case l.Wet.Given():
				return rat(l.Wet.Number())
			case f.Basis == exact.L:
				density, _ := f.Density.Get()
				return mul(amount, rat(density))
			case f.Basis == exact.Ea:
				piece, _ := f.PieceKg.Get()
				return mul(amount, rat(piece))
			}
			return amount
		},
		ledger.ByTrays: func(l *ledger.Load) *big.Rat {
			if trays, ok := l.Trays.Get(); ok {
				return rat(trays)
			}
			return nil
		},
	}
	for _, way := range []ledger.Share{w.rec.Settings.Share, ledger.ByWater, ledger.ByMass, ledger.ByTrays} {
		sum := new(big.Rat)
		var weights []*big.Rat
		for _, l := range loads {
			if weight := by[way](l); weight != nil {
				weights, sum = append(weights, weight), add(sum, weight)
			}
		}
		if len(weights) == len(loads) && sum.Sign() > 0 {
			return weights
		}
	}
	panic("nothing to share by")
}

// spread takes off what was lost and splits each element of what is left of a
// food over its packs.
func (w *twin) spread(r *ledger.Run, loads []*ledger.Load, costs [][5]*big.Rat) {
	for _, food := range w.rec.Foods {
		var good [5]*big.Rat
		lost, loaded := new(big.Rat), false
		for i, l := range loads {
			if l.Item != food.ID {
				continue
			}
			for e, c := range costs[i] {
				gone := posted(quo(mul(c, rat(l.Lost.Number())), rat(l.Quantity.Number())))
				if r.Spoiled {
					gone = c
				}
				if !loaded {
					good[e] = new(big.Rat)
				}
				good[e], lost = add(good[e], sub(c, gone)), add(lost, gone)
			}
			loaded = true
		}
		if !loaded {
			continue
		}
		w.note("lost of "+food.ID+" in "+r.ID, lost)
		w.overPacks(r, &food, good)
	}
}

func (w *twin) overPacks(r *ledger.Run, food *ledger.Food, good [5]*big.Rat) {
	var ids []string
	var weights []*big.Rat
	for _, p := range w.rec.Packs.All() {
		if p.Run == r.ID && p.Item == food.ID {
			ids, weights = append(ids, p.ID), append(weights, mul(rat(p.Each.Number()), whole64(int64(p.Count))))
			w.share[p.ID] = new(big.Rat)
		}
	}
	if ids == nil {
		return
	}
	for _, element := range good {
		for i, part := range portions(element, weights, 1_000_000) {
			w.share[ids[i]] = add(w.share[ids[i]], part)
		}
	}
}

func (w *twin) pack(p *ledger.Pack) {
	total := w.share[p.ID]
	if p.Run == "" {
		total = posted(rat(p.Cost))
	}
	total = add(total, w.supplies(p.With, int64(p.Count)))
	w.packs[p.ID] = &twinPack{total: total, count: int64(p.Count)}
	w.note("pack "+p.ID, total)
}

// leave takes containers of a pack, whose parts are equal but for the last
// place: the earlier ones are the larger.
func (w *twin) leave(what string, p *twinPack, n int64) {
	equal := make([]*big.Rat, p.count)
	for i := range equal {
		equal[i] = whole64(1)
	}
	cost := new(big.Rat)
	for _, part := range portions(p.total, equal, 1_000_000)[p.taken : p.taken+n] {
		cost = add(cost, part)
	}
	p.taken += n
	w.note(what, cost)
}

func (w *twin) draw(d *ledger.Draw) {
	amount := rat(d.Quantity.Number())
	switch {
	case d.Pack != "":
		w.leave(d.Reason.String(), w.packs[d.Pack], amount.Num().Int64())
	case slices.ContainsFunc(w.rec.Foods, func(f ledger.Food) bool { return f.ID == d.Item }):
		cost, _ := w.take(d.Item, "", amount)
		w.note(d.Reason.String(), cost)
	default:
		w.note(d.Reason.String(), w.drop(d.Item, amount))
	}
}

func (w *twin) usesOf(id string) *big.Rat { return whole64(int64(w.supply(id).Uses)) }

func (w *twin) ownedOf(id string) *big.Rat {
	if n := w.owned[id]; n != nil {
		return n
	}
	return new(big.Rat)
}

// comesBack tells jars, which come back empty, from oil, which is used up.
func (w *twin) comesBack(id string) bool {
	s := w.supply(id)
	return s.Uses > 1 && slices.Contains([]string{"jar", "bag", "lid"}, s.Kind.String())
}

// booked is how many uses or how much food all lots have.
func (w *twin) booked(what string) *big.Rat {
	sum := new(big.Rat)
	for _, l := range w.lots[what] {
		sum = add(sum, l.left)
	}
	return sum
}

// drop takes whole pieces: of jars each its equal part of the uses left, of
// anything else as much as a new one has; what is not there at list price.
func (w *twin) drop(id string, pieces *big.Rat) *big.Rat {
	if !w.comesBack(id) {
		return w.useSupply(id, mul(pieces, w.usesOf(id)))
	}
	owned := w.ownedOf(id)
	if pieces.Cmp(owned) < 0 {
		w.owned[id] = sub(owned, pieces)
		cost, _ := w.take(id, "", rounded(quo(mul(w.booked(id), pieces), owned), 1_000_000_000_000, false))
		return cost
	}
	w.owned[id] = new(big.Rat)
	cost, _ := w.take(id, "", w.booked(id))
	return add(cost, w.useSupply(id, mul(sub(pieces, owned), w.usesOf(id))))
}

// takeBack undoes a purchase: the newest uses go, all of them with the last
// piece, and what they cost more than was given back is gone.
func (w *twin) takeBack(r *ledger.ReceiptRow, pieces, given *big.Rat) {
	uses := mul(pieces, w.usesOf(r.Item))
	if w.comesBack(r.Item) {
		if pieces.Cmp(w.ownedOf(r.Item)) == 0 {
			uses = w.booked(r.Item)
		}
		w.owned[r.Item] = sub(w.ownedOf(r.Item), pieces)
	}
	slices.Reverse(w.lots[r.Item])
	cost, _ := w.take(r.Item, "", uses)
	slices.Reverse(w.lots[r.Item])
	w.note("returned", add(cost, given))
}

// full is how many of a supply are on containers that are in store.
func (w *twin) full(id string) *big.Rat {
	sum := new(big.Rat)
	for _, p := range w.rec.Packs.All() {
		state := w.packs[p.ID]
		for _, u := range p.With {
			if state != nil && u.Supply == id {
				sum = add(sum, mul(rat(u.Number), whole64(state.count-state.taken)))
			}
		}
	}
	return sum
}

// countSupply drops the pieces that a stocktake did not find: of jars empty
// ones.
func (w *twin) countSupply(id string, found *big.Rat) {
	if w.comesBack(id) {
		if missing := sub(sub(w.ownedOf(id), w.full(id)), found); missing.Sign() > 0 {
			w.note("missing", w.drop(id, missing))
		}
		return
	}
	if missing := sub(w.booked(id), mul(found, w.usesOf(id))); missing.Sign() > 0 {
		cost, _ := w.take(id, "", missing)
		w.note("missing", cost)
	}
}

func (w *twin) count(c *ledger.Count) {
	found := rat(c.Quantity.Number())
	if c.Pack != "" {
		p := w.packs[c.Pack]
		if missing := p.count - p.taken - found.Num().Int64(); missing > 0 {
			w.leave("missing", p, missing)
		}
		return
	}
	if slices.ContainsFunc(w.rec.Supplies, func(s ledger.Supply) bool { return s.ID == c.Item }) {
		w.countSupply(c.Item, found)
		return
	}
	if missing := sub(w.booked(c.Item), found); missing.Sign() > 0 {
		cost, _ := w.take(c.Item, "", missing)
		w.note("missing", cost)
	}
}

// left is what all lots carry still.
func (w *twin) left() *big.Rat {
	sum := new(big.Rat)
	for _, lots := range w.lots {
		for _, l := range lots {
			sum = add(sum, l.cost)
		}
	}
	return sum
}

// told writes a ledger down as the twin does.
func told(g *ledger.Ledger) (batches, losses, packs, moves []string) {
	for i, b := range g.Batch {
		batches = append(batches, "batch "+g.Batches[i].ID+" "+b.Food.Add(b.Own).Fixed(6))
	}
	for i, r := range g.Runs {
		for _, item := range r.Items {
			losses = append(losses, "lost of "+g.Foods[item.Food].ID+" in "+g.Records.Runs[i].ID+" "+item.Lost.Total().Fixed(6))
		}
	}
	for i, p := range g.Packs {
		packs = append(packs, "pack "+g.Records.Packs.At(i).ID+" "+p.Total().Fixed(6))
	}
	for _, m := range g.Moves {
		moves = append(moves, m.Reason.String()+" "+m.Cost.Fixed(6))
	}
	return batches, losses, packs, moves
}

// inHand writes a ledger's fresh food down as the twin does.
func inHand(g *ledger.Ledger) (lines []string) {
	for i, f := range g.Foods {
		for _, p := range g.FreshParts(i) {
			state := map[bool]string{false: "fresh", true: "frozen"}[p.Frozen]
			lines = append(lines, fmt.Sprintf("%s %s %s %s for %s, crumb %t", f.ID, g.Lots[p.Lot].Receipt(), state, p.Quantity.Fixed(12), p.Cost.Fixed(6), p.Crumb))
		}
	}
	return lines
}

// The ledger and its twin agree on every posting, to the last digit.
func TestTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := made(t, madeLedgers().Draw(t, "ledger"), whole)
		w := newTwin(g.Records)
		w.follow()
		batches, losses, packs, moves := told(g)
		for _, part := range []struct {
			what, prefix string
			have         []string
		}{{"batches", "batch ", batches}, {"losses", "lost ", losses}, {"packs", "pack ", packs}, {"moves", "", moves}} {
			var want []string
			for _, n := range w.notes {
				isMove := !strings.HasPrefix(n, "batch ") && !strings.HasPrefix(n, "lost ") && !strings.HasPrefix(n, "pack ")
				if part.prefix != "" && strings.HasPrefix(n, part.prefix) || part.prefix == "" && isMove {
					want = append(want, n)
				}
			}
			if part.prefix != "" { // the twin has them in order of time
				slices.Sort(want)
				slices.Sort(part.have)
			}
			if !slices.Equal(part.have, want) {
				t.Fatalf("%s:\n%s\nthe twin:\n%s", part.what, strings.Join(part.have, "\n"), strings.Join(want, "\n"))
			}
		}
		if want := w.parts(); g.Settings.Costing == ledger.FIFO && !slices.Equal(inHand(g), want) {
			t.Fatalf("in hand:\n%s\nthe twin:\n%s", strings.Join(inHand(g), "\n"), strings.Join(want, "\n"))
		}
		for i, s := range g.Supplies {
			if have, want := g.Pieces(i).Owned, w.ownedOf(s.ID); s.ServesAgain() && have.Round(12, exact.HalfEven).Fixed(12) != want.FloatString(12) {
				t.Fatalf("%v of %s are owned, the twin has %s", have, s.ID, want.FloatString(12))
			}
			if have, want := g.Pieces(i).InStore, w.full(s.ID); s.ServesAgain() && have.Fixed(12) != want.FloatString(12) {
				t.Fatalf("%v of %s stand full, the twin has %s", have, s.ID, want.FloatString(12))
			}
		}
		if have, want := g.LeftInLots().Fixed(6), w.left().FloatString(6); have != want {
			t.Fatalf("left in lots: %s, the twin: %s", have, want)
		}
	})
}
