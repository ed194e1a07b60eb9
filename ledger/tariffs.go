package ledger

import (
	"errors"
	"slices"

	"putby/energy"
	"putby/pricing/exact"
)

// TariffNames returns the names of the tariffs that have bands, in the order
// of their first.
func (rec *Records) TariffNames() []string {
	var names []string
	seen := map[string]bool{}
	for i := range rec.Tariffs {
		if name := rec.Tariffs[i].Tariff; !seen[name] {
			seen[name] = true
			names = append(names, name)
		}
	}
	return names
}

// BuildTariff gathers the bands and holidays of a tariff. One without bands is
// [energy.ErrNoBands]; other faults of records have been found by reading
// them.
func (rec *Records) BuildTariff(name string) (*energy.Tariff, error) {
	var bands []energy.Band
	for i := range rec.Tariffs {
		if b := &rec.Tariffs[i]; b.Tariff == name {
			bands = append(bands, b.Band)
		}
	}
	var holidays []exact.Date
	for _, h := range rec.Holidays {
		if h.Tariff == name {
			holidays = append(holidays, h.Date)
		}
	}
	return energy.NewTariff(name, rec.Settings.Zone, bands, holidays)
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
	return cells
}

// buildTariffs builds every tariff.
func (g *Ledger) buildTariffs() {
	names := g.TariffNames()
	g.tariffs = make(map[string]*energy.Tariff, len(names))
	for _, name := range names {
		t, err := g.BuildTariff(name)
		if err != nil { // nearly cannot be: each band has been checked
			first := slices.IndexFunc(g.Tariffs, func(b Band) bool { return b.Tariff == name })
			line := g.Tariffs[first].Line
			if bad := (*energy.BandError)(nil); errors.As(err, &bad) {
				line = bad.Line
			}
			g.x.fail(place{TariffsFile, line}, "tariff", "putby tariff check shows its week", "tariff %s: %v", name, err)
			continue
		}
		g.tariffs[name] = t
	}
}
