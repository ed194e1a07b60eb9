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
}

type twinLot struct {
	receipt              string
	left, cost, residual *big.Rat
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

// reckon goes through the ledger.
func (w *twin) reckon() {
	type event struct {
		day   exact.Date
		class int
		do    func()
	}
	var events []event
	on := func(day exact.Date, class int, do func()) { events = append(events, event{day, class, do}) }
	costs := w.receipts()
	for i := range w.rec.Receipts {
		on(w.rec.Receipts[i].Date, 0, func() { w.buy(&w.rec.Receipts[i], costs[i]) })
	}
	for i := range w.rec.Batches {
		on(w.rec.Batches[i].Date, 1, func() { w.cook(&w.rec.Batches[i]) })
	}
	for i := range w.rec.Runs { // one a day at most
		on(exact.DateIn(w.rec.Runs[i].Start), 2, func() { w.dry(&w.rec.Runs[i]) })
	}
	for i := range w.rec.Packs {
		on(w.rec.Packs[i].Date, 3, func() { w.pack(&w.rec.Packs[i]) })
	}
	for i := range w.rec.Draws {
		on(w.rec.Draws[i].Date, 4, func() { w.draw(&w.rec.Draws[i]) })
	}
	for i := range w.rec.Counts {
		on(w.rec.Counts[i].Date, 5, func() { w.count(&w.rec.Counts[i]) })
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
	costs := make([]*big.Rat, len(w.rec.Receipts))
	rows := map[string][]int{}
	var bases []*big.Rat
	for i, r := range w.rec.Receipts {
		base := sub(rounded(mul(rat(r.Count), rat(r.Price)), 100, true), rat(r.Discount))
		bases, costs[i] = append(bases, base), new(big.Rat)
		if r.Kind <= ledger.OtherLine {
			costs[i] = add(base, rat(r.Tax))
			rows[r.Receipt] = append(rows[r.Receipt], i)
		}
	}
	for _, r := range w.rec.Receipts {
		if r.Kind != ledger.ChargeLine {
			continue
		}
		var weights []*big.Rat
		zero := true
		for _, i := range rows[r.Receipt] {
			weights = append(weights, bases[i])
			zero = zero && bases[i].Sign() == 0
		}
		for i := range weights {
			if zero {
				weights[i] = whole64(1)
			}
		}
		for i, part := range portions(rat(r.Price), weights, 100) {
			at := rows[r.Receipt][i]
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
	w.lots[what] = append(w.lots[what], &twinLot{receipt, amount, cost, residual})
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
		uses := whole64(int64(w.supply(r.Item).Uses))
		w.put(r.Item, r.Receipt, mul(mul(rat(r.Size.Number()), rat(r.Count)), uses), cost, new(big.Rat))
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
		pool := &twinLot{"", new(big.Rat), new(big.Rat), new(big.Rat)}
		for _, l := range lots {
			pool.left, pool.cost = add(pool.left, l.left), add(pool.cost, l.cost)
		}
		w.lots[what] = []*twinLot{pool}
		lots = w.lots[what]
	}
	cost, missing = new(big.Rat), new(big.Rat).Set(amount)
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
		l.left, l.cost = sub(l.left, part), sub(l.cost, money)
		cost, missing = add(cost, money), sub(missing, part)
	}
	return cost, missing
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
	var loads []*ledger.Load
	var costs [][5]*big.Rat
	for i := range w.rec.Loads {
		if l := &w.rec.Loads[i]; l.Run == r.ID {
			food, _ := w.take(l.Item, l.Receipt, rat(l.Quantity.Number()))
			loads, costs = append(loads, l), append(costs, [5]*big.Rat{food})
		}
	}
	kwh, _ := r.KWh.Get()
	rate := rat(w.rec.Tariffs[0].Rate)
	wear, _ := w.take(r.Machine, "", whole64(1))
	common := []*big.Rat{
		posted(mul(rat(kwh), rate)), w.supplies(w.rec.Machines[0].With, 1), wear,
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
	for _, p := range w.rec.Packs {
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
		w.note(d.Reason.String(), w.useSupply(d.Item, amount))
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
	books := new(big.Rat)
	for _, l := range w.lots[c.Item] {
		books = add(books, l.left)
	}
	if missing := sub(books, found); missing.Sign() > 0 {
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
		packs = append(packs, "pack "+g.Records.Packs[i].ID+" "+p.Total.Fixed(6))
	}
	for _, m := range g.Moves {
		moves = append(moves, m.Reason.String()+" "+m.Cost.Fixed(6))
	}
	return batches, losses, packs, moves
}

// The ledger and its twin agree on every posting, to the last digit.
func TestTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := made(t, madeLedgers().Draw(t, "ledger"), whole)
		w := &twin{rec: g.Records, lots: map[string][]*twinLot{}, share: map[string]*big.Rat{}, packs: map[string]*twinPack{}}
		w.reckon()
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
		if have, want := g.LeftInLots().Fixed(6), w.left().FloatString(6); have != want {
			t.Fatalf("left in lots: %s, the twin: %s", have, want)
		}
	})
}
