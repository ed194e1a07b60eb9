package entry

import (
	"fmt"

	"putby/ledger"
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
		p.over = append(p.over, pack)
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
