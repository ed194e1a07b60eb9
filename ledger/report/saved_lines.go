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

// mostBought is how many lines of a receipt are read back.
const mostBought = 40

// Tab stands between the cells of a line that is a row of a table.
const Tab = "\t"

// readBack reads a receipt back as a receipt: each line with what it comes to and,
// of food and supplies, what one unit cost beside the usual price; then the sum.
// What a unit cost is in all, with its share of what is for the whole receipt.
func (s *savedWords) readBack(rows []int, sum exact.Money) {
	var list []int
	wide, shared := false, false
	for _, row := range rows {
		if kind := s.g.Receipts.At(row).Kind; kind != ledger.TotalLine {
			list, wide = append(list, row), wide || kind.Wide()
		}
	}
	for _, row := range list[:min(len(list), mostBought)] {
		r, unit := s.g.Receipts.At(row), s.unitWords(row)
		s.row(s.lineWords(&r), s.figure(r.Printed(s.currency.Minor()).Ratio()), unit)
		shared = shared || unit != ""
	}
	if more := len(list) - mostBought; more > 0 {
		s.row(fmt.Sprintf("... and %d more", more), "", "")
	}
	s.row("in all", s.figure(sum.Ratio()), "")
	if wide && shared {
		s.say("  Per unit with the share of what is for the whole receipt.")
	}
}

// row says a line of a receipt.
func (s *savedWords) row(what, amount, perUnit string) {
	s.say("%s", strings.TrimRight("  "+strings.Join([]string{what, amount, perUnit}, Tab), Tab))
}

// lineWords says what a line is for: "Oat milk, 2 x 1 L, offer 2 for 5.00".
func (s *savedWords) lineWords(r *ledger.ReceiptRow) string {
	title := r.Kind.String()
	if r.Kind.Bought() {
		title = ItemTitle(s.g, r.Item)
	}
	size, count := "", ""
	if r.Size.Sign() > 0 {
		size = s.quantity(r.Size)
	}
	several := !r.Count.Equal(exact.Int(1))
	switch {
	case r.Count.Sign() < 0:
		count = s.number(r.Count.Neg()) + " taken back"
	case several && size == "":
		count = s.number(r.Count) + " at " + s.figure(r.Price.Ratio())
	case several && r.Count.IsInt():
		count = s.number(r.Count) + " x " + size + " at " + s.figure(r.Price.Ratio())
	case several:
		count = s.quantity(r.Size.Times(r.Count)) + " at " + s.figure(r.Price.Ratio()) + " per " + strings.TrimPrefix(size, "1 ")
	default:
		count = size
	}
	note := ""
	// A note's parts stand between semicolons; the offer's may come first or later.
	if _, said, ok := strings.Cut("; "+r.Note(), "; offer "); ok {
		note = said
	}
	if strings.HasSuffix(r.Note(), "on offer") {
		note = "on offer"
	}
	if note == "" && !r.Discount().IsZero() {
		note = "less " + s.figure(r.Discount().Ratio())
	}
	if len(r.On()) > 0 {
		note = "on line " + strings.Join(r.On(), ", ")
	}
	return commas(title, count, note)
}

// unitWords says what a unit of what a line bought cost in all, and what the
// shelf asked before.
func (s *savedWords) unitWords(row int) string {
	r, cost := s.g.Receipts.At(row), s.g.Spends[row]
	lot := slices.IndexFunc(s.g.Lots, func(l ledger.Lot) bool { return int(l.Row) == row })
	f, ok := s.g.FindFood(r.Item)
	if each, several := figures.PieceCost(s.g, row).Get(); several {
		return s.figure(each) + " each"
	}
	if !ok || r.Kind != ledger.FoodLine || lot < 0 || s.g.Lots[lot].Quantity.Sign() <= 0 || cost.IsZero() {
		return ""
	}
	food := &s.g.Foods[f]
	words := s.perEdible(s.g.Lots[lot].UnitCost(), food)
	before := r.Date.AddDays(-1)
	if ask, ok := s.g.ShelfOf(f).At(before, pricing.Regular, pricing.Fresh); ok && ask.Date <= before {
		words += ", shelf " + PriceOf(ask.PerUnit, food.Basis).Shown(s.currency, s.show)
	}
	return words
}
