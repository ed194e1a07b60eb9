package ledger

import "putby/pricing/exact"

// A Move is something that left: containers of a pack, food or supplies. It
// comes from a draw, from a stocktake that found less than the books have, or
// from a receipt that took it back.
type Move struct {
	Date     exact.Date // of the draw, the stocktake or the receipt
	Reason   Reason
	Draw     int          // position in Records.Draws, or -1
	Count    int          // position in Records.Counts, or -1
	Row      int          // position in Records.Receipts of the line that took it back, or -1
	Pack     int          // position in Records.Packs, or -1
	Food     int          // position in Records.Foods, of the pack's food too; -1 for a supply
	Supply   int          // position in Records.Supplies, or -1
	Quantity exact.Number // containers, basis units of the food, or pieces of the supply
	Amount   exact.Number // of a food, in its basis unit: of a pack what the containers give
	Cost     exact.Money  // of what was taken back, less what was given for it
	Wear     exact.Money  // the machine's wear inside Cost
	Takes    Range        // of food and supplies
}

// move keeps a move.
func (g *joiner) move(m Move) {
	if !g.options.Bare {
		g.Moves = append(g.Moves, m)
	}
}

// drawOut posts a draw.
func (g *joiner) drawOut(i int32) {
	d := g.Draws.At(int(i))
	m := Move{Date: d.Date, Reason: d.Reason, Draw: int(i), Count: -1, Row: -1, Pack: -1, Food: -1, Supply: -1}
	at := place{DrawsFile, d.Line}
	if d.Pack != "" {
		g.drawPack(m, at, g.x.packDrawn[i], &d)
		return
	}
	g.drawItem(m, at, d.Item, d.Quantity)
}

// drawPack takes containers, in order.
func (g *joiner) drawPack(m Move, at place, i int32, d *Draw) {
	if i < 0 {
		g.x.unknown(at, PackColumn, "pack", d.Pack, PacksFile)
		return
	}
	cost := &g.Packs[i]
	n, _ := d.Quantity.Number().Int64()
	switch {
	case g.x.unread.about(PacksFile, d.Pack), cost.Food < 0:
		return
	case !cost.Done:
		g.x.fail(at, DateColumn, "correct one of the two dates", "pack %s was packed on %s, after this draw of %s", d.Pack, g.shownDay(g.Records.Packs.rows[i].date), g.shownDay(m.Date))
		return
	case n > int64(cost.Left()):
		g.x.fail(at, QuantityColumn, "is another pack meant, or was it counted twice?",
			"%d of pack %s are drawn on %s, but %d of its %d containers are left", n, d.Pack, g.shownDay(m.Date), cost.Left(), cost.count)
		return
	}
	g.takePack(m, int(i), int(n))
}

// takePack takes n containers. They cost what the first so many come to after it,
// less what they came to before: whatever is taken when, the last one carries what
// rounding left, and all of them sum to the pack.
func (g *joiner) takePack(m Move, pack, n int) {
	cost := &g.Packs[pack]
	g.fill(g.Records.packWith(int32(pack)), -n)
	from, to := int(cost.Taken), int(cost.Taken)+n
	cost.Taken = int32(to)
	if g.options.Bare {
		return
	}
	m.Pack, m.Food, m.Quantity = pack, cost.Food, exact.Int(int64(n))
	m.Amount = cost.Each.Mul(m.Quantity)
	m.Cost = cost.First(to).Sub(cost.First(from))
	m.Wear = cost.FirstOf(WearCost, to).Sub(cost.FirstOf(WearCost, from))
	g.Flows.Out[m.Reason] = g.Flows.Out[m.Reason].Add(m.Cost)
	g.move(m)
}

