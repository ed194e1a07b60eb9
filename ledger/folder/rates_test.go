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
		text, err := PrintRates(nil, list, zone)
		if err != nil {
			t.Fatal(err)
		}
		have, faults := parseRates("rates/r.csv", string(text), zone)
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
				t.Fatalf("%+v is not read back of\n%s", a, text)
			}
		}
	})
}

// What a household keeps beside its prices in columns of its own stays, whatever
// the separator, and so does the order of columns; times that come in between have
// nothing there.
func TestPrintRatesBeside(t *testing.T) {
	have := mark + "who;time;rate\r\nme;2025-01-01 10:00;0.1\r\n\"a;b\";2025-01-01T12:00Z;0.3\r\nlast;2025-01-01 13:00;"
	at := func(hour int, rate string) energy.Price {
		p := energy.Price{At: time.Date(2025, 1, 1, hour, 0, 0, 0, time.UTC)}
		if rate != "" {
			p.Rate = exact.Some(exact.MustNumber(rate))
		}
		return p
	}
	list := []energy.Price{at(10, "0.1"), at(11, "-0.2"), at(12, "0.35"), at(13, "")}
	want := mark + "who;time;rate\r\nme;2025-01-01T10:00:00Z;0.1\r\n;2025-01-01T11:00:00Z;-0.2\r\n\"a;b\";2025-01-01T12:00:00Z;0.35\r\nlast;2025-01-01T13:00:00Z;\r\n"
	if text, err := PrintRates([]byte(have), list, time.UTC); err != nil || string(text) != want {
		t.Errorf("%q, %v\nwant %q", text, err, want)
	}
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
