package energy

import "putby/pricing/exact"

// This file holds checks that a careful reader of a meter would make. What
// they find is worth a note and never a fault.

// LatentHeat is the energy, in kWh, that turns a kilogram of ice to vapour:
// 2834 kJ/kg (Rogers and Yau, A Short Course in Cloud Physics, table 2.1; it
// varies by less than 0.5 % between -43 and 0 °C), so exactly 2834 / 3600.
func LatentHeat() exact.Ratio { return exact.Int(2834).Over(exact.Int(3600)) }

// BelowLatentHeat notes metered energy, in kWh, that cannot have dried what was
// dried: less than it takes to turn the water removed, in kg, to vapour.
func BelowLatentHeat(metered exact.Ratio, water exact.Number) (note Note, found bool) {
	least := LatentHeat().Times(water)
	if water.Sign() <= 0 || metered.Cmp(least) >= 0 {
		return Note{}, false
	}
	return Note{Kind: TooLittle, KWh: metered, Least: least, Water: water}, true
}

// NoPower notes the phases of a draw that last and draw nothing.
func NoPower(phases []Phase, spans []Span) (notes []Note) {
	for i, s := range spans {
		if i < len(phases) && s.Length > 0 && s.Energy.IsZero() {
			notes = append(notes, Note{Kind: PhaseAtRest, Phase: i + 1, Name: phases[i].Name, Length: s.Length})
		}
	}
	return notes
}

// Unusual is from how many times its usual energy a cycle is worth a note.
const Unusual = 3

// FarAboveUsual notes a cycle that used at least [Unusual] times the kWh that is
// usual, such as the median of the others of its kind.
func FarAboveUsual(kwh, usual exact.Ratio) (note Note, found bool) {
	if usual.Sign() <= 0 || kwh.Cmp(usual.Times(exact.Int(Unusual))) < 0 {
		return Note{}, false
	}
	return Note{Kind: FarAbove, KWh: kwh, Usual: usual}, true
}
