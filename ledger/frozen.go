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
			lot.freeze(part, r.Date, lot.FrozenOf)
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

// freeze puts part of a lot into the freezer, with food of a day that may be before its own.
func (l *Lot) freeze(part exact.Number, on, of exact.Date) {
	l.lotRest = &lotRest{from: l.from, Residual: l.Residual, Frozen: l.Frozen.Add(part), FrozenOn: max(on, l.FrozenOn), FrozenOf: of}
}

// takeForKitchen draws up to q of a food that the kitchen uses, gives away or throws
// away: in money and amounts the oldest lots, as [joiner.take]. But nobody thaws food
// that waits for the machine while there is other, so that as much stays frozen as there
// was: of newer lots, which from then on keep no longer than the oldest that was frozen.
func (g *joiner) takeForKitchen(s *Stock, q exact.Number) (taken exact.Number, cost exact.Money) {
	if !s.frozen {
		return g.take(s, q)
	}
	var frozen exact.Number
	on, of := exact.NoDate, exact.LastDate
	for _, n := range s.lots[s.oldest:] {
		if lot := &g.Lots[n]; lot.Frozen.Sign() > 0 {
			frozen = frozen.Add(lot.Frozen)
			on, of = max(on, lot.FrozenOn), min(of, lot.frozenOf())
		}
	}
	taken, cost = g.take(s, q)
	// The books take the oldest lots, frozen or not; the household took what was not. So what
	// they took of frozen lots is put down as frozen of others instead.
	frozen = frozen.Min(s.Left)
	for _, n := range s.lots[s.oldest:] {
		frozen = frozen.Sub(g.Lots[n].Frozen)
	}
	for _, n := range s.lots[s.oldest:] {
		lot := &g.Lots[n]
		if part := frozen.Min(lot.Left.Sub(lot.Frozen)); part.Sign() > 0 {
			lot.freeze(part, on, of)
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
	if fresh := keptUntil(l.frozenOf(), f.FreshDays); fresh != exact.NoDate && l.FrozenOn > fresh {
		return fresh
	}
	return keptUntil(l.frozenOf(), f.FrozenDays)
}

// frozenOf is the day of the oldest food in the frozen part of a lot.
func (l *Lot) frozenOf() exact.Date {
	if l.FrozenOf != exact.NoDate {
		return l.FrozenOf
	}
	return l.Date
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
