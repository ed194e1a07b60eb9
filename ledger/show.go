package ledger

import "putby/pricing/exact"

// ShownPlaces is how many decimals of an amount people are shown, at most.
const ShownPlaces = 3

// A Show says in which units people are shown amounts, wherever they read
// them. Records, JSON and CSV stay in L and kg.
type Show struct{ Volume, Mass exact.Unit }

// Show returns the units in which the household wants to see amounts.
func (s *Settings) Show() Show { return Show{Volume: s.ShowVolume, Mass: s.ShowMass} }

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
		words[i] = s.In(u).Of(r.Round(places, exact.HalfAway)).String()
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
func (f *Food) Title() string {
	if f.Name != "" {
		return f.Name
	}
	return f.ID
}

// Title returns what people call the supply, as for a food.
func (s *Supply) Title() string {
	if s.Name != "" {
		return s.Name
	}
	return s.ID
}
