package energy

import (
	"fmt"

	"putby/pricing/exact"
)

// This file holds checks that a careful reader of a meter would make. What
// they find is worth a note and never a fault.

// LatentHeat is the energy, in kWh, that turns a kilogram of ice to vapour:
// 2834 kJ/kg (Rogers and Yau, A Short Course in Cloud Physics, table 2.1; it
// varies by less than 0.5 % between -43 and 0 °C), so exactly 2834 / 3600.
func LatentHeat() exact.Ratio { return exact.Int(2834).Over(exact.Int(3600)) }

// BelowLatentHeat notes metered energy that cannot have dried what was dried:
// less than it takes to turn the water removed, in kg, to vapour.
func BelowLatentHeat(metered exact.Ratio, water exact.Number) (note string, found bool) {
	least := LatentHeat().Times(water)
	if water.Sign() <= 0 || metered.Cmp(least) >= 0 {
		return "", false
	}
	have, want := apart(metered, least)
	return fmt.Sprintf("the metered %v kWh are less than the %v kWh that it takes to turn the %v kg of water removed from ice to vapour: does the meter see the whole machine, and are the weights right?",
		have, want, water), true
}

// NoPower notes the phases of a draw that last and draw nothing.
func NoPower(phases []Phase, spans []Span) []string {
	var notes []string
	for i, s := range spans {
		if i < len(phases) && s.Length > 0 && s.Energy.IsZero() {
			notes = append(notes, fmt.Sprintf("phase %d (%s) draws nothing in %s: a machine that runs draws something",
				i+1, phases[i].Name, exact.FormatDuration(s.Length)))
		}
	}
	return notes
}

// Unusual is from how many times its usual energy a cycle is worth a note.
const Unusual = 3

// FarAboveUsual notes a cycle that used at least three times what is usual,
// such as the median of the others of its kind.
func FarAboveUsual(kwh, usual exact.Ratio) (note string, found bool) {
	if usual.Sign() <= 0 || kwh.Cmp(usual.Times(exact.Int(Unusual))) < 0 {
		return "", false
	}
	return fmt.Sprintf("%v kWh are %v times the usual %v kWh: is it one run, and is the decimal point in place?",
		shown(kwh), kwh.Quo(usual).Round(1, exact.HalfAway), shown(usual)), true
}

// shownPlaces is how many decimals of a kWh a note shows.
const shownPlaces = 3

// shown rounds an energy for a note.
func shown(kwh exact.Ratio) exact.Number { return kwh.Round(shownPlaces, exact.HalfAway) }

// apart rounds two unequal energies for a note, with as many decimals as it
// takes to tell them apart.
func apart(a, b exact.Ratio) (exact.Number, exact.Number) {
	for places := shownPlaces; ; places++ {
		x, y := a.Round(places, exact.HalfAway), b.Round(places, exact.HalfAway)
		if !x.Equal(y) || places == exact.QuantityPlaces {
			return x, y
		}
	}
}
