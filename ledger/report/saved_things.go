package report

import (
	"cmp"
	"fmt"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// food says what a food is called and counted in.
func (s *savedWords) food(i int) {
	f := &s.g.Foods[i]
	words := "Food " + f.ID
	if f.Name != "" {
		words += ": " + f.Name
	}
	counts := map[exact.Unit]string{exact.Ea: "by the piece"}
	s.say("%s, counted %s.", words, cmp.Or(counts[f.Basis], "in "+s.show.In(f.Basis).String()))
}

// supply says what a supply costs each time.
func (s *savedWords) supply(i int) {
	p := &s.g.Supplies[i]
	words := "Supply " + p.ID
	if p.Name != "" {
		words += ": " + p.Name
	}
	switch capacity := s.show.Quantity(p.Capacity); {
	case !p.Capacity.Given():
	case p.Kind == ledger.Absorber:
		words += ", takes up " + capacity + " of oxygen"
	default:
		words += ", holds " + capacity
	}
	if p.Uses > 1 {
		words += ", serves " + s.counted(p.Uses, "time")
	}
	if price, ok := p.Price.Get(); ok {
		words += fmt.Sprintf(", %s each where no receipt says", s.money(price.Ratio()))
		if p.Uses > 1 {
			words += ", " + s.figure(p.AUse(price)) + " a time"
		}
	}
	s.say("%s.", words)
}

// machine says how long a machine is expected to last.
func (s *savedWords) machine(i int) {
	m := &s.g.Machines[i]
	words := "Machine " + m.ID
	if m.Name != "" {
		words += ": " + m.Name
	}
	words += ", expected to run " + s.counted(m.Cycles, "cycle")
	if !m.Residual.IsZero() {
		words += " and to bring " + s.money(m.Residual.Ratio()) + " back at its end"
	}
	s.say("%s.", words)
}

// wattage says what a machine draws.
func (s *savedWords) wattage(i int) {
	w := &s.g.Wattage[i]
	s.say("%s draws %s W in the phase %v, where a run does not say.", ItemTitle(s.g, w.Machine), s.number(w.Watts), w.Phase)
}

// band says what a kWh costs with tax, and when.
func (s *savedWords) band(i int) {
	b := &s.g.Tariffs[i]
	when := b.Days.String()
	if months := b.Months.String(); months != "" {
		when = commas("months "+months, when)
	}
	if b.Start != b.End && (b.Start != 0 || b.End != energy.DayEnd) {
		when = commas(when, b.Start.String()+" to "+b.End.String())
	}
	when = cmp.Or(when, s.always(b))
	if b.Above.Sign() > 0 {
		when += fmt.Sprintf(", above %s kWh a month", s.number(b.Above))
	}
	hour := ""
	if b.Hourly {
		hour = "the price of the hour and "
	}
	s.say("Tariff %s%s, %s: %s%s a kWh with tax.", b.Tariff, s.dated(" from ", b.From, "", ""), when, hour,
		s.show.Locale.Money(b.Price().String(), s.currency))
}

// always says when a band holds that does whenever no other of its tariff comes
// first.
func (s *savedWords) always(b *ledger.Band) string {
	for i := range s.g.Tariffs {
		if first := &s.g.Tariffs[i]; first == b {
			break
		} else if first.Tariff == b.Tariff && first.From == b.From {
			return "the rest of the time"
		}
	}
	return "always"
}

// holiday says when a tariff's prices are those of a holiday.
func (s *savedWords) holiday(i int) {
	h := &s.g.Holidays[i]
	s.say("%s is a holiday of the tariff %s.", s.day(h.Date), h.Tariff)
}
