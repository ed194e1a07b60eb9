package ledger

import (
	"cmp"
	"strings"
	"time"

	"putby/ledger/advice"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// ShownPlaces is how many decimals of an amount people are shown, at most.
const ShownPlaces = 3

// A Show says how people are shown figures, wherever they read them: in which
// units amounts, and how numbers, money and dates are written. Records, JSON and
// CSV stay in L and kg, with plain numbers and ISO dates.
type Show struct {
	Volume, Mass exact.Unit
	Locale       locale.Locale
	Wording      advice.Wording // how they are told what to do; nil: by the names of acts
}

// Show returns how the household wants to see figures.
func (s *Settings) Show() Show {
	return Show{Volume: s.ShowVolume, Mass: s.ShowMass, Locale: s.Locale, Wording: s.Wording}
}

// Say says how something is done.
func (s Show) Say(d advice.Doing) string {
	if s.Wording == nil {
		return advice.Plain{}.Say(d)
	}
	return s.Wording.Say(d)
}

// Say says how something is done, where the household reads it.
func (s *Settings) Say(d advice.Doing) string { return s.Show().Say(d) }

// Plain returns s without its locale, for figures that are written on.
func (s Show) Plain() Show {
	s.Locale = locale.Plain
	return s
}

// Date writes a date.
func (s Show) Date(d exact.Date) string { return s.Locale.Date(d) }

// Local writes a date and a time of day, of the zone that t is in.
func (s Show) Local(t time.Time) string { return s.Date(exact.DateIn(t)) + t.Format(" 15:04") }

// Moment is Local in a sentence: "Mon 2025-03-03 at 18:00".
func (s Show) Moment(t time.Time) string {
	return t.Format("Mon ") + s.Date(exact.DateIn(t)) + t.Format(" at 15:04")
}

// Number writes a number with all its digits.
func (s Show) Number(n exact.Number) string { return s.Locale.Number(n.String()) }

// Quantity writes a quantity in the unit that it has.
func (s Show) Quantity(q exact.Quantity) string {
	number, unit, _ := strings.Cut(q.String(), " ")
	return strings.TrimRight(s.Locale.Number(number)+" "+unit, " ")
}

// Measure writes a quantity in the unit that the household has chosen, else in the
// one that it has.
func (s Show) Measure(q exact.Quantity) string {
	if base := q.Base(); s.In(base.Unit()) != base.Unit() {
		return s.Amount(base.Number(), base.Unit())
	}
	return s.Quantity(q)
}

// In returns the unit in which amounts of the base unit u are shown.
func (s Show) In(u exact.Unit) exact.Unit {
	switch {
	case u == exact.L && s.Volume != exact.NoUnit:
		return s.Volume
	case u == exact.Kg && s.Mass != exact.NoUnit:
		return s.Mass
	}
	return u
}

// Amount writes n of the base unit u for a sentence: "2.113 qt", "6 ea".
func (s Show) Amount(n exact.Number, u exact.Unit) string { return s.Amounts(u, n)[0] }

// Amounts writes amounts that one sentence compares, rounded half away from
// zero at [ShownPlaces]; at more where some of them would else read as nothing,
// or two that differ read alike.
func (s Show) Amounts(u exact.Unit, amounts ...exact.Number) []string {
	shown := make([]exact.Ratio, len(amounts))
	for i, n := range amounts {
		shown[i] = n.Over(s.In(u).Factor())
	}
	places := ShownPlaces
	for places < exact.QuantityPlaces && !toldApart(amounts, shown, places) {
		places++
	}
	words := make([]string, len(amounts))
	for i, r := range shown {
		words[i] = s.Quantity(s.In(u).Of(r.Round(places, exact.HalfAway)))
	}
	return words
}

// toldApart reports whether amounts, as shown and rounded, still say which is
// nothing and which differ.
func toldApart(amounts []exact.Number, shown []exact.Ratio, places int) bool {
	for i := range shown {
		a := shown[i].Round(places, exact.HalfAway)
		if a.IsZero() && !amounts[i].IsZero() {
			return false
		}
		for j := range i {
			if a.Equal(shown[j].Round(places, exact.HalfAway)) && !amounts[i].Equal(amounts[j]) {
				return false
			}
		}
	}
	return true
}

// Title returns what people call the food: its name, or its identifier where it
// has none.
func (f *Food) Title() string { return cmp.Or(f.Name, f.ID) }

// Title returns what people call the supply, as for a food.
func (s *Supply) Title() string { return cmp.Or(s.Name, s.ID) }

// Title returns what people call the machine, as for a food.
func (m *Machine) Title() string { return cmp.Or(m.Name, m.ID) }

// Typed writes an amount of a record as people type it, with the decimal sign of
// the locale.
func (s Show) Typed(q exact.Quantity) string {
	number, unit, _ := strings.Cut(q.String(), " ")
	return strings.TrimSpace(s.Locale.Typed(number) + " " + unit)
}

// Typeable is [Show.Typed] of an amount that there is, in the unit in which it is
// shown: rounded down, so that it can be typed where no more than that will do.
func (s Show) Typeable(n exact.Number, u exact.Unit) string {
	unit := s.In(u)
	r := n.Over(unit.Factor())
	rounded := r.Round(ShownPlaces, exact.Down)
	if rounded.IsZero() {
		rounded = r.Round(exact.MaxFraction, exact.Down)
	}
	return s.Typed(unit.Of(rounded))
}
