package ledger

import "putby/pricing/exact"

// This file follows fresh food into the freezer, and says how long what is in
// hand keeps. Freezing moves no money and no amount.

// freeze posts that food in hand went into the freezer: of the oldest lots, what
// of them is not frozen. It counts at the end of its day, when what went into
// the machine or was eaten has left.
func (g *joiner) freeze(i int32) {
	r := &g.Freezes[i]
	at := place{FrozenFile, r.Line}
	f, ok := g.x.food(at, ItemColumn, r.Item)
	if !ok {
		return
	}
	food := &g.Foods[f]
	want, ok := g.x.amount(food, r.Quantity, at, "quantity")
	if !ok {
		return
	}
	rest, stock := want, &g.foods[f]
	stock.frozen = true
	for _, n := range stock.lots[stock.oldest:] {
		lot := &g.Lots[n]
		if part := rest.Min(lot.Left.Sub(lot.Frozen)); part.Sign() > 0 {
			lot.freeze(part, r.Date, exact.NoDate)
			rest = rest.Sub(part)
		}
	}
	if rest.Sign() > 0 && !g.x.unread.lots(r.Item) {
		amounts := g.Settings.Show().Amounts(food.Basis, want, want.Sub(rest))
		g.x.fail(at, QuantityColumn, "what went into the machine or was eaten that day needs no row here; or is a receipt missing?",
			"%s of %s are frozen on %s, but only %s that is not frozen is in hand at the end of that day",
			amounts[0], food.Title(), g.shownDay(r.Date), amounts[1])
	}
}

// freeze puts part of a lot into the freezer on a day, by the last of which it keeps;
// NoDate is no day, or no other than the lot's own.
func (l *Lot) freeze(part exact.Number, on, by exact.Date) {
	rest := lotRest{from: l.from, Residual: l.Residual}
	if l.Frozen.Sign() > 0 { // else what was frozen of it before is gone, with its days
		rest = *l.lotRest
	}
	rest.Frozen, rest.FrozenOn, rest.FrozenBy = rest.Frozen.Add(part), max(rest.FrozenOn, on), sooner(rest.FrozenBy, by)
	l.lotRest = &rest
}

// sooner is the first of two days, of which NoDate is neither.
func sooner(a, b exact.Date) exact.Date {
	if a == exact.NoDate || b == exact.NoDate {
		return max(a, b)
	}
	return min(a, b)
}

// takeForKitchen draws up to q of a food that the kitchen uses, gives away or throws
// away: in money and amounts the oldest lots, as [joiner.take]. But nobody thaws food
// that waits for the machine while there is other: what the books take of frozen lots
// is put down as frozen of others instead, where it keeps as long as it did.
func (g *joiner) takeForKitchen(food int, q exact.Number) (taken exact.Number, cost exact.Money) {
	s := &g.foods[food]
	if !s.frozen {
		return g.take(s, q)
	}
	lots := s.lots[s.oldest:]
	before := make([]exact.Number, len(lots))
	until := make([]exact.Date, len(lots))
	var frozen exact.Number
	for i, n := range lots {
		before[i], until[i] = g.Lots[n].Frozen, g.Lots[n].frozenUntil(&g.Foods[food])
		frozen = frozen.Add(before[i])
	}
	taken, cost = g.take(s, q)
	frozen = frozen.Min(s.Left)
	by := exact.NoDate
	for i, n := range lots {
		if left := g.Lots[n].Frozen; left.Less(before[i]) {
			by = sooner(by, until[i])
		}
		frozen = frozen.Sub(g.Lots[n].Frozen)
	}
	for _, n := range lots {
		lot := &g.Lots[n]
		if part := frozen.Min(lot.Left.Sub(lot.Frozen)); part.Sign() > 0 {
			lot.freeze(part, exact.NoDate, by)
			frozen = frozen.Sub(part)
		}
	}
	return taken, cost
}

