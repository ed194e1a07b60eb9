package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// pack says what a container costs, beside what the shop asks for as much.
func (s *savedWords) pack(i int) {
	p, cost := s.g.Records.Packs.At(i), &s.g.Packs[i]
	food := &s.g.Foods[cost.Food]
	due := s.dated(", best by ", cost.BestBy, "", "")
	words := fmt.Sprintf("Pack %s: %s of %s %s%s; %s", p.ID, s.counted(p.Count, "container"), s.amount(cost.Each, food.Basis), food.Title(), due,
		s.money(cost.PerContainer()))
	if p.Count > 1 {
		words += " each"
	}
	if price, ok := s.g.ShelfPrice(cost.Food, p.Date, pricing.Fresh); ok {
		asks := s.figure(price.PerUnit.Times(cost.Each))
		if price.Batch == "" {
			words += ", and the shelf asks " + asks + " for as much"
		} else {
			words += ", and the food it is made of costs " + asks + " on the shelf"
		}
	}
	s.say("%s.%s", words, s.short(&p, cost))
}

// short says of a pack whose run is packed in part that its cost will fall.
func (s *savedWords) short(p *ledger.Pack, cost *ledger.PackCost) string {
	run, ok := s.g.FindRun(p.Run)
	if !ok {
		return ""
	}
	item := s.g.Runs[run].Item(cost.Food)
	if item == nil || !item.Short {
		return ""
	}
	unit := s.g.Foods[item.Food].Basis
	return fmt.Sprintf(" So far %s of about %s of its run is packed: what a container costs falls with each more.",
		s.amount(item.Made, unit), s.amount(item.Usual.Round(exact.QuantityPlaces, exact.HalfEven), unit))
}

// reasonWords say what became of what was taken out.
var reasonWords = [...]string{ledger.Used: "Used", ledger.Given: "Given away", ledger.Spoiled: "Spoiled", ledger.Missing: "Missing"}

// draw says what was taken out, what it cost and what it was worth.
func (s *savedWords) draw(i int) {
	d := s.g.Draws.At(i)
	m, ok := figures.MoveOf(s.g, i)
	if !ok {
		s.say("%s: nothing.", reasonWords[d.Reason]) // of nothing in hand
		return
	}
	what, left := s.taken(m, d.Quantity)
	words := what + ", which cost " + s.money(m.Cost.Ratio())
	if price, ok := s.worth(m); ok && d.Reason != ledger.Spoiled {
		worth := ", worth "
		if price.Batch != "" {
			worth = ", made of food worth "
		}
		words += worth + s.figure(price.PerUnit.Times(m.Amount)) + " at the shelf"
	}
	s.say("%s: %s%s.", reasonWords[d.Reason], words, left)
}

// worth is the shelf price of what was taken out.
func (s *savedWords) worth(m *ledger.Move) (ledger.ShelfPrice, bool) {
	if m.Food < 0 {
		return ledger.ShelfPrice{}, false
	}
	return s.g.ShelfPrice(m.Food, m.Date, pricing.Fresh)
}

// taken says what left, by the number on its record, and what is left of it.
func (s *savedWords) taken(m *ledger.Move, q exact.Quantity) (what, left string) {
	switch {
	case m.Pack >= 0:
		n, _ := m.Quantity.Int64()
		food := &s.g.Foods[m.Food]
		return fmt.Sprintf("%s of %s %s from pack %s", s.counted(int(n), "container"), s.amount(s.g.Packs[m.Pack].Each, food.Basis), food.Title(), s.g.Records.Packs.At(m.Pack).ID),
			s.inPack(s.g.Records.Packs.At(m.Pack).ID)
	case m.Food >= 0:
		food := &s.g.Foods[m.Food]
		return s.amount(m.Amount, food.Basis) + " " + food.Title(),
			s.inHand(food)
	}
	return s.number(q.Number()) + " of " + ItemTitle(s.g, s.g.Supplies[m.Supply].ID), ""
}

// inPack is what a pack still has; of a draw that is taken out, what it has again.
func (s *savedWords) inPack(id string) string {
	g, words := s.g, "; %d left in it"
	if s.after != nil {
		g, words = s.after, "; %d in it again"
	}
	i, ok := g.FindPack(id)
	if !ok {
		return ""
	}
	return fmt.Sprintf(words, g.Packs[i].Left())
}

// inHand is what of a food is still in hand; of a draw that is taken out, what is again.
func (s *savedWords) inHand(food *ledger.Food) string {
	g, words := s.g, " left fresh"
	if s.after != nil {
		g, words = s.after, " fresh again"
	}
	i, ok := g.FindFood(food.ID)
	if !ok {
		return ""
	}
	return "; " + s.amount(g.FoodStock(i).Left, food.Basis) + words
}

// stocktake says what a count writes off.
func (s *savedWords) stocktake(i int) {
	c := &s.g.Counts[i]
	found := s.number(c.Quantity.Number())
	unit, base := "", exact.NoUnit
	what := ItemTitle(s.g, c.Item)
	if p, ok := s.g.FindPack(c.Pack); ok {
		what, unit = s.title(s.g.Packs[p].Food)+", pack "+c.Pack, " of its containers"
	} else if f, ok := s.g.FindFood(c.Item); ok {
		base = s.g.Foods[f].Basis
		if n, err := s.g.Foods[f].InBasis(c.Quantity); err == nil {
			found = s.amount(n, base)
		}
	}
	m, ok := figures.GapOf(s.g, i)
	if !ok {
		s.say("Stocktake of %s: %s%s, as the books have it.", what, found, unit)
		return
	}
	s.say("Stocktake of %s: %s%s. The books had %s more, so %s is written off as missing%s.", what, found, unit, s.amount(m.Quantity, base), s.money(m.Cost.Ratio()), under(m.Move))
}

// freeze says what went into the freezer, and until when all that is there keeps that
// had not turned.
func (s *savedWords) freeze(i int) {
	r := &s.g.Freezes[i]
	f, ok := s.g.FindFood(r.Item)
	if !ok {
		return
	}
	food, due := &s.g.Foods[f], exact.NoDate
	for _, p := range s.g.FreshParts(f) {
		if p.Frozen && p.UseBy != exact.NoDate && !p.Turned(r.Date) && (due == exact.NoDate || p.UseBy < due) {
			due = p.UseBy
		}
	}
	amount := s.quantity(r.Quantity)
	if n, err := food.InBasis(r.Quantity); err == nil {
		amount = s.amount(n, food.Basis)
	}
	s.say("Into the freezer: %s %s%s.", amount, food.Title(), s.dated(", to be dried by ", due, "", ""))
}
