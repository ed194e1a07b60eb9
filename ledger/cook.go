package ledger

import (
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// A BatchCost is what the foods of a batch cost.
type BatchCost struct {
	Takes Range
	Parts []exact.Number // amounts in basis units, parallel to Batch.From
	Food  exact.Money    // of the foods it took
	Own   exact.Money    // its own cost
	Made  exact.Number   // in the basis unit of what it made
}

// cook draws a batch's foods and puts what it made into a new lot, which costs what
// they cost and what the work did. A lot that cannot be made leaves what is drawn on
// it without a fault of its own.
func (g *joiner) cook(i int32) {
	b := &g.Batches[i]
	at := place{BatchesFile, b.Line}
	cost := &g.Batch[i]
	cost.Takes.From = int32(len(g.Takes))
	for _, part := range b.From {
		if f, ok := g.x.food(at, "from", part.Item); ok {
			g.cookPart(b, cost, f, part.Quantity)
		}
	}
	cost.Takes.To = int32(len(g.Takes))
	cost.Own = g.post(b.Cost)
	g.Flows.BatchCost = g.Flows.BatchCost.Add(cost.Own)
	f, ok := g.x.food(at, ItemColumn, b.Item)
	if !ok {
		return
	}
	if cost.Made, ok = g.x.amount(&g.Foods[f], b.Quantity, at, "quantity"); !ok {
		g.x.unread.noLot(b.Item)
		return
	}
	g.put(&g.foods[f], Lot{
		Row: -1, Batch: i, Date: b.Date, Quantity: cost.Made, Cost: cost.Food.Add(cost.Own), lotRest: g.noRest,
	})
}

// cookPart draws one food of a batch.
func (g *joiner) cookPart(b *Batch, cost *BatchCost, food int32, amount exact.Quantity) {
	at, f := place{BatchesFile, b.Line}, &g.Foods[food]
	q, ok := g.x.amount(f, amount, at, "from")
	if !ok {
		return
	}
	taken, money := g.takeForKitchen(int(food), q)
	g.short(f, q, taken, at, "from", "batch "+b.ID, b.Date)
	cost.Parts, cost.Food = append(cost.Parts, q), cost.Food.Add(money)
}

// short notes that lots do not cover what a record takes.
func (g *joiner) short(f *Food, want, taken exact.Number, at place, field, who string, day exact.Date) {
	if !taken.Less(want) || g.x.unread.lots(f.ID) {
		return
	}
	show := g.Settings.Show()
	hint := "is a receipt missing, or dated too late? garden produce and gifts are receipts at price 0"
	if f.HasRefuse() {
		hint = f.Title() + " counts without refuse, " + show.Locale.Percent(f.Refuse.String()) + " of what is bought: write what is left to eat; " + hint
	}
	amounts := show.Amounts(f.Basis, want, taken, want.Sub(taken))
	if taken.IsZero() {
		g.x.advise(at, field, hint, []advice.Doing{advice.Do(advice.AddReceipt)}, "%s takes %s of %s on %s, but none is in hand", who, amounts[0], f.Title(), show.Date(day))
		return
	}
	g.x.advise(at, field, hint, []advice.Doing{advice.Do(advice.AddReceipt)}, "%s takes %s of %s on %s, but only %s is in hand: %s missing", who, amounts[0], f.Title(), show.Date(day), amounts[1], amounts[2])
}
