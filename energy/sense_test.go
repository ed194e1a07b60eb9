package energy

import (
	"strings"
	"testing"
	"time"

	"putby/pricing/exact"
)

// 678 cal/g of LyoPRONTO and LyoHUB is 2836.752 kJ/kg, and 0.787987 kWh/kg.
func TestLatentHeat(t *testing.T) {
	kilojoules := exact.Int(678).Mul(exact.MustNumber("4.184"))
	if kilojoules.String() != "2836.752" || LatentHeat().Round(6, exact.HalfEven).String() != "0.787987" {
		t.Errorf("%v kJ/kg, %v kWh/kg", kilojoules, LatentHeat())
	}
	// 4 kg of water take 3.1519466... kWh.
	for text, want := range map[string]bool{"3.15": true, "3.151946": true, "3.151947": false, "12": false} {
		note, found := BelowLatentHeat(kwh(text), exact.Int(4))
		if found != want || found && !strings.Contains(note, " kWh are less than the 3.152 kWh that it takes to turn the 4 kg") {
			t.Errorf("%s kWh for 4 kg: %v %q", text, found, note)
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
	if len(notes) != 1 || !strings.HasPrefix(notes[0], "phase 2 (primary) draws nothing in 1h30m") {
		t.Errorf("notes are %q", notes)
	}
}

func TestFarAboveUsual(t *testing.T) {
	for text, want := range map[string]bool{"29.99": false, "30": true, "45": true} {
		note, found := FarAboveUsual(kwh(text), kwh("10"))
		if found != want || text == "45" && !strings.HasPrefix(note, "45 kWh are 4.5 times the usual 10 kWh") {
			t.Errorf("%s kWh: %v %q", text, found, note)
		}
	}
	if _, found := FarAboveUsual(kwh("1"), kwh("0")); found {
		t.Error("no usual is noted")
	}
}
