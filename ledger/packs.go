package ledger

import (
	"slices"
	"strings"

	"putby/ledger/advice"
	"putby/pricing/exact"
)

// This file puts the good cost of runs on packs, and holds packs against what they come from.

// A PackCost is what a pack cost and where its containers went.
type PackCost struct {
	Done   bool         // packed by the ledger's date
	places uint8        // of money
	BestBy exact.Date   // NoDate: nobody knows
	count  int32        // containers
	Taken  int32        // containers drawn by the ledger's date
	Food   int          // position in Records.Foods
	Each   exact.Number // one container, reconstituted, in the food's basis unit
	Share  *Costs       // its part of the run's good cost; of opening stock the stated cost, as food
	Own    exact.Money  // its own supplies
	Takes  Range        // of them
	notes  *[]Note      // nil: there are none, as of most
}

// Notes are what to know of what the pack cost.
func (p *PackCost) Notes() []Note {
	if p.notes == nil {
		return nil
	}
	return *p.notes
}

func (p *PackCost) setNotes(notes []Note) {
	if len(notes) > 0 {
		list := notes // apart, so that only lists of something take memory
		p.notes = &list
	}
}

// Total is the sum of all Costs.
func (p *PackCost) Total() exact.Money { return p.Share.Total().Add(p.Own) }

// PerContainer is what one container costs on average.
func (p *PackCost) PerContainer() exact.Ratio { return p.Total().Per(exact.Int(int64(p.count))) }

// Made is what all containers give, reconstituted, in the food's basis unit.
func (p *PackCost) Made() exact.Number { return p.Each.Mul(exact.Int(int64(p.count))) }

// MadeLeft is Made for the containers in store.
func (p *PackCost) MadeLeft() exact.Number { return p.Each.Mul(exact.Int(int64(p.Left()))) }

// Costs are Share with Own added.
func (p *PackCost) Costs() Costs {
	costs := *p.Share
	costs[SuppliesCost] = costs[SuppliesCost].Add(p.Own)
	return costs
}

// Left is the number of containers in store.
func (p *PackCost) Left() int { return int(p.count - p.Taken) }

// First is what the first k containers cost: the pack's cost is split equally
// over them, and they leave in order.
func (p *PackCost) First(k int) exact.Money { return p.Total().FirstOf(k, int(p.count), int(p.places)) }

// FirstOf is First for one element of the cost.
func (p *PackCost) FirstOf(e Element, k int) exact.Money {
	cost := p.Share[e]
	if e == SuppliesCost {
		cost = cost.Add(p.Own)
	}
	return cost.FirstOf(k, int(p.count), int(p.places))
}

// LeftCost is what the containers in store cost.
func (p *PackCost) LeftCost() exact.Money { return p.Total().Sub(p.First(int(p.Taken))) }

// checkPacks holds every pack against its food, its run and its supplies.
func (g *joiner) checkPacks() {
	g.outlinePacks()
	g.checkRunsOfPacks()
}

// outlinePacks finds each pack's food.
func (g *joiner) outlinePacks() {
	rec, item, f, known := g.Records, textAt(0), int32(0), false // packs of a food mostly stand together
	for i := range rec.Packs.rows {
		p, cost := &rec.Packs.rows[i], &g.Packs[i]
		cost.count, cost.places, cost.Food = p.count, uint8(g.places), -1
		if cost.Share == nil { // no cost is worked out
			cost.Share = &nothing
		}
		at := place{PacksFile, int(p.line)}
		g.x.checkUses(at, rec.packWith(int32(i)))
		if p.item != item || !known {
			item = p.item
			if f, known = g.x.food(at, ItemColumn, rec.Packs.store.text(item)); !known {
				continue
			}
		}
		cost.Food = int(f)
		food := &g.Foods[f]
		cost.Each, _ = g.x.amount(food, rec.packEach(int32(i)), at, "each")
		cost.BestBy = p.bestBy
		if months, ok := food.KeepMonths.Get(); ok && p.bestBy == exact.NoDate {
			cost.BestBy = p.date.AddMonths(months)
		}
	}
}

// checkRunsOfPacks holds every pack against the run it came from.
func (g *joiner) checkRunsOfPacks() {
	loaded := none(len(g.Foods)) // with each food, the last run looked at that was
	for run := range g.Runs {
		packs := g.x.packsOf.of(run)
		if len(packs) == 0 || g.x.unread.run(g.Records.Runs[run].ID) {
			continue
		}
		loads := g.x.loadsOf.of(run)
		for _, row := range loads {
			if f, ok := g.x.foods.find(g.Records.loadedFood(row)); ok {
				loaded[f] = int32(run)
			}
		}
		for _, i := range packs {
			food := g.Packs[i].Food
			fits := food < 0 || len(loads) == 0 || loaded[food] == int32(run)
			if !fits || !g.Records.Runs[run].Good() || g.Records.Packs.rows[i].date < g.Runs[run].Date {
				p := g.Records.Packs.At(int(i))
				g.checkRunOfPack(&p, run, fits)
			}
		}
	}
}

