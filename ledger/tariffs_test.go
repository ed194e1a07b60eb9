package ledger_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A band that is written as a row is read back as the same band.
func TestBandCells(t *testing.T) {
	k, ok := ledger.KindOf("tariff")
	if !ok {
		t.Fatal("there is no kind of tariffs")
	}
	rapid.Check(t, func(t *rapid.T) {
		number := func(label string, least int64) exact.Number {
			return exact.New(rapid.Int64Range(least, 999_999).Draw(t, label), rapid.IntRange(0, 9).Draw(t, label+" places"))
		}
		b := ledger.Band{Tariff: "t", Band: energy.Band{
			From:   exact.NoDate,
			Months: energy.MonthSet(rapid.Uint16Range(0, 1<<12-1).Draw(t, "months") << 1),
			Days:   energy.DaySet(rapid.Uint8().Draw(t, "days")),
			Start:  energy.Clock(rapid.IntRange(0, 1440).Draw(t, "start")),
			End:    energy.Clock(rapid.IntRange(0, 1440).Draw(t, "end")),
			Above:  number("above", 0), Rate: number("rate", -999_999), Tax: number("tax", 0),
			Hourly: rapid.Bool().Draw(t, "hourly"),
		}}
		if rapid.Bool().Draw(t, "dated") {
			b.From = exact.MustDate("2025-01-01").AddDays(rapid.IntRange(-9999, 9999).Draw(t, "from"))
		}
		more, faults := (&ledger.Records{Settings: ledger.Settings{Zone: time.UTC}}).With(k, b.Cells())
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		have := more.Tariffs[0]
		if have.Tariff != b.Tariff || have.From != b.From || have.Months != b.Months || have.Days != b.Days ||
			have.Start != b.Start || have.End != b.End || have.Hourly != b.Hourly || !have.Above.Equal(b.Above) || !have.Rate.Equal(b.Rate) || !have.Tax.Equal(b.Tax) {
			t.Fatalf("%v is read back as %+v, not %+v", b.Cells(), have, b)
		}
	})
}

// A tariff has the bands and holidays of its name, and no others.
func TestBuildTariff(t *testing.T) {
	band := func(name, rate string) ledger.Band {
		return ledger.Band{Tariff: name, Band: energy.Band{From: exact.NoDate, End: energy.DayEnd, Rate: exact.MustNumber(rate)}}
	}
	day := exact.MustDate("2025-12-25")
	rec := &ledger.Records{
		Settings: ledger.Settings{Zone: time.UTC},
		Tariffs:  []ledger.Band{band("b", "1"), band("a", "2"), band("b", "3")},
		Holidays: []ledger.Holiday{{Tariff: "b", Date: day}},
	}
	if names := rec.TariffNames(); len(names) != 2 || names[0] != "b" || names[1] != "a" {
		t.Errorf("names are %v", names)
	}
	built, err := rec.BuildTariff("b")
	if err != nil || built.Name() != "b" || len(built.Bands()) != 2 {
		t.Fatalf("b is %v, %v", built, err)
	}
	if _, err := rec.BuildTariff("c"); err == nil {
		t.Error("a tariff without bands is built")
	}
}
