package entry

import (
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
)

// Known counts what is said of a run besides its name and its end.
func (in *FinishIn) Known() (n int) {
	for _, text := range []string{in.KWh, in.Hands, in.Tariff, in.Note} {
		n += min(len(text), 1)
	}
	for _, list := range [][]string{in.Phases, in.Wet, in.Dry, in.Lost, in.More} {
		n += len(list)
	}
	if in.AsUsual || in.Spoiled {
		n++
	}
	return n
}

// FinishAsks is what is worth asking for of a run that ends.
type FinishAsks struct {
	Run     string
	Metered bool           // what its electricity was is known
	Usual   string         // the run whose phases --as-usual takes, "" where there is none
	Foods   []ledger.Named // that were not weighed dry yet, or were not dry then
}

// AsksOf finds the run that ends, and what is worth asking for of it.
func (b *Base) AsksOf(run string) (FinishAsks, error) {
	g, err := b.Ledger()
	if err != nil {
		return FinishAsks{}, err
	}
	f := finishing{b: b, g: g, in: FinishIn{Run: run}}
	if err := f.find(); err != nil {
		return FinishAsks{}, err
	}
	asks := FinishAsks{Run: f.run.ID, Metered: f.metered() || len(f.sofar()) > 0}
	if model, ok := figures.Model(g, f.i); ok && f.run.Running {
		asks.Usual = g.Records.Runs[model].ID
	}
	for _, food := range f.foods() {
		loads := slices.DeleteFunc(f.loaded(), func(l ledger.Load) bool { return l.Item != food.ID })
		at, _ := g.FindFood(food.ID)
		w, _ := g.WeighingOfRun(f.i, at)
		if len(loads) == 1 && (!loads[0].Dry.Given() || w.Moist()) {
			asks.Foods = append(asks.Foods, food)
		}
	}
	return asks, nil
}