// checkRunOfPack holds a pack against the run it came from, which was loaded
// with its food or not.
func (g *joiner) checkRunOfPack(p *Pack, i int, loaded bool) {
	at, run, day := place{PacksFile, p.Line}, &g.Records.Runs[i], g.Runs[i].Date
	switch {
	case run.Spoiled:
		g.x.fail(at, RunColumn, "take the pack out, or call the run good and give what was lost", "pack %s comes from the run %s, which spoiled", p.ID, p.Run)
	case run.Running:
		g.x.advise(at, RunColumn, "finish the run first", []advice.Doing{advice.Do(advice.Finish, run.ID)}, "pack %s comes from the run %s, which is running since %s", p.ID, p.Run, g.local(run.Start))
	case p.Date < day:
		g.x.fail(at, DateColumn, "correct the date, or the run's start", "pack %s is of %s, before its run %s began on %s", p.ID, g.shownDay(p.Date), p.Run, g.shownDay(day))
	case !loaded:
		g.x.fail(at, ItemColumn, "it was loaded with "+g.loadedWith(i), "pack %s: run %s was not loaded with %s", p.ID, p.Run, p.Item)
	}
}

// loadedWith lists some of what a run was loaded with.
func (g *joiner) loadedWith(run int) string {
	var items []string
	for _, row := range g.x.loadsOf.of(run) {
		if item := g.Records.loadedFood(row); len(items) < 10 && !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	return strings.Join(items, ", ")
}

// splitOverPacks shares the good cost of each item of a run over its packs,
// element by element, by what they give once reconstituted.
func (g *joiner) splitOverPacks(run int, cost *RunCost) {
	g.sortPacks(run, cost)
	room := &g.scratch
	for i := range cost.Items {
		item := &cost.Items[i]
		if item.Made.Sign() <= 0 || g.options.Bare {
			continue
		}
		room.weights = room.weights[:0]
		for _, row := range item.Packs {
			room.weights = append(room.weights, g.Packs[row].Made())
		}
		for e, m := range item.Good {
			g.splitElement(Element(e), m, item.Packs)
		}
	}
}

// sortPacks gives each item of a run its packs, in file order.
func (g *joiner) sortPacks(run int, cost *RunCost) {
	room, rows := &g.scratch, g.x.packsOf.of(run)
	counts := append(room.counts[:0], make([]int, len(cost.Items))...)
	for _, row := range rows {
		if i := room.itemOfRun(run, g.Packs[row].Food); i >= 0 {
			counts[i]++
		}
	}
	// Counted first, so that the packs of each item are a range of one list with room for all
	// packs, which therefore never moves.
	for i, n := range counts {
		from := len(room.packs)
		room.packs = room.packs[:from+n]
		cost.Items[i].Packs = room.packs[from : from : from+n]
	}
	for _, row := range rows {
		if i := room.itemOfRun(run, g.Packs[row].Food); i >= 0 {
			item := &cost.Items[i]
			item.Packs, item.Made = append(item.Packs, row), item.Made.Add(g.Packs[row].Made())
		}
	}
	room.counts = counts
}

// splitElement shares one element over packs, by the weights at hand.
func (g *joiner) splitElement(e Element, m exact.Money, packs []int32) {
	if len(packs) == 1 {
		g.Packs[packs[0]].Share[e] = m
		return
	}
	parts, err := m.AppendSplit(g.scratch.parts[:0], g.scratch.weights, g.places)
	if err != nil { // cannot be: amounts are posted at ledger places
		p := g.Records.Packs.At(int(packs[0]))
		g.x.fail(place{PacksFile, p.Line}, PackColumn, "correct count or each", "pack %s: %v", p.ID, err)
		return
	}
	g.scratch.parts = parts
	for i, row := range packs {
		g.Packs[row].Share[e] = parts[i]
	}
}

// pack draws a pack's own supplies and puts it in store.
func (g *joiner) pack(i int32) {
	p, cost := &g.Records.Packs.rows[i], &g.Packs[i]
	cost.Done = cost.Food >= 0 // else a fault says that nobody knows what it holds
	// 0 is the empty text: of no run, so opening stock.
	if p.run == 0 && !g.options.Bare {
		cost.Share[FoodCost] = g.post(g.Records.Packs.At(int(i)).Cost)
		g.Flows.Opening = g.Flows.Opening.Add(cost.Share[FoodCost])
	}
	cost.Takes.From = int32(len(g.Takes))
	with := g.Records.packWith(i)
	own, notes := g.takeSupplies(with, exact.Int(int64(p.count)), place{PacksFile, int(p.line)}, "with")
	cost.Own, cost.Takes.To = own, int32(len(g.Takes))
	cost.setNotes(notes)
	g.fill(with, int(p.count))
	g.noteMoist(int(i))
	g.Flows.PackSupplies = g.Flows.PackSupplies.Add(cost.Own)
}
