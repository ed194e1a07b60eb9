package figures

import (
	"slices"
	"time"

	"putby/pricing"
)

// HoursGuessed reports whether the cycles of any of some rows run in hours whose
// price is an estimate.
func (f *Facts) HoursGuessed(rows ...pricing.Row) bool {
	return slices.ContainsFunc(rows, func(r pricing.Row) bool {
		return f.Sale.Electricity != nil && r.Cycles > 0 && f.Price.guessed(f.Price.begins(0), f.Price.begins(r.Cycles-1))
	})
}

// guessed reports whether a price is an estimate between the start of one cycle
// and the end of one that begins later.
func (p *CyclePrice) guessed(first, last time.Time) bool {
	if p.Tariff == nil {
		return false
	}
	forecast, hourly := p.g.Forecast(p.Tariff.Name())
	return hourly && forecast.Guessed(first, last.Add(p.length))
}
