package report

import (
	"fmt"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
)

// guessed reports whether an hour's price of a start, of any of several, is an
// estimate.
func (w *whenAnswer) guessed(starts ...energy.Start) bool {
	f, hourly := w.g.Forecast(w.q.Tariff)
	return hourly && slices.ContainsFunc(starts, func(s energy.Start) bool { return f.Guessed(s.At, s.Finish) })
}

// withPrices tells machines of each start under hourly prices whether they are
// known or estimates.
func (w *whenAnswer) withPrices(t *Table) *Table {
	if _, hourly := w.g.Forecast(w.q.Tariff); !hourly {
		return t
	}
	t.Columns = append(t.Columns, Column{Key: "prices"})
	for i, s := range w.Best {
		by := "known"
		if w.guessed(s.Start) {
			by = "estimate"
		}
		t.Rows[i].Cells = append(t.Rows[i].Cells, TextOf(by))
	}
	return t
}

// pricesEnd is when the hourly prices that are known end, from the first start
// on; false of a tariff without such prices.
func (w *whenAnswer) pricesEnd() (end time.Time, hourly bool) {
	if _, hourly = w.g.Forecast(w.q.Tariff); !hourly {
		return end, false
	}
	return w.g.Rates[w.Tariff.Name()].Until(w.From).In(w.g.Settings.Zone), true
}

// hourlyRemark says of a tariff up to when its hourly prices are known, from an
// instant on, and what is taken beyond; nothing of one without such prices.
func hourlyRemark(g *ledger.Ledger, tariff string, from time.Time) string {
	f, hourly := g.Forecast(tariff)
	if !hourly {
		return ""
	}
	end, before := g.Rates[tariff].Until(from), ""
	if f.End.Before(from) {
		end, before = f.End, " that"
	}
	return fmt.Sprintf("Prices of tariff %s are known until %s. Beyond that an hour is taken to cost what the same hour of that weekday did on average in the 8 weeks before%s: an estimate (~).",
		tariff, phrasingOf(&g.Settings).moment(end.In(g.Settings.Zone)), before)
}
