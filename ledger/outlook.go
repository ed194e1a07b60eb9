package ledger

import (
	"cmp"
	"sync"

	"putby/energy"
)

// This file looks at tariffs ahead: hours to come that have no price yet get a forecast.

// billing returns the tariff by which runs are billed: by its name, the settings'
// own for an empty name, or nil.
func (g *Ledger) billing(name string) *energy.Tariff {
	return g.tariffs[cmp.Or(name, g.Settings.Tariff)]
}

// Tariff returns a tariff by name, the settings' own for an empty name, or nil.
// It is for what may come: hours of the ledger's day, and later, whose price is
// not known have that of [Ledger.Forecast].
func (g *Ledger) Tariff(name string) *energy.Tariff {
	t := g.billing(name)
	if t == nil || !t.IsHourly() {
		return t
	}
	return g.ahead.of(g, t).tariff
}

// Forecast returns what the hourly prices of a tariff are from the ledger's day
// on, and which of them are estimates; false of a tariff that has no hourly
// band.
func (g *Ledger) Forecast(name string) (f energy.Forecast, hourly bool) {
	t := g.billing(name)
	if t == nil || !t.IsHourly() {
		return f, false
	}
	return g.ahead.of(g, t).forecast, true
}

// mostAhead is how many days ahead prices are estimated: a year, and the longest
// cycle.
const mostAhead = 366 + 32

// outlooks are tariffs as they may be, each worked out when it is first asked
// for.
type outlooks struct {
	mu    sync.Mutex
	known map[string]outlook
}

type outlook struct {
	tariff   *energy.Tariff
	forecast energy.Forecast
}

func newOutlooks() *outlooks { return &outlooks{known: map[string]outlook{}} }

func (o *outlooks) of(g *Ledger, t *energy.Tariff) outlook {
	o.mu.Lock()
	defer o.mu.Unlock()
	a, ok := o.known[t.Name()]
	if !ok {
		zone := g.Settings.Zone
		a.forecast = t.Prices().Forecast(g.AsOf.Midnight(zone), g.AsOf.AddDays(mostAhead).Midnight(zone), zone)
		a.tariff = t.WithPrices(a.forecast.Prices)
		o.known[t.Name()] = a
	}
	return a
}
