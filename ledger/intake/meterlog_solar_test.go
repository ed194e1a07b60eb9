package intake

import (
	"strings"
	"testing"
	"time"

	"putby/energy"
)

// What came from the roof, by hand (own numbers): half of 800 W over an hour, then
// a gap in which neither the grid nor the roof gives anything. 400 Wh, less what
// the power takes a second to fall by beside the gap, half of 400 W s; the sample
// that lies on a line of the draw and not on one of the roof's is kept.
func TestLogSolar(t *testing.T) {
	log, about, err := ReadLog(strings.NewReader("time,power (W),PV %\n"+
		"2025-06-01T10:00Z,800,50\n2025-06-01T10:30Z,800,25\n2025-06-01T11:00Z,800,50\n2025-06-01T15:00Z,0,\n"),
		LogOptions{MaxGap: time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	// 400 to 200 to 400 W is 300 Wh; in the second after 11:00 400 W falls to 0: 200 W s.
	want := "0.300055556"
	if got := log.SolarEnergy(log.First(), log.Last()).Round(9, 0).String(); got != want {
		t.Errorf("%s kWh came from the roof, want %s", got, want)
	}
	if about.Solar != `"PV %", as percent` || about.Samples != 5 {
		t.Errorf("%+v", about)
	}
	var last energy.Sample
	for s := range log.All() {
		last = s
	}
	if last.Solar.Sign() != 0 {
		t.Errorf("the last sample has %v W from the roof", last.Solar)
	}
}

// A part finer than a nanowatt is rounded half to even: a third, by nine digits.
func TestLogSolarRounded(t *testing.T) {
	log, _, err := ReadLog(strings.NewReader("time,W,roof share\n2025-06-01T10:00Z,0.000000005,0.5\n2025-06-01T11:00Z,3,0.333333333\n"), LogOptions{MaxGap: time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for s := range log.All() {
		got = append(got, s.Solar.String())
	}
	if strings.Join(got, " ") != "0.000000002 0.999999999" { // 2.5 nanowatts are 2
		t.Error(got)
	}
}
