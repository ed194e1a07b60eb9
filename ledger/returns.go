package ledger

import "putby/pricing/exact"

// takeBack posts that a shop took back pieces of a supply: as many uses as new
// ones have, of the newest lots first, since what goes back is what was bought
// last and not used; and all uses where all pieces go. What was given for them
// is spent less. Where that is not what they still cost, the difference is drawn.
func (g *joiner) takeBack(i int32, s int) {
	r, supply, stock := g.Receipts.At(int(i)), &g.Supplies[s], &g.supplies[s]
	k, owned := r.Pieces().Neg(), g.Pieces(s).Owned
	if owned.Cmp(exact.RatioOf(k)) < 0 {
		if !g.x.unread.lots(r.Item) {
			show := g.Settings.Show()
			g.x.fail(place{ReceiptsFile, r.Line}, "count", "is the receipt missing on which they were bought, or dated too late?",
				"%s of %s are taken back on %s, but only %s are owned by then", show.Number(k), r.Item, show.Date(r.Date), show.Number(owned.Round(3, exact.HalfAway)))
		}
		return
	}
	m := Move{Date: r.Date, Reason: Returned, Draw: -1, Count: -1, Row: int(i), Pack: -1, Food: -1, Supply: s, Quantity: k}
	rest := supply.uses(k)
	// Jars that have served have fewer uses left than as many new ones.
	if owned.Equal(exact.RatioOf(k)) {
		rest = stock.Left
	}
	var cost exact.Money
	m.Takes.From = int32(len(g.Takes))
	for n := len(stock.lots) - 1; n >= 0 && rest.Sign() > 0; n-- {
		taken, money := g.takeFrom(stock, stock.lots[n], rest)
		rest, cost = rest.Sub(taken), cost.Add(money)
	}
	m.Takes.To = int32(len(g.Takes))
	if supply.ServesAgain() {
		g.pieces[s].owned = g.pieces[s].owned.Sub(k)
	}
	spend := g.Spends[i] // below 0: what was given back
	m.Cost = cost.Add(spend)
	g.Flows.Bought = g.Flows.Bought.Add(spend)
	g.Flows.SupplyDraws = g.Flows.SupplyDraws.Add(m.Cost)
	if !m.Cost.IsZero() {
		g.spendNotes[i] = append(g.spendNotes[i], Note{Kind: TakenBackFor, At: s, Less: m.Cost})
	}
	g.move(m)
}
