package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A LabelQuery says which containers to label: those of the packs named, in
// that order; without names those packed from From to To; without either those
// of the last packing day.
type LabelQuery struct {
	Query
	Packs []string
	Left  bool // only containers that are still in store
}

// Labelled are the containers of a pack (a position in Packs) to label: from First to
// Last, numbered from 1. First is above Last where none is left.
type Labelled struct{ Pack, First, Last int }

// Labels finds the containers to label. The error is an [*UnknownError] or a
// [*FactError].
func Labels(g *ledger.Ledger, q LabelQuery) (list []Labelled, err error) {
	scope, err := q.In(g)
	if err != nil {
		return nil, err
	}
	packs, err := q.packs(g, scope)
	for _, i := range packs {
		first := 1
		if q.Left {
			first += int(g.Packs[i].Taken) // draws take containers in order
		}
		list = append(list, Labelled{i, first, g.Records.Packs.At(i).Count})
	}
	return list, err
}

// packs returns the positions of the packs to label.
func (q LabelQuery) packs(g *ledger.Ledger, s Scope) (list []int, err error) {
	for _, id := range q.Packs {
		i, ok := g.FindPack(id)
		if !ok {
			return nil, unknown(ledger.Packs, id)
		}
		list = append(list, i)
	}
	if len(q.Packs) > 0 {
		return list, nil
	}
	last := exact.NoDate
	for i := range g.Packs {
		if day := g.PackDate(i); g.Packs[i].Done && s.Wants(g.Packs[i].Food) && s.Covers(day) {
			list, last = append(list, i), max(last, day)
		}
	}
	if q.From == exact.NoDate && q.To == exact.NoDate {
		list = slices.DeleteFunc(list, func(i int) bool { return g.PackDate(i) < last })
	}
	return list, nil
}
