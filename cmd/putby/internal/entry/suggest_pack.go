package entry

import (
	"maps"
	"slices"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// suggestPack offers what [Pack] takes where nobody says it: the run that awaits
// packing, its food, and containers like those of the food's last pack, as many as are
// left to fill.
func (b *Base) suggestPack(o offer, cells map[string]string, day exact.Date) (why string) {
	g, err := b.Ledger()
	if err != nil {
		return "" // the saving says what is wrong
	}
	p := packing{b: b, g: g, rec: b.Records, common: cells, draft: &Draft{}}
	r := &packRow{cells: map[string]string{}, run: -1, item: -1}
	maps.Copy(r.cells, cells)
	if p.findItem(r) == nil && p.findRun(r) != nil && r.run >= 0 { // it has several foods: the first of them
		if left := p.unpacked(r.run); r.cells["item"] == "" && len(left) > 0 && g.Records.Runs[r.run].Good() {
			r.cells["item"] = left[0]
			_ = p.itemOf(r) // of a run's own food
		}
	}
	o["run"], o["item"] = r.cells["run"], r.cells["item"]
	why = p.like(o, r, day)
	if r.item < 0 {
		return why
	}
	item := &g.Runs[r.run].Items[r.item]
	each, _ := exact.ParseQuantity(given(cells, o, "each"))
	amount, err := g.Foods[r.food].InBasis(each)
	if err != nil || amount.Sign() <= 0 {
		return why
	}
	if slices.Contains(p.unpacked(r.run), o["item"]) { // else how much is left nobody can say
		if n := figures.ContainersLeft(item, amount); n.Sign() > 0 {
			o["count"] = n.String()
		}
	}
	if dry, ok := figures.DryOfRun(g, r.run, r.food, amount); ok {
		o["dry"] = dry.String()
	}
	return why
}

// like offers the next identifier, and containers like those of the food's last pack,
// which why names.
func (p *packing) like(o offer, r *packRow, day exact.Date) (why string) {
	o["pack"] = NextPack(p.rec, r.cells["run"], day)
	i := figures.LastPack(p.rec, r.cells["item"], nil)
	if i < 0 {
		return ""
	}
	last := p.rec.Packs.At(i)
	o["each"], o["with"], o["place"] = last.Each.String(), usesText(last.With), last.Place
	if last.Dry.Given() {
		o["dry"] = last.Dry.String()
	}
	return "as pack " + last.ID
}