// leaves takes part of what is left of a lot. Of one that is partly frozen the
// machine takes the frozen part first, since it is frozen to wait for it, and
// the kitchen the other.
func (l *Lot) leaves(part exact.Number, machine bool) {
	l.Left = l.Left.Sub(part)
	switch {
	case l.Frozen.Sign() == 0:
	case machine:
		l.Frozen = l.Frozen.Sub(part).Max(exact.Number{})
	default:
		l.Frozen = l.Frozen.Min(l.Left)
	}
}

// A FreshPart is what is in hand of a lot of food: the part that is frozen, or
// the part that is not.
type FreshPart struct {
	Lot      int32        // position in Ledger.Lots
	Quantity exact.Number // in the food's basis unit
	Cost     exact.Money  // the parts of a food sum to what its stock carries
	UseBy    exact.Date   // NoDate: nobody knows
	Frozen   bool
	Crumb    bool // under 1 % of the lot as bought: nothing to warn of
}

// Turned reports whether the part's last day is before a day; of a crumb nobody is warned.
func (p *FreshPart) Turned(day exact.Date) bool {
	return !p.Crumb && p.UseBy != exact.NoDate && p.UseBy < day
}

// FreshParts returns what is in hand of the food at a position in
// Records.Foods, lot by lot, the oldest first.
func (g *Ledger) FreshParts(food int) []FreshPart {
	f, stock := &g.Foods[food], &g.foods[food]
	var parts []FreshPart
	for _, n := range stock.lots[stock.oldest:] {
		lot, first := &g.Lots[n], len(parts)
		for _, p := range []FreshPart{
			{Lot: n, Quantity: lot.Left.Sub(lot.Frozen), UseBy: keptUntil(lot.Date, f.FreshDays)},
			{Lot: n, Quantity: lot.Frozen, UseBy: lot.frozenUntil(f), Frozen: true},
		} {
			if p.Quantity.Sign() > 0 {
				p.Crumb = p.Quantity.Mul(exact.Int(100)).Less(lot.Quantity)
				parts = append(parts, p)
			}
		}
		if !stock.pooled {
			g.shareCost(lot.CostLeft, parts[first:])
		}
	}
	if stock.pooled {
		g.shareCost(stock.Cost, parts)
	}
	return parts
}

// shareCost shares a cost over parts by their amounts.
func (g *Ledger) shareCost(cost exact.Money, parts []FreshPart) {
	switch len(parts) { // mostly all of a lot is fresh, or none of it is left
	case 0:
		return
	case 1:
		parts[0].Cost = cost
		return
	}
	weights := make([]exact.Number, len(parts))
	for i := range parts {
		weights[i] = parts[i].Quantity
	}
	shares, err := cost.Split(weights, g.places)
	if err != nil {
		return // there is nothing, and then no cost
	}
	for i := range parts {
		parts[i].Cost = shares[i]
	}
}

// frozenUntil is the last day of the frozen part of a lot. What was frozen
// after it had turned is no fresher for it.
func (l *Lot) frozenUntil(f *Food) exact.Date {
	until := keptUntil(l.Date, f.FrozenDays)
	if fresh := keptUntil(l.Date, f.FreshDays); fresh != exact.NoDate && l.FrozenOn > fresh {
		until = fresh
	}
	return sooner(until, l.FrozenBy)
}

// keptUntil is the last day of food of a date that keeps so many days.
func keptUntil(of exact.Date, days exact.Opt[int]) exact.Date {
	n, ok := days.Get()
	if !ok {
		return exact.NoDate
	}
	return of.AddDays(n)
}

// SoonestToTurn returns the part of a food's lots that turns first, crumbs
// left out unless there is nothing else; false where none is in hand. Parts
// that keep nobody knows how long come last.
func SoonestToTurn(parts []FreshPart) (FreshPart, bool) {
	var soonest FreshPart
	found := false
	for _, p := range parts {
		switch {
		case !found, soonest.Crumb && !p.Crumb:
		case p.Crumb != soonest.Crumb, p.Crumb, p.UseBy == exact.NoDate:
			continue
		case soonest.UseBy != exact.NoDate && soonest.UseBy <= p.UseBy:
			continue
		}
		soonest, found = p, true
	}
	return soonest, found
}
