package intake

import (
	"fmt"
	"slices"

	"putby/energy"
	"putby/pricing/exact"
)

// bands writes the schedules as bands: months that are alike together, hours
// that are alike in one band, past midnight where they meet.
func (u *urdbReader) bands() []energy.Band {
	var bands []energy.Band
	for _, months := range u.alikeMonths() {
		m := months[0]
		set := monthSet(months)
		weekday, weekend := u.schedule[0][m], u.schedule[1][m]
		if weekday == weekend {
			bands = append(bands, u.dayBands(weekday, set, 0, u.fuel[m])...)
			continue
		}
		bands = append(bands, u.dayBands(weekday, set, daysMonFri, u.fuel[m])...)
		bands = append(bands, u.dayBands(weekend, set, daysSatSun, u.fuel[m])...)
	}
	return bands
}

const (
	daysMonFri energy.DaySet = 0b0011111
	daysSatSun energy.DaySet = 0b1100000
)

// alikeMonths returns the months, from 0, in groups with the same prices.
func (u *urdbReader) alikeMonths() [][]int {
	var groups [][]int
	for m := range 12 {
		i := slices.IndexFunc(groups, func(g []int) bool {
			return u.schedule[0][g[0]] == u.schedule[0][m] && u.schedule[1][g[0]] == u.schedule[1][m] &&
				u.fuel[g[0]].Equal(u.fuel[m])
		})
		if i < 0 {
			groups = append(groups, nil)
			i = len(groups) - 1
		}
		groups[i] = append(groups[i], m)
	}
	return groups
}

func monthSet(months []int) (set energy.MonthSet) {
	if len(months) == 12 {
		return 0
	}
	for _, m := range months {
		set |= 1 << (m + 1)
	}
	return set
}

// dayBands returns the bands of one day's hours.
func (u *urdbReader) dayBands(hours [24]int, months energy.MonthSet, days energy.DaySet, fuel exact.Number) []energy.Band {
	var bands []energy.Band
	add := func(from, to, period int) {
		for _, t := range u.periods[period] {
			bands = append(bands, energy.Band{
				Months: months, Days: days,
				Start: energy.Clock(from * 60), End: energy.Clock(to * 60),
				Above: t.above, Rate: t.price.Add(fuel),
			})
		}
	}
	var starts []int // of hours that differ from the one before
	for h := range 24 {
		// Hour 0 is held against hour 23, so that a band may go on past midnight.
		if hours[h] != hours[(h+23)%24] {
			starts = append(starts, h)
		}
	}
	if len(starts) == 0 {
		add(0, 24, hours[0])
	}
	for i, from := range starts {
		to := starts[(i+1)%len(starts)]
		if to == 0 {
			to = 24
		}
		add(from, to, hours[from])
	}
	return bands
}

// leave notes once what the bands leave out.
func (u *urdbReader) leave(format string, args ...any) {
	if s := fmt.Sprintf(format, args...); !slices.Contains(u.rate.Left, s) {
		u.rate.Left = append(u.rate.Left, s)
	}
}

// urdbCharges are fields of the format that bands cannot express.
var urdbCharges = []struct{ field, unit, words string }{
	{"fixedchargefirstmeter", "fixedchargeunits", "a fixed charge, which a run does not cause"},
	{"fixedmonthlycharge", "", "a fixed monthly charge, which a run does not cause"},
	{"mincharge", "minchargeunits", "a minimum charge"},
	{"minmonthlycharge", "", "a minimum monthly charge"},
	{"annualmincharge", "", "a minimum yearly charge"},
	{"demandratestructure", "", "charges for the highest demand, by hours"},
	{"flatdemandstructure", "", "charges for the highest demand, by months"},
	{"coincidentratestructure", "", "charges for demand at the time of the network's peak"},
	{"demandreactivepowercharge", "", "a charge for reactive power"},
}

// readRest notes what the bands leave out.
func (u *urdbReader) readRest(n jsonNode) {
	for _, c := range urdbCharges {
		f := n.field(c.field)
		if !f.hasAmount() {
			continue
		}
		note := c.words + " (" + c.field
		if f.is(jsonNumber) {
			note += " " + f.said()
			if unit := n.field(c.unit).said(); unit != "" {
				note += " " + clean(unit)
			}
		}
		u.leave("%s)", note)
	}
	if u.rate.Until != exact.LastDate {
		u.leave("that it ends on %v (enddate): bands end when newer ones begin", u.rate.Until)
	}
	u.leave("holidays, which the format does not know: add bands for hol, and their dates, where they have other prices")
	for _, name := range []string{"basicinformationcomments", "energycomments"} {
		if s := n.field(name).said(); s != "" {
			u.rate.Comments = append(u.rate.Comments, clean(s))
		}
	}
}