// drawItem takes food or supplies in hand.
func (g *joiner) drawItem(m Move, at place, item string, q exact.Quantity) {
	if f, ok := g.x.foods.find(item); ok {
		if n, ok := g.x.amount(&g.Foods[f], q, at, "quantity"); ok {
			taken := g.takeFood(m, int(f), n)
			g.short(&g.Foods[f], n, taken, at, "quantity", "this draw", m.Date)
		}
		return
	}
	s, ok := g.x.supplies.find(item)
	if !ok {
		g.x.unknown(at, ItemColumn, "food or supply", item, FoodsFile, SuppliesFile)
		return
	}
	if n, ok := g.piecesIn(int(s), q, at); ok {
		g.takeSupplyOut(m, int(s), n, at)
	}
}

// takeFood takes up to n of a food, and returns what its lots had of that.
func (g *joiner) takeFood(m Move, f int, n exact.Number) (taken exact.Number) {
	m.Food, m.Takes.From = f, int32(len(g.Takes))
	taken, m.Cost = g.takeForKitchen(f, n)
	m.Takes.To, m.Quantity, m.Amount = int32(len(g.Takes)), taken, taken
	g.Flows.FreshDraws = g.Flows.FreshDraws.Add(m.Cost)
	g.move(m)
	return taken
}

// takeStock holds the books against a stocktake: what they have beyond it is
// missing.
func (g *joiner) takeStock(i int32) {
	c := &g.Counts[i]
	m := Move{Date: c.Date, Reason: Missing, Draw: -1, Count: int(i), Row: -1, Pack: -1, Food: -1, Supply: -1}
	at := place{CountsFile, c.Line}
	if c.Pack != "" {
		g.countPack(m, at, c)
		return
	}
	// A receipt that could not be read may have what the books seem to lack.
	if g.x.unread.lots(c.Item) {
		return
	}
	if f, ok := g.x.foods.find(c.Item); ok {
		food := &g.Foods[f]
		if n, ok := g.x.amount(food, c.Quantity, at, "quantity"); ok {
			if gap, more := g.gap(n, g.foods[f].Left, at, food.Title(), food.Basis, "a receipt, or a draw too many"); more {
				g.takeFood(m, int(f), gap)
			}
		}
		return
	}
	s, ok := g.x.supplies.find(c.Item)
	if !ok {
		g.x.unknown(at, ItemColumn, "food or supply", c.Item, FoodsFile, SuppliesFile)
		return
	}
	g.countSupply(m, int(s), c.Quantity, at)
}

func (g *joiner) countPack(m Move, at place, c *Count) {
	i, ok := g.x.packs.find(c.Pack)
	if !ok {
		g.x.unknown(at, PackColumn, "pack", c.Pack, PacksFile)
		return
	}
	cost := &g.Packs[i]
	if g.x.unread.about(PacksFile, c.Pack) || cost.Food < 0 {
		return
	}
	if !cost.Done {
		g.x.fail(at, DateColumn, "correct one of the two dates", "pack %s was packed on %s, after this stocktake of %s", c.Pack, g.shownDay(g.Records.Packs.At(int(i)).Date), g.shownDay(c.Date))
		return
	}
	gap, more := g.gap(c.Quantity.Number(), exact.Int(int64(cost.Left())), at, "pack "+c.Pack, exact.NoUnit, "a pack, or a draw too many"+countedLast)
	if n, _ := gap.Int64(); more {
		g.takePack(m, int(i), int(n))
	}
}

// countedLast goes on to say what a stocktake may have been before.
const countedLast = "; a count is of the end of its day: take off it what was taken out later that day"

// gap compares a stocktake with the books. More in store than in the books is
// a fault that says which record may be lacking.
func (g *joiner) gap(found, books exact.Number, at place, what string, unit exact.Unit, lacking string) (gap exact.Number, more bool) {
	if books.Less(found) {
		show := g.Settings.Show()
		amounts := show.Amounts(unit, found, books)
		g.x.fail(at, QuantityColumn, "a record may be lacking or wrong: "+lacking,
			"%s of %s are counted, but the books have %s", amounts[0], what, amounts[1])
		return exact.Number{}, false
	}
	gap = books.Sub(found)
	return gap, gap.Sign() > 0
}
