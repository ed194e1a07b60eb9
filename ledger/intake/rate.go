package intake

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A URDBRate is a rate of the OpenEI Utility Rate Database, an open format of
// US electricity tariffs, as far as bands can express it. Its field names are
// those of the database's JSON.
type URDBRate struct {
	Label    string // the database's identifier
	Utility  string
	Name     string
	From     exact.Date    // startdate: first date, or exact.NoDate; the bands do not carry it
	Until    exact.Date    // enddate: last date, or exact.LastDate
	Bands    []energy.Band // US dollars per kWh, without tax
	Left     []string      // what the file has that bands cannot express, in words
	Comments []string      // what the file says about energy prices, in words
}

// IsURDB tells a rate of the database from prices by the hour.
func IsURDB(data string) bool { return strings.Contains(data, `"energyratestructure"`) }

// maxURDB is the most bytes that are read of a file.
const maxURDB = 8 << 20

// ReadURDB reads a rate from JSON: one rate, or a reply of the database with
// its rates under "items", of which label picks one; a blank label is for a
// file that has only one. Faults are [ledger.Faults], or a [*ledger.Fault] where the
// text is not JSON.
//
// Each price is rate + adj of a tier, and the month's fuel adjustment; the max
// of a tier, in kWh of the month, is where the next one starts. A weekend is
// Saturday and Sunday, since the format knows no holidays. Numbers are taken
// digit by digit; one with an exponent is a fault.
func ReadURDB(r io.Reader, label string) (URDBRate, error) {
	data, err := readAll(r, maxURDB)
	if err != nil {
		return URDBRate{}, err
	}
	root, err := readJSON([]byte(data))
	if err != nil {
		return URDBRate{}, err
	}
	u := &urdbReader{}
	rate := u.pick(jsonNode{"$", root}, label)
	if len(u.faults) == 0 {
		u.read(rate)
	}
	if len(u.faults) > 0 {
		return URDBRate{}, u.faults
	}
	return u.rate, nil
}

// A urdbReader gathers the faults of a file while it reads.
type urdbReader struct {
	rate   URDBRate
	faults ledger.Faults

	periods  [][]tier
	fuel     [12]exact.Number // money per kWh, by month
	schedule [2][12][24]int   // weekdays, weekends: places in periods
}

// A tier is a price, without the fuel adjustment, and the use above which it holds, 0 of the
// first.
type tier struct{ above, price exact.Number } // kWh of a month; US dollars per kWh

func (u *urdbReader) fail(n jsonNode, format string, args ...any) {
	if len(u.faults) < maxFaults {
		u.faults = append(u.faults, ledger.Fault{Path: n.path, What: fmt.Sprintf(format, args...)})
	}
}

// pick finds the rate in a file.
func (u *urdbReader) pick(root jsonNode, label string) jsonNode {
	list := root
	if items := root.field("items"); items.given() {
		list = items
	}
	rates, isList := list.list()
	if !isList {
		rates = []jsonNode{root}
	}
	if label != "" {
		rates = slices.DeleteFunc(rates, func(n jsonNode) bool { return n.field("label").said() != label })
	}
	switch {
	case len(rates) == 0 && label != "":
		u.fail(list, "no rate has the label %s", exact.Quote(label))
	case len(rates) == 0:
		u.fail(list, "there is no rate in the file")
	case len(rates) > 1:
		u.fail(list, "the file has %d rates: name one by its label, such as %s", len(rates), exact.Quote(rates[0].field("label").said()))
	case !rates[0].is(jsonObject):
		u.fail(rates[0], "a rate must be an object in braces")
	default:
		return rates[0]
	}
	return jsonNode{}
}

func (u *urdbReader) read(n jsonNode) {
	u.rate.Label, u.rate.Utility, u.rate.Name = n.field("label").said(), n.field("utility").said(), n.field("name").said()
	u.rate.From = u.date(n.field("startdate"), exact.NoDate)
	u.rate.Until = u.date(n.field("enddate"), exact.LastDate)
	u.readPeriods(n.field("energyratestructure"))
	u.readFuel(n.field("fueladjustmentsmonthly"))
	// The schedules name periods by their places, so these must be whole.
	if len(u.faults) == 0 {
		u.readSchedule(n.field("energyweekdayschedule"), 0)
		u.readSchedule(n.field("energyweekendschedule"), 1)
	}
	if len(u.faults) == 0 {
		u.rate.Bands = u.bands()
	}
	u.readRest(n)
}

