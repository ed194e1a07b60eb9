package energy

import (
	"slices"
	"testing"
	"time"

	"putby/pricing/exact"
)

// The latent heat of sublimation of ice is 2834 kJ/kg (Rogers and Yau, A Short
// Course in Cloud Physics, table 2.1), and 3600 kJ are a kWh: 0.787222 kWh/kg.
func TestLatentHeat(t *testing.T) {
	if LatentHeat().Times(exact.Int(3600)).Round(0, exact.HalfEven).String() != "2834" || LatentHeat().Round(6, exact.HalfEven).String() != "0.787222" {
		t.Errorf("%v kWh/kg", LatentHeat())
	}
	// 4 kg of water take 3.1488888... kWh.
	least := exact.Int(4 * 2834).Over(exact.Int(3600))
	for text, want := range map[string]bool{"3.14": true, "3.1488885": true, "3.148889": false, "12": false} {
		note, found := BelowLatentHeat(kwh(text), exact.Int(4))
		if found != want || found && (note != Note{Kind: TooLittle, KWh: kwh(text), Least: least, Water: exact.Int(4)}) {
			t.Errorf("%s kWh for 4 kg: %v %+v", text, found, note)
		}
	}
	if _, found := BelowLatentHeat(kwh("0"), exact.Number{}); found {
		t.Error("no water is noted")
	}
}

func TestNoPower(t *testing.T) {
	c := Cycle{Start: t0, Phases: []Phase{
		{Name: "freezing", Length: time.Hour, Watts: num("300")},
		{Name: "primary", Length: 90 * time.Minute, Watts: num("0")},
		{Name: "hold", Watts: num("0")},
	}}
	notes := NoPower(c.Phases, must(c.Resolve()).Spans)
	if want := []Note{{Kind: PhaseAtRest, Phase: 2, Name: "primary", Length: 90 * time.Minute}}; !slices.Equal(notes, want) {
		t.Errorf("notes are %+v", notes)
	}
}

func TestFarAboveUsual(t *testing.T) {
	for text, want := range map[string]bool{"29.99": false, "30": true, "45": true} {
		note, found := FarAboveUsual(kwh(text), kwh("10"))
		if found != want || found && (note != Note{Kind: FarAbove, KWh: kwh(text), Usual: kwh("10")}) {
			t.Errorf("%s kWh: %v %+v", text, found, note)
		}
	}
	if _, found := FarAboveUsual(kwh("1"), kwh("0")); found {
		t.Error("no usual is noted")
	}
}
