package energy

import (
	"strings"
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
	// 4 kg of water take 3.1488888... kWh. Two energies that are not the same
	// are not shown as the same.
	for text, want := range map[string]string{
		"3.14": "3.14 kWh are less than the 3.149 kWh", "3.1485": "3.1485 kWh are less than the 3.1489 kWh",
		"3.1488885": "3.1488885 kWh are less than the 3.1488889 kWh", "3.148889": "", "12": "",
	} {
		note, found := BelowLatentHeat(kwh(text), exact.Int(4))
		if found != (want != "") || !strings.Contains(note, want) {
			t.Errorf("%s kWh for 4 kg: %v %q, want %q", text, found, note, want)
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
