package report

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A LabelQuery says which containers to label: those of the packs named, in
// that order; without names those packed from From to To; without either those
// of the last packing day.
type LabelQuery struct {
	figures.Query
	Packs []string
	Left  bool // only containers that are still in store
}

// labelsMost is how many labels are made at once.
const labelsMost = 20_000

// litresPerKg is for water, so that a kilogram of it is a litre: common
// practice in a kitchen, and within 0.3 % below 25 °C (memory).
var litresPerKg = exact.Int(1)

// Labels makes a row for each container: what is in it, when it was packed,
// until when it is best, and how much water brings it back: the mass of what
// it gives, less its dry weight. The error is a [*QueryError] or an
// [*figures.UnknownError].
func Labels(g *ledger.Ledger, q LabelQuery) (Doc, error) {
	scope, err := q.In(g)
	if err != nil {
		return Doc{}, asked(g, err)
	}
	packs, err := q.packs(g, scope)
	if err != nil {
		return Doc{}, err
	}
	d := newDoc(g, "Labels")
	t := &Table{Columns: labelColumns()}
	labelled := map[int]bool{}
	var moist []string
	for _, i := range packs {
		p := &g.Packs[i]
		first := 1
		if q.Left {
			first += int(p.Taken) // draws take containers in order
		}
		count := g.Records.Packs[i].Count
		if count-first+1+len(t.Rows) > labelsMost {
			return Doc{}, &QueryError{"from", fmt.Sprintf("these are more than %d labels", labelsMost), "name fewer packs, or give --from and --to"}
		}
		for n := first; n <= count; n++ {
			t.Rows = append(t.Rows, labelRow(g, i, n))
			labelled[p.Food] = true
		}
		if w, known := g.WeighingOf(i); known && w.Moist() && first <= count {
			moist = append(moist, moistCaution(g, i, w))
		}
	}
	d.Fields = []Field{field("labels", "Labels", t)}
	d.Words = []string{"No pack is recorded for that."}
	if n := len(t.Rows); n > 0 {
		d.Words[0] = counted(n, "label") + ", one for each container."
	}
	d.Notes = append(moist, cautions(g, func(f int) bool { return labelled[f] })...)
	d.Notes = append(d.Notes, SafetyLine)
	return d, nil
}

// packs returns the positions of the packs to label.
func (q LabelQuery) packs(g *ledger.Ledger, s figures.Scope) (list []int, err error) {
	if len(q.Packs) > 0 {
		for _, id := range q.Packs {
			i, ok := g.FindPack(id)
			if !ok {
				return nil, &figures.UnknownError{What: "pack", Name: id}
			}
			list = append(list, i)
		}
		return list, nil
	}
	if q.From == exact.NoDate && q.To == exact.NoDate {
		s.First = lastPacking(g, s)
	}
	for i := range g.Packs {
		if labels(g, s, i) {
			list = append(list, i)
		}
	}
	return list, nil
}

// labels reports whether a pack is of the dates and the food that are asked for.
func labels(g *ledger.Ledger, s figures.Scope, pack int) bool {
	p := &g.Packs[pack]
	return p.Done && s.Wants(p.Food) && s.Covers(g.Records.Packs[pack].Date)
}

// lastPacking is the last day on which anything that is asked for was packed.
func lastPacking(g *ledger.Ledger, s figures.Scope) exact.Date {
	last := exact.NoDate
	for i := range g.Packs {
		if labels(g, s, i) {
			last = max(last, g.Records.Packs[i].Date)
		}
	}
	return last
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

// labelRow is the label of the n-th container of a pack.
func labelRow(g *ledger.Ledger, i, n int) Row {
	p, cost := &g.Records.Packs[i], &g.Packs[i]
	food := &g.Foods[cost.Food]
	dry, water, volume, perDry := None, None, None, None
	weight, shared := dryIn(g, i)
	if weight.Given() {
		dry = AmountOf(weight.Base().Number(), exact.Kg).WithUnit().estimatedIf(shared)
	}
	var notes []string
	if kg, _, lack := waterToAdd(g, i); lack != "" {
		notes = []string{"cover with water: how much is not known, since " + lack}
	} else {
		water, volume = AmountOf(kg, exact.Kg).WithUnit().estimatedIf(shared), AmountOf(kg.Mul(litresPerKg), exact.L).WithUnit().estimatedIf(shared)
		perDry = QuotientOf(kg.Over(weight.Base().Number()), 1).estimatedIf(shared)
	}
	absorbers, _ := absorbersIn(g, p)
	return Row{Notes: notes, Cells: []Value{
		TextOf(p.ID), CountOf(n), CountOf(p.Count), foodValue(food), TextOf(food.Name),
		DateOf(p.Date), DateOf(cost.BestBy), AmountOf(cost.Each, food.Basis).WithUnit(), UnitOf(food.Basis),
		dry, water, volume, perDry, PlainOf(absorbers), TextOf(p.Place), TextOf(labelCaution(g, i)),
	}}
}

// labelCaution is what must be on the label of a pack, in the few words that one
// has room for: that it is not dry, the food's own caution, that it turns.
func labelCaution(g *ledger.Ledger, i int) string {
	food := &g.Foods[g.Packs[i].Food]
	var words []string
	if w, known := g.WeighingOf(i); known && w.Moist() {
		words = append(words, "NOT DRY, "+phrasingOf(&g.Settings).percents(w.Percent())+" water: keep it cold, without absorber, and dry it on.")
	}
	if food.Caution != "" {
		words = append(words, food.Caution)
	}
	if FatCaution(food) != "" {
		words = append(words, "Rich in fat: eat soon.")
	}
	return strings.Join(words, " ")
}

// dryIn is the weight of the dry food in a container of a pack: as recorded,
// else its part of the weights of its run, as they were before and after. It is
// not given where neither is known.
func dryIn(g *ledger.Ledger, pack int) (dry exact.Quantity, shared bool) {
	p, cost := &g.Records.Packs[pack], &g.Packs[pack]
	if p.Dry.Given() {
		return p.Dry, false
	}
	run, ok := g.FindRun(p.Run)
	if !ok {
		return dry, false
	}
	w, weighed := g.WeightsOfRun(run, cost.Food)
	mass, known := g.Foods[cost.Food].Mass(cost.Each)
	if !weighed || !known || w.Wet.Sign() <= 0 {
		return dry, false
	}
	grams := w.Dry.Over(w.Wet).Times(mass.Mul(exact.Int(1000))).Round(0, exact.HalfEven)
	if grams.Sign() <= 0 {
		return dry, false
	}
	return exact.G.Of(grams), true
}

// waterToAdd is the kg of water that the food in a container of a pack lacks,
// and whether that is known by its run's weights alone, or what is missing to
// know it.
func waterToAdd(g *ledger.Ledger, pack int) (water exact.Number, shared bool, lack string) {
	p, food, each := &g.Records.Packs[pack], &g.Foods[g.Packs[pack].Food], g.Packs[pack].Each
	dry, shared := dryIn(g, pack)
	if !dry.Given() || dry.Sign() <= 0 {
		return water, false, "pack " + p.ID + " has no dry weight"
	}
	mass, ok := food.Mass(each)
	if !ok {
		if food.Basis == exact.Ea {
			return water, false, "what a piece of " + food.Title() + " weighs is not known"
		}
		return water, false, "the density of " + food.Title() + " is not known"
	}
	if water = mass.Round(exact.QuantityPlaces, exact.HalfEven).Sub(dry.Base().Number()); water.Sign() < 0 {
		return water, false, "the dry weight of pack " + p.ID + " is above the weight of what it gives"
	}
	return water, shared, ""
}
