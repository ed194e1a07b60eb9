package entry

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// mostMade is how much of what can have come out of a run may be packed before
// somebody is asked: 130 %.
var mostMade = exact.New(13, 1)

// weigh holds a row against what can have come out of its run, and notes the
// supplies that it takes.
func (p *packing) weigh(r *packRow) {
	pack := p.rec.Packs.At(p.rec.Packs.Len() - 1)
	for _, u := range pack.With {
		if s, ok := p.g.FindSupply(u.Supply); ok {
			p.need[s] = p.need[s].Add(u.Number.Mul(exact.Int(int64(pack.Count))))
		}
	}
	p.noteDry(r, &pack)
	if r.run < 0 || r.item < 0 {
		return
	}
	each, err := p.g.Foods[r.food].InBasis(pack.Each)
	if err != nil {
		return // the saving says why
	}
	at := [2]int{r.run, r.item}
	p.made[at] = p.made[at].Add(each.Mul(exact.Int(int64(pack.Count))))
	item := &p.g.Runs[r.run].Items[r.item]
	made := item.Made.Add(p.made[at])
	if item.Usual.Times(mostMade).Cmp(exact.RatioOf(made)) < 0 {
		f := &p.g.Foods[r.food]
		amounts := p.g.Settings.Show().Amounts(f.Basis, made, item.Usual.Round(exact.QuantityPlaces, exact.HalfEven))
		p.draft.Odd = append(p.draft.Odd, fmt.Sprintf("Look again: the packs of %s from run %s would make %s together, and about %s can have come out of it.", f.Title(), p.g.Records.Runs[r.run].ID, amounts[0], amounts[1]))
	}
}

// noteDry keeps the name of a pack that is not known to be moist: it may be
// closed, and labelled.
func (p *packing) noteDry(r *packRow, pack *ledger.Pack) {
	if food, ok := p.g.FindFood(r.cells["item"]); ok {
		if each, err := p.g.Foods[food].InBasis(pack.Each); err == nil {
			if w, known := p.g.WeighingOfNew(pack, food, each); known && w.Moist() {
				return
			}
		}
	}
	p.dry = append(p.dry, pack.ID)
}

// packArgs are the words of putby pack add that pack what is left of a run as its
// foods are usually packed.
func (b *Base) packArgs(g *ledger.Ledger, run int) string {
	var list, rest []string
	for i := range g.Runs[run].Items {
		item := &g.Runs[run].Items[i]
		text := `"` + b.packArg(g, item) + `"`
		if list = append(list, text); len(item.Packs) == 0 || item.Short {
			rest = append(rest, text)
		}
	}
	if len(list) == 1 && lastPack(b.Records, g.Foods[g.Runs[run].Items[0].Food].ID) != nil {
		words := strings.Fields(strings.Trim(list[0], `"`))
		return words[1] // of the only food, each as last time
	}
	if len(rest) > 0 {
		list = rest
	}
	return strings.Join(list, " ")
}

// packArg is one food of a run: chives 2 x 90 g. One that was never packed is in
// one container, in the unit in which the household is shown amounts.
func (b *Base) packArg(g *ledger.Ledger, item *ledger.ItemCost) string {
	food, left := &g.Foods[item.Food], item.Usual
	if len(item.Packs) == 0 || item.Short {
		left = left.Sub(exact.RatioOf(item.Made))
	}
	unit, count := g.Settings.Show().In(food.Basis), exact.Int(1)
	each := unit.Of(left.Quo(exact.RatioOf(unit.Factor())).Round(ledger.ShownPlaces, exact.Down))
	if last := lastPack(b.Records, food.ID); last != nil {
		each = last.Each
	}
	if n, err := food.InBasis(each); err == nil && n.Sign() > 0 {
		count = left.Quo(exact.RatioOf(n)).Round(0, exact.HalfAway).Max(count)
	}
	return fmt.Sprintf("%s %v x %s", food.ID, count, typedAmount(g.Settings.Locale, each.String()))
}

// lastPack is the pack that says how a food is packed, or nil.
func lastPack(rec *ledger.Records, food string) *ledger.Pack {
	i := figures.LastPack(rec, food, nil)
	if i < 0 {
		return nil
	}
	p := rec.Packs.At(i)
	return &p
}
