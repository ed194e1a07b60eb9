package report

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// labelsMost is how many labels are made at once.
const labelsMost = 20_000

// ErrManyLabels says that more labels are asked for than are made at once.
var ErrManyLabels = fmt.Errorf("these are more than %d labels", labelsMost)

// Labels makes a row for each container: what is in it, when it was packed,
// until when it is best, and how much water brings it back; see [figures.Labels].
// The error is [ErrManyLabels], or one of theirs.
func Labels(g *ledger.Ledger, q figures.LabelQuery) (told Told[[]Label], err error) {
	packs, err := figures.Labels(g, q)
	if err != nil {
		return told, err
	}
	told.Doc = newDoc(g, "Labels")
	d := &told.Doc
	t := &Table{Columns: labelColumns()}
	labelled := map[int]bool{}
	var moist []Remark
	for _, l := range packs {
		// Before its rows are made, so that a slip in a count takes no memory.
		if l.Last-l.First+1+len(t.Rows) > labelsMost {
			return Told[[]Label]{}, ErrManyLabels
		}
		for n := l.First; n <= l.Last; n++ {
			label := labelOf(g, l.Pack, n)
			told.Figures, t.Rows = append(told.Figures, label), append(t.Rows, label.row())
			labelled[g.Packs[l.Pack].Food] = true
		}
		if w, known := g.WeighingOf(l.Pack); known && w.Moist() && l.First <= l.Last {
			moist = append(moist, moistCaution(g, l.Pack, w))
		}
	}
	d.Fields = []Field{field("labels", "Labels", t)}
	d.Words = []string{"No pack is recorded for that."}
	if n := len(t.Rows); n > 0 {
		d.Words[0] = phrasingOf(&g.Settings).counted(n, "label") + ", one for each container."
	}
	d.Cautions = append(append(moist, cautions(g, func(f int) bool { return labelled[f] })...), Safety)
	return told, nil
}

// A Label is what stands on a container; what is not known is null.
type Label struct {
	Food                       *ledger.Food
	Pack, Place, Caution       string
	Number, Of                 int        // which container, of how many
	Packed, BestBy             exact.Date // local; BestBy NoDate: nobody knows
	Makes, Dry                 Value
	Water, WaterVolume, PerDry Value        // to add; PerDry to a part of what is dry, by weight
	WaterUnknown               []string     // why
	Absorbers                  exact.Number // pieces in the container; 0: none
}

func labelColumns() []Column {
	return []Column{
		{Key: "pack", Title: "pack"}, {Key: "container", Title: "container"}, {Key: "of", Title: "of"},
		{Key: "item", Title: "food"}, {Key: "name"},
		{Key: "date", Title: "packed", Rank: 1}, {Key: "best_by", Title: "best by"},
		{Key: "each", Title: "makes"}, {Key: "unit"},
		{Key: "dry", Title: "dry", Rank: 2}, {Key: "water", Title: "water to add"},
		{Key: "water_volume", Title: "as volume"}, {Key: "water_per_dry", Title: "water per dry", Rank: 4},
		{Key: "absorbers", Title: "absorbers inside", Rank: 3},
		{Key: "place", Title: "place", Rank: 5}, {Key: "caution", Title: ""}, {Key: NotesKey, Title: "notes"},
	}
}

// labelOf is the label of the n-th container of a pack.
func labelOf(g *ledger.Ledger, i, n int) Label {
	p, cost := g.Records.Packs.At(i), &g.Packs[i]
	food := &g.Foods[cost.Food]
	l := Label{Food: food, Pack: p.ID, Place: p.Place, Caution: labelCaution(g, i), Number: n, Of: p.Count,
		Packed: p.Date, BestBy: cost.BestBy, Makes: AmountOf(cost.Each, food.Basis).WithUnit()}
	weight, shared := figures.DryIn(g, i)
	if weight.Given() {
		l.Dry = AmountOf(weight.Base().Number(), exact.Kg).WithUnit().estimatedIf(shared)
	}
	if w, lack := waterToAdd(g, i); lack != "" {
		l.WaterUnknown = []string{"cover with water: how much is not known, since " + lack}
	} else {
		l.Water, l.WaterVolume = AmountOf(w.Kg, exact.Kg).WithUnit().estimatedIf(shared), AmountOf(w.Litres, exact.L).WithUnit().estimatedIf(shared)
		l.PerDry = QuotientOf(w.PerDry, 1).estimatedIf(shared)
	}
	l.Absorbers, _ = figures.AbsorbersIn(g, &p)
	return l
}

func (l *Label) row() Row {
	return Row{Notes: l.WaterUnknown, Cells: []Value{
		TextOf(l.Pack), CountOf(l.Number), CountOf(l.Of), foodValue(l.Food), TextOf(l.Food.Name),
		DateOf(l.Packed), DateOf(l.BestBy), l.Makes, UnitOf(l.Food.Basis),
		l.Dry, l.Water, l.WaterVolume, l.PerDry, PlainOf(l.Absorbers), TextOf(l.Place), TextOf(l.Caution),
	}}
}

// labelCaution is what must be on the label of a pack, in the few words that one
// has room for: that it is not dry, the food's own caution, that it turns.
func labelCaution(g *ledger.Ledger, i int) string {
	food := &g.Foods[g.Packs[i].Food]
	moist, fat := "", ""
	if w, known := g.WeighingOf(i); known && w.Moist() {
		moist = "NOT DRY, " + wetness(g.Settings.Show(), w, " water") + ": keep it cold, without absorber, and dry it on."
	}
	if FatCaution(food, g.Settings.Show()) != "" {
		fat = "Rich in fat: eat soon."
	}
	return strings.Join(filled(moist, food.Caution, fat), " ")
}

// waterToAdd is the water that the food in a container of a pack lacks, or what is
// missing to know it.
func waterToAdd(g *ledger.Ledger, pack int) (w figures.Rehydration, lack string) {
	id, food := g.Records.Packs.At(pack).ID, &g.Foods[g.Packs[pack].Food]
	switch w = figures.WaterToAdd(g, pack); w.Lack {
	case figures.NoDryWeight:
		lack = "pack " + id + " has no dry weight"
	case figures.NoPieceKg:
		lack = "what a piece of " + food.Title() + " weighs is not known"
	case figures.NoDensity:
		lack = "the density of " + food.Title() + " is not known"
	case figures.DryTooHeavy:
		lack = "the dry weight of pack " + id + " is above the weight of what it gives"
	}
	return w, lack
}
