package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// A Turning is what is in hand of a food that is to be dried, and when it turns:
// a start after that day is not for it.
type Turning struct {
	UseBy exact.Date   // the last day of what turns first; NoDate: nothing limits the starts
	Held  exact.Number // in the food's unit, of all that is as good
	Gone  exact.Number // what had turned already
}

// turningOf looks at the food in hand on a day. What has turned by then limits
// nothing, unless it is all there is: then no start is in time. Crumbs of under
// 1 % of a lot are no food to dry.
func turningOf(g *ledger.Ledger, food int, day exact.Date) Turning {
	t, past := Turning{}, exact.NoDate
	for _, p := range g.FreshParts(food) {
		switch by := p.UseBy; {
		case by == exact.NoDate || p.Crumb:
		case by < day:
			t.Gone, past = t.Gone.Add(p.Quantity), max(past, by)
		default:
			t.Held = t.Held.Add(p.Quantity)
			if t.UseBy == exact.NoDate {
				t.UseBy = by
			}
			t.UseBy = min(t.UseBy, by)
		}
	}
	if t.UseBy == exact.NoDate && t.Gone.Sign() > 0 {
		t.UseBy, t.Held, t.Gone = past, t.Gone, exact.Number{}
	}
	return t
}