// date reads seconds since 1970, which the database gives for local midnights.
func (u *urdbReader) date(n jsonNode, missing exact.Date) exact.Date {
	if !n.given() {
		return missing
	}
	number, err := n.number()
	seconds, whole := number.Int64()
	if err != nil || !whole || seconds < -1<<33 || seconds > 1<<34 { // from 1697 to 2514
		u.fail(n, "it must be a date as seconds since 1970")
		return missing
	}
	return exact.DateIn(time.Unix(seconds, 0).UTC())
}

func (u *urdbReader) readPeriods(n jsonNode) {
	periods, ok := n.list()
	if !ok || len(periods) == 0 {
		u.fail(n, "there are no energy prices: it must be a list of periods, each a list of tiers")
		return
	}
	for _, p := range periods {
		tiers, ok := p.list()
		if !ok || len(tiers) == 0 {
			u.fail(p, "a period must be a list of tiers")
			continue
		}
		u.periods = append(u.periods, u.readTiers(tiers))
	}
}

func (u *urdbReader) readTiers(list []jsonNode) []tier {
	var tiers []tier
	var above exact.Number
	for i, n := range list {
		rate, adj := u.amount(n, "rate"), u.amount(n, "adj")
		tiers = append(tiers, tier{above, rate.Add(adj)})
		if unit := n.field("unit").said(); len(list) > 1 && unit != "" && !strings.EqualFold(unit, "kWh") {
			u.fail(n.field("unit"), "tiers by %s cannot be written as bands: only kWh of the month can", exact.Quote(unit))
		}
		limit := n.field("max")
		switch {
		case i == len(list)-1 && limit.given():
			u.leave("the last tier at %s has a max, and is taken as open above it", limit.path)
		case i < len(list)-1 && !limit.given():
			u.fail(n, "only the last tier of a period may lack a max")
		case limit.given():
			most := u.amount(n, "max")
			if !above.Less(most) {
				u.fail(limit, "%v is not above the max of the tier before, %v", most, above)
			}
			above = most
		}
		if n.field("sell").given() {
			u.leave("prices for power that is fed in (sell)")
		}
	}
	return tiers
}

// amount reads a number of an object, 0 where it is missing.
func (u *urdbReader) amount(n jsonNode, name string) exact.Number {
	f := n.field(name)
	if !f.given() {
		if name == "rate" && !n.field("adj").given() {
			u.fail(n, "a tier must have a rate")
		}
		return exact.Number{}
	}
	return u.number(f)
}

// number reads a number, 0 where it is none, which is a fault.
func (u *urdbReader) number(n jsonNode) exact.Number {
	number, err := n.number()
	if err != nil {
		u.fail(n, "%v", err)
	}
	return number
}

// listOf returns the elements of a list of so many; there are none of any other, which is
// a fault.
func (u *urdbReader) listOf(size int, n jsonNode, want string) []jsonNode {
	list, ok := n.list()
	if !ok || len(list) != size {
		u.fail(n, "it must be a list of %s", want)
		return nil
	}
	return list
}

func (u *urdbReader) readFuel(n jsonNode) {
	if !n.given() {
		return
	}
	for i, m := range u.listOf(12, n, "12 amounts, one a month") {
		u.fuel[i] = u.number(m)
	}
}

func (u *urdbReader) readSchedule(n jsonNode, kind int) {
	for m, month := range u.listOf(12, n, "12 months of 24 hours") {
		for h, hour := range u.listOf(24, month, "24 hours") {
			number, err := hour.number()
			period, whole := number.Int64()
			if err != nil || !whole || period < 0 || period >= int64(len(u.periods)) {
				u.fail(hour, "it must be a period from 0 to %d", len(u.periods)-1)
				continue
			}
			u.schedule[kind][m][h] = int(period)
		}
	}
}
