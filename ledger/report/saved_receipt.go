package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// receipts reads receipts back: of one what was bought line by line, of several
// what each comes to, and all of them.
func (s *savedWords) receipts(rows []int) {
	var order []string
	lines := map[string][]int{}
	for _, row := range rows {
		id := s.g.Receipts[row].Receipt
		if lines[id] == nil {
			order = append(order, id)
		}
		lines[id] = append(lines[id], row)
	}
	var all exact.Money
	for n, id := range order {
		sum := s.spent(lines[id])
		all = all.Add(sum)
		if n < mostSaved {
			s.receipt(lines[id], sum)
		}
		if len(order) == 1 {
			s.bought(lines[id])
		}
	}
	if len(order) > 1 {
		s.say("%d receipts of %s come to %s.", len(order), counted(len(rows), "line"), s.money(all.Ratio()))
	}
}

// spent is what lines of receipts come to.
func (s *savedWords) spent(rows []int) (sum exact.Money) {
	for _, row := range rows {
		sum = sum.Add(s.g.Spends[row].Cost)
	}
	return sum
}

// receipt says what a receipt comes to.
func (s *savedWords) receipt(rows []int, sum exact.Money) {
	r := &s.g.Receipts[rows[0]]
	s.say("Receipt %s, %s: %s, %s.", r.Receipt, commas(r.Shop, r.Date.String()), counted(len(rows), "line"), s.money(sum.Ratio()))
}

// mostBought is how many lines of a receipt are read back.
const mostBought = 40

// bought says of each thing bought what it cost, all told, and per unit.
func (s *savedWords) bought(rows []int) {
	rows = slices.DeleteFunc(slices.Clone(rows), func(row int) bool { return !s.g.Receipts[row].Kind.Bought() })
	for n, row := range rows {
		if n == mostBought {
			s.say("  ... and %d more", len(rows)-n)
			return
		}
		s.say("  %s", s.thing(row))
	}
}

// thing is a line of a receipt: "Carrots: 9.8 kg for 10.00 CAD, 1.0204 per kg".
func (s *savedWords) thing(row int) string {
	r := &s.g.Receipts[row]
	title, cost := itemTitle(s.g, r.Item), s.money(s.g.Spends[row].Cost.Ratio())
	lot := slices.IndexFunc(s.g.Lots, func(l ledger.Lot) bool { return int(l.Row) == row })
	if f, ok := s.g.FindFood(r.Item); ok && r.Kind == ledger.FoodLine && lot >= 0 && s.g.Lots[lot].Quantity.Sign() > 0 {
		food, q := &s.g.Foods[f], s.g.Lots[lot].Quantity
		amount := s.amount(q, food.Basis)
		if food.HasRefuse() {
			amount += " edible"
		}
		return fmt.Sprintf("%s: %s for %s, %s", title, amount, cost, s.perUnit(s.g.Spends[row].Cost.Per(q), food.Basis))
	}
	if r.Count.Sign() < 0 {
		return title + ", taken back: " + cost
	}
	if n := pieces(r); r.Kind == ledger.SupplyLine && exact.Int(1).Less(n) {
		return fmt.Sprintf("%s: %v for %s, %s each", title, n, cost, s.figure(s.g.Spends[row].Cost.Per(n)))
	}
	return title + ": " + cost
}

// pieces is how many of a supply a line is for.
func pieces(r *ledger.ReceiptRow) exact.Number {
	if r.Size.Given() {
		return r.Count.Mul(r.Size.Base().Number())
	}
	return r.Count
}

// perUnit is a unit price where the currency has been said: "1.0204 per kg".
func (s *savedWords) perUnit(r exact.Ratio, u exact.Unit) string {
	return PriceOf(r, u).ShownWithUnit(s.currency, s.show)
}

// shelf says what a shop asks, and what that is per unit.
func (s *savedWords) shelf(i int) {
	r := &s.g.Shelf[i]
	f, ok := s.g.FindFood(r.Item)
	if !ok {
		return
	}
	food, size, edible := &s.g.Foods[f], r.Size, s.g.Foods[f].EdiblePart()
	what := food.Title()
	if r.Form == pricing.Preserved {
		what, size, edible = what+", preserved", r.Makes, exact.Int(1)
	}
	if r.Terms == pricing.OnOffer {
		what += " on offer"
	}
	words := fmt.Sprintf("%s: %v of %s for %s", commas(r.Shop, r.Date.String()), r.Size, what, s.money(r.Price.Ratio()))
	if n, err := food.InBasis(size); err == nil && n.Sign() > 0 {
		words += ", " + s.perUnit(r.Price.Per(n.Mul(edible)), food.Basis)
		if r.Form != pricing.Preserved && food.HasRefuse() {
			words += " edible"
		}
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
	var from []string
	for _, p := range b.From {
		from = append(from, p.Quantity.String()+" "+itemTitle(s.g, p.Item))
	}
	words := fmt.Sprintf("Batch %s: %s %s from %s", b.ID, s.amount(cost.Made, food.Basis), food.Title(), listed(from))
	if lot := slices.IndexFunc(s.g.Lots, func(l ledger.Lot) bool { return int(l.Batch) == i }); lot >= 0 && cost.Made.Sign() > 0 {
		money := s.g.Lots[lot].Cost
		words += fmt.Sprintf(", %s, %s", s.money(money.Ratio()), s.perUnit(money.Per(cost.Made), food.Basis))
	}
	s.say("%s.", words)
}
