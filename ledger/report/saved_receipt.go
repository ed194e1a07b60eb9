package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// receipts reads receipts back: of one what was bought line by line, of several
// what each comes to, and all of them.
func (s *savedWords) receipts(rows []int) {
	var lines [][]int           // of each receipt that is told by itself
	known := map[string]int32{} // its place among the receipts
	for _, row := range rows {
		id := s.g.Receipts.At(row).Receipt
		at, ok := known[id]
		if !ok {
			at = int32(len(known))
			known[id] = at
			if at < mostSaved {
				lines = append(lines, nil)
			}
		}
		if at < mostSaved {
			lines[at] = append(lines[at], row)
		}
	}
	for _, list := range lines {
		s.receipt(list, figures.SpentBy(s.g, list))
		if len(known) == 1 {
			s.readBack(list, figures.SpentBy(s.g, list))
		}
	}
	s.receiptTold = true
	if len(known) > 1 {
		s.say("%s receipts of %s come to %s.", s.count(len(known)), s.counted(len(rows), "line"), s.money(figures.SpentBy(s.g, rows).Ratio()))
	}
}

// receipt says what a receipt comes to.
func (s *savedWords) receipt(rows []int, sum exact.Money) {
	r := s.g.Receipts.At(rows[0])
	s.say("Receipt %s, %s: %s, %s.", r.Receipt, commas(r.Shop, s.day(r.Date)), s.counted(len(rows), "line"), s.money(sum.Ratio()))
}

// perUnit is a unit price where the currency has been said: "1.0204 per kg".
func (s *savedWords) perUnit(r exact.Ratio, u exact.Unit) string {
	return PriceOf(r, u).ShownWithUnit(s.currency, s.show)
}

// perEdible is perUnit of what can be eaten of a food: "1.1593 per edible kg" where
// some of it is thrown away.
func (s *savedWords) perEdible(r exact.Ratio, food *ledger.Food) string {
	words := s.perUnit(r, food.Basis)
	if food.HasRefuse() {
		words = strings.Replace(words, "per ", "per edible ", 1)
	}
	return words
}

// shelves says what shops ask. Beside a receipt that tells of it a few words do.
func (s *savedWords) shelves(at []int) {
	if !s.receiptTold {
		each("prices", (*savedWords).shelf)(s, at)
		return
	}
	var foods []string
	for _, i := range at {
		foods = Once(foods, ItemTitle(s.g, s.g.Shelf[i].Item))
	}
	s.say("Noted as what the shelf asks: %s.", Listed(foods))
}

// shelf says what a shop asks, and what that is per unit.
func (s *savedWords) shelf(i int) {
	r := &s.g.Shelf[i]
	f, ok := s.g.FindFood(r.Item)
	if !ok {
		return
	}
	food := &s.g.Foods[f]
	what, perUnit := food.Title(), s.perEdible
	if r.Form == pricing.Preserved {
		what += ", preserved"
		perUnit = func(r exact.Ratio, food *ledger.Food) string { return s.perUnit(r, food.Basis) }
	}
	if r.Terms == pricing.OnOffer {
		what += " on offer"
	}
	words := fmt.Sprintf("%s: %s of %s for %s", commas(r.Shop, s.day(r.Date)), s.quantity(r.Size), what, s.money(r.Price.Ratio()))
	if per, ok := r.UnitPrice(food); ok {
		words += ", " + perUnit(per, food)
	}
	s.say("%s.", words)
}

// batch says what kitchen work made, of what, and at what cost.
func (s *savedWords) batch(i int) {
	b, cost := &s.g.Batches[i], &s.g.Batch[i]
	f, ok := s.g.FindFood(b.Item)
	if !ok {
		return
	}
	food := &s.g.Foods[f]
	from := worded(b.From, func(p ledger.Part) string { return s.quantity(p.Quantity) + " " + ItemTitle(s.g, p.Item) })
	words := fmt.Sprintf("Batch %s: %s %s from %s", b.ID, s.amount(cost.Made, food.Basis), food.Title(), Listed(from))
	if lot := slices.IndexFunc(s.g.Lots, func(l ledger.Lot) bool { return int(l.Batch) == i }); lot >= 0 && cost.Made.Sign() > 0 {
		words += fmt.Sprintf(", %s, %s", s.money(s.g.Lots[lot].Cost.Ratio()), s.perUnit(s.g.Lots[lot].UnitCost(), food.Basis))
	}
	s.say("%s.", words)
}
