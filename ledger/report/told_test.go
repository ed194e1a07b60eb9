package report_test

import (
	"testing"

	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
)

// A food's caution is told wherever the food is reported, by itself or with what holds it; and
// where it is not, it is not told.
func TestCautionIsToldWhereverTheFoodIs(t *testing.T) {
	g := kilnWith(t, "")
	of := func(item string) figures.Query { return figures.Query{Item: item} }
	for name, doc := range map[string]func(item, run, pack string) (report.Doc, error){
		"cost": func(item, _, _ string) (report.Doc, error) {
			return report.Cost(g, figures.CostQuery{Query: of(item)}, false)
		},
		"compare": func(item, _, _ string) (report.Doc, error) {
			return report.Compare(g, figures.CompareQuery{Query: of(item)})
		},
		"on hand": func(item, _, _ string) (report.Doc, error) {
			return question.OnHand(g, figures.OnHandQuery{Query: of(item)})
		},
		"card": func(item, _, _ string) (report.Doc, error) {
			t, err := question.Card(g, figures.CardQuery{Item: item})
			return t.Doc, err
		},
		"a run":         func(_, run, _ string) (report.Doc, error) { return report.Explain(g, run) },
		"a pack":        func(_, _, pack string) (report.Doc, error) { return report.Explain(g, pack) },
		"a run traced":  func(_, run, _ string) (report.Doc, error) { return question.Trace(g, figures.TraceQuery{Name: run}) },
		"a pack traced": func(_, _, pack string) (report.Doc, error) { return question.Trace(g, figures.TraceQuery{Name: pack}) },
	} {
		for _, c := range []struct {
			item, run, pack string
			told            bool
		}{{"stock", "k1", "p1", true}, {"peas", "k5", "p5", false}} {
			d, err := doc(c.item, c.run, c.pack)
			if err != nil {
				t.Errorf("%s of %s: %v", name, c.item, err)
				continue
			}
			if noted(d.Foot(), "boil it") != c.told {
				t.Errorf("%s of %s tells the caution: %t; %q", name, c.item, !c.told, d.Foot())
			}
		}
	}
}

// What an answer takes for want of a record is told beside it: that all comes back that is dried
// where nothing of it was packed; and a way that has no price is named.
func TestWorthTellsWhatItTakes(t *testing.T) {
	marrow := facts{"price": "2", "size": "1 L", "limit": "5", "shelf": "9", "each": "1 L", "pack-cost": "0"}
	g := kilnWith(t, "")
	for _, c := range []struct {
		item             string
		q                facts
		taken, preserved bool
	}{
		{"marrow", marrow, true, true},
		{"marrow", marrow.with("yield", "0.9"), false, true},
		{"stock", offer, false, false}, // packed, and with a price of its preserved form
	} {
		d := ask(t, g, c.item, c.q)
		if noted(d.Notes, "is packed yet: all that is dried is taken to come back") != c.taken {
			t.Errorf("%s with %v: %q", c.item, c.q, d.Notes)
		}
		if noted(d.Notes, "preserved form of") != c.preserved {
			t.Errorf("%s with %v: a way without a price is named: %t; %q", c.item, c.q, !c.preserved, d.Notes)
		}
	}
}
