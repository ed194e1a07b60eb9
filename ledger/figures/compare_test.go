package figures_test

import (
	"slices"
	"testing"

	"putby/ledger/figures"
)

// What is left out is told: a run that awaits packing, and a food of which nothing but
// losses is known, which a food without a loss is not.
func TestCompareTellsWhatItLeavesOut(t *testing.T) {
	awaits := figures.Note{Kind: figures.AwaitsPacking, Food: 1, Run: 0}
	losses := figures.Note{Kind: figures.OnlyLosses, Food: 1}
	for _, c := range []struct {
		loads string
		want  []figures.Note
	}{
		{"run,item,quantity,lost\nr1,plums,4 kg,\n", []figures.Note{awaits}},
		{"run,item,quantity,lost\nr1,plums,4 kg,1 kg\n", []figures.Note{awaits, losses}},
	} {
		g := kitchenWith(t, "2025-06-11", map[string]string{"packs.csv": "", "loads.csv": c.loads})
		r, err := figures.Compare(g, figures.CompareQuery{})
		if err != nil || len(r.Foods) != 0 || !slices.Equal(r.Notes, c.want) {
			t.Errorf("%+v (%v), want the notes %+v", r, err, c.want)
		}
	}
}
