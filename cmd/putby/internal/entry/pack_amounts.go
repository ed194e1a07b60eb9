package entry

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// mostMade is how much of what can have come out of a run may be packed before
// somebody is asked: 130 %.
var mostMade = exact.New(13, 1)

// weigh holds the row added last against what can have come out of its run, and notes the
// supplies that it takes.
func (p *packing) weigh() {
	pack := p.rec.Packs.At(p.rec.Packs.Len() - 1)
	for _, u := range pack.With {
		if s, ok := p.g.FindSupply(u.Supply); ok {
			p.need[s] = p.need[s].Add(u.Number.Mul(exact.Int(int64(pack.Count))))
		}
	}
	p.noteDry(&pack)
	if words := report.Overfull(p.g, &pack); words != "" {
		p.draft.Odd = append(p.draft.Odd, words)
	}
	at, made, ok := madeOf(p.g, &pack)
	if !ok {
		return // opening stock, or the saving says why
	}
	p.made[at] = p.made[at].Add(made)
	if words := tooMuchMade(p.g, at, p.made[at]); words != "" {
		p.over = append(p.over, pack)
		p.draft.Odd = append(p.draft.Odd, words)
	}
}

// tooMuchMade says that with so much more the packs of a run's item would make more than
// can have come out of it; "" where they would not.
func tooMuchMade(g *ledger.Ledger, at [2]int, more exact.Number) string {
	item := &g.Runs[at[0]].Items[at[1]]
	made := item.Made.Add(more)
	if item.Usual.Times(mostMade).Cmp(exact.RatioOf(made)) >= 0 {
		return ""
	}
	f := &g.Foods[item.Food]
	amounts := g.Settings.Show().Amounts(f.Basis, made, item.Usual.Round(exact.QuantityPlaces, exact.HalfEven))
	return fmt.Sprintf("the packs of %s from run %s would make %s together, and about %s can have come out of it", f.Title(), g.Records.Runs[at[0]].ID, amounts[0], amounts[1])
}

// packedTooMuch tells of runs of which packs, as they are changed, would make more than
// can have come out, and more than they made before.
func packedTooMuch(b *Base, was, now *ledger.Records) (odd []string) {
	if now.Packs.Len() == 0 {
		return nil
	}
	g, err := b.Hand()
	if err != nil {
		return nil // the saving says why
	}
	more := map[[2]int]exact.Number{}
	var order [][2]int
	for i := range now.Packs.Len() {
		// Each pack counts less what it made before, so that only what the change adds is told.
		for n, rows := range []*ledger.Records{was, now} {
			p := rows.Packs.At(i)
			at, made, ok := madeOf(g, &p)
			if !ok {
				continue
			}
			if _, seen := more[at]; !seen {
				order = append(order, at)
			}
			if n == 0 {
				made = made.Neg()
			}
			more[at] = more[at].Add(made)
		}
	}
	for _, at := range order {
		if words := tooMuchMade(g, at, more[at]); words != "" && more[at].Sign() > 0 {
			odd = append(odd, words)
		}
	}
	return odd
}

// madeOf is what all containers of a pack make, and the run and its item of which
// they are.
func madeOf(g *ledger.Ledger, p *ledger.Pack) (at [2]int, made exact.Number, ok bool) {
	run, found := g.FindRun(p.Run)
	food, known := g.FindFood(p.Item)
	if !found || !known {
		return at, made, false
	}
	item := slices.IndexFunc(g.Runs[run].Items, func(item ledger.ItemCost) bool { return item.Food == food })
	each, err := g.Foods[food].InBasis(p.Each)
	return [2]int{run, item}, each.Mul(exact.Int(int64(p.Count))), item >= 0 && err == nil
}

// noteDry keeps the name of a pack that is not known to be moist: it may be
// closed, and labelled.
func (p *packing) noteDry(pack *ledger.Pack) {
	if food, ok := p.g.FindFood(pack.Item); ok {
		if each, err := p.g.Foods[food].InBasis(pack.Each); err == nil {
			if w, known := p.g.WeighingOfNew(pack, food, each); known && w.Moist() {
				return
			}
		}
	}
	p.dry = append(p.dry, pack.ID)
}
