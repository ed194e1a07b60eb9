package folder

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/pricing/exact"
)

// A sample's time may have a fraction of a second, to the nanosecond.
func TestFractions(t *testing.T) {
	r := &logReader{seriesReader: seriesReader{zone: time.UTC}}
	if _, faults := r.begin([]string{"time", "watts"}); faults != nil {
		t.Fatal(faults)
	}
	for i, c := range []struct{ text, want string }{
		{"2025-02-28 18:30:05", "18:30:05"}, {"2025-02-28 18:30:05.000000001", "18:30:05.000000001"},
		{"2025-02-28T18:30:05.25Z", "18:30:05.25"}, {"2025-02-28T19:30:05.75+01:00", "18:30:05.75"}, {"2025-02-28 18:30:06.0", "18:30:06"},
	} {
		if faults := r.row(i+2, []string{c.text, "5"}); len(faults) > 0 {
			t.Fatal(faults)
		}
		if have := r.samples[i].At.UTC().Format("15:04:05.999999999"); have != c.want {
			t.Errorf("%s is %s, want %s", c.text, have, c.want)
		}
	}
	for _, text := range []string{
		"2025-03-01 18:30:05.", "2025-03-01 18:30.5", "2025-03-01 18:30:05.0000000001", "2025-03-01 18:30:05.+01:00", "2025-03-01 18:30:05.5.5",
	} {
		if faults := r.row(9, []string{text, "5"}); len(faults) == 0 {
			t.Errorf("%s is taken", text)
		}
	}
}

// What PrintLog writes is read back sample by sample, whatever the zone.
func TestPrintLog(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"UTC", "Europe/Vienna", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Halifax"}).Draw(t, "zone")
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		at := time.Unix(rapid.Int64Range(-1_500_000_000, 4_000_000_000).Draw(t, "start"), 0)
		var samples []energy.Sample
		for range rapid.IntRange(1, 20).Draw(t, "samples") {
			at = at.Add(time.Duration(rapid.Int64Range(1, int64(2*time.Hour)).Draw(t, "step")))
			samples = append(samples, energy.Sample{At: at, Watts: exact.New(rapid.Int64Range(0, 1e18).Draw(t, "watts"), 9)})
		}
		log, err := energy.NewLog(samples)
		if err != nil {
			t.Fatal(err)
		}
		back, faults := parseLog("meter/r.csv", string(PrintLog(log, zone)), zone)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if !slices.EqualFunc(slices.Collect(log.All()), slices.Collect(back.All()), func(a, b energy.Sample) bool {
			return a.At.Equal(b.At) && a.Watts.Equal(b.Watts)
		}) {
			t.Fatalf("%s is read as other samples", PrintLog(log, zone))
		}
	})
}
