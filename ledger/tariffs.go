package ledger

import (
	"errors"
	"time"

	"putby/energy"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// TariffNames returns the names of the tariffs that have bands, in the order
// of their first.
func (rec *Records) TariffNames() []string { return Tariffs.In(rec) }

// BuildTariff gathers the bands and holidays of a tariff. One without bands is
// [energy.ErrNoBands]; other faults of records have been found by reading
// them.
func (rec *Records) BuildTariff(name string) (*energy.Tariff, error) {
	return rec.gatherTariffs(name)[name].build(name, rec.Settings.Zone)
}

// ExportTariff is the tariff whose bands say what a kWh from the household's own
// roof would have earned if sold.
const ExportTariff = "export"

// RatesFile is the file of a tariff's hourly prices.
func RatesFile(tariff string) string { return RatesFolder + "/" + tariff + ".csv" }

// A tariff in the making.
type tariffParts struct {
	bands    []energy.Band
	holidays []exact.Date // days on which hol bands hold, in file order
	prices   *energy.Prices
}

func (p *tariffParts) build(name string, zone *time.Location) (*energy.Tariff, error) {
	if p == nil {
		return nil, energy.ErrNoBands
	}
	t, err := energy.NewTariff(name, zone, p.bands, p.holidays)
	if err != nil {
		return nil, err
	}
	return t.WithPrices(p.prices), nil
}

// gatherTariffs gathers the parts of the tariff called only, or without a name
// those of all.
func (rec *Records) gatherTariffs(only string) map[string]*tariffParts {
	parts := map[string]*tariffParts{}
	for i := range rec.Tariffs {
		b := &rec.Tariffs[i]
		if only != "" && b.Tariff != only {
			continue
		}
		if parts[b.Tariff] == nil {
			parts[b.Tariff] = &tariffParts{prices: rec.Rates[b.Tariff]}
		}
		parts[b.Tariff].bands = append(parts[b.Tariff].bands, b.Band)
	}
	for _, h := range rec.Holidays {
		if p := parts[h.Tariff]; p != nil {
			p.holidays = append(p.holidays, h.Date)
		}
	}
	return parts
}

// Cells writes a band as a row of tariffs.csv has it: reading them gives the
// band again. What holds always is blank.
func (b Band) Cells() map[string]string {
	cells := map[string]string{"tariff": b.Tariff, "rate": b.Rate.String()}
	put := func(column, text string, always bool) {
		if !always {
			cells[column] = text
		}
	}
	put("from", b.From.String(), b.From == exact.NoDate)
	put("months", b.Months.String(), b.Months == 0)
	put("days", b.Days.String(), b.Days == 0)
	put("start", b.Start.String(), b.Start == 0)
	put("end", b.End.String(), b.End == energy.DayEnd)
	put("above_kwh", b.Above.String(), b.Above.IsZero())
	put("tax", b.Tax.String(), b.Tax.IsZero())
	put("hourly", "yes", !b.Hourly)
	return cells
}

// buildTariffs builds every tariff.
func (g *joiner) buildTariffs() {
	parts := g.gatherTariffs("")
	g.tariffs = make(map[string]*energy.Tariff, len(parts))
	for _, name := range g.TariffNames() {
		t, err := parts[name].build(name, g.Settings.Zone)
		if err != nil { // nearly cannot be: each band has been checked
			line := parts[name].bands[0].Line
			if bad := (*energy.RowError)(nil); errors.As(err, &bad) {
				line = bad.Line
			}
			g.x.advise(place{TariffsFile, line}, "tariff", "look at its week", []advice.Doing{advice.Do(advice.CheckTariff, name)}, "tariff %s: %v", name, err)
			continue
		}
		g.tariffs[name] = t
	}
	if export := g.tariffs[ExportTariff]; export != nil {
		for name, t := range g.tariffs {
			g.tariffs[name] = t.WithExport(export)
		}
	}
}
