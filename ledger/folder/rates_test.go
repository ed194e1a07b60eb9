package folder

import (
	"context"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/pricing/exact"
)

// What PrintRates writes is read back price by price, whatever the zone.
func TestPrintRates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"UTC", "Europe/Vienna", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Halifax"}).Draw(t, "zone")
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		at := time.Unix(rapid.Int64Range(-1_500_000_000, 4_000_000_000).Draw(t, "start"), 0)
		var list []energy.Price
		for i := range rapid.IntRange(1, 20).Draw(t, "prices") {
			at = at.Add(time.Duration(rapid.Int64Range(1, 9000).Draw(t, "step")) * time.Second)
			p := energy.Price{Line: i + 2, At: at}
			if rapid.IntRange(0, 5).Draw(t, "known") > 0 {
				p.Rate = exact.Some(exact.New(rapid.Int64Range(-1e9, 1e9).Draw(t, "rate"), 9))
			}
			list = append(list, p)
		}
		want, err := energy.NewPrices(list)
		if err != nil {
			t.Fatal(err)
		}
		have, faults := parseRates("rates/r.csv", string(PrintRates(list, zone)), zone)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		from, until := list[0].At.Add(-time.Hour), at.Add(time.Hour)
		for a := range want.Between(from, until) {
			found := false
			for b := range have.Between(from, until) {
				found = found || a.Line == b.Line && a.From.Equal(b.From) && a.Until.Equal(b.Until) && a.Rate.Equal(b.Rate)
			}
			if !found {
				t.Fatalf("%+v is not read back of\n%s", a, PrintRates(list, zone))
			}
		}
	})
}

// Hourly prices are records like others: a change of them is judged with the
// ledger, refused where another program wrote in between, and undone to the
// byte.
func TestRatesAreRecords(t *testing.T) {
	const before = "time,rate\n2025-01-01 10:00,0.1\n"
	dir := write(t, "tariffs.csv", "tariff,rate,hourly\ndyn,0,yes\n", "rates/dyn.csv", before)
	b, err := opened(context.Background(), dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	put := func(text string) error {
		_, err := b.Edit("test", func(tx *Tx) error { return tx.WriteFile("rates/dyn.csv", []byte(text)) })
		return err
	}
	if err := put(before + "2025-01-01 10:00,0.2\n"); err == nil {
		t.Error("a fault is saved")
	}
	if err := put(before + "2025-01-01 11:00,0.2\n"); err != nil {
		t.Fatal(err)
	}
	rec, _ := b.Records()
	if _, end, ok := rec.Rates["dyn"].Span(); !ok || end.UTC().Hour() != 13 {
		t.Errorf("read again, prices end at %v", end)
	}
	if _, err := b.Undo(); err != nil {
		t.Fatal(err)
	}
	if text := b.files.text("rates/dyn.csv"); text != before {
		t.Errorf("undone to %q", text)
	}
}
