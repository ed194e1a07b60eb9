package energy

import (
	"errors"
	"testing"
	"time"

	"putby/pricing/exact"
)

func TestNewTariffFaults(t *testing.T) {
	good := Band{Line: 2, From: exact.NoDate, Rate: exact.Int(1)}
	for _, c := range []struct {
		band Band
		want error
		says string
	}{
		{Band{Line: 3, Start: -1}, ErrClockRange, "band in row 3: start and end must lie between 0:00 and 24:00"},
		{Band{End: DayEnd + 1}, ErrClockRange, "band 2: start and end must lie between 0:00 and 24:00"},
		{Band{Months: 1}, ErrMonthRange, "band 2: months go from 1 to 12"},
		{Band{Months: 1 << 13}, ErrMonthRange, "band 2: months go from 1 to 12"},
		{Band{Above: exact.Int(-1)}, ErrAbove, "band 2: the use that a block starts above must not be negative"},
	} {
		_, err := NewTariff("x", time.UTC, []Band{good, c.band}, nil)
		var fault *RowError
		if !errors.As(err, &fault) || fault.Index != 1 || !errors.Is(err, c.want) || err.Error() != c.says {
			t.Errorf("%+v: %v, want %s", c.band, err, c.says)
		}
	}
	if _, err := NewTariff("x", nil, []Band{good}, nil); !errors.Is(err, ErrNoZone) {
		t.Errorf("no zone: %v", err)
	}
	if _, err := NewTariff("x", time.UTC, nil, nil); !errors.Is(err, ErrNoBands) {
		t.Errorf("no bands: %v", err)
	}
}

// A tariff keeps nothing of what it was made from, and gives nothing of itself
// away.
func TestTariffIsImmutable(t *testing.T) {
	bands := []Band{{From: exact.NoDate, Rate: exact.Int(1)}}
	tariff := must(NewTariff("x", time.UTC, bands, nil))
	bands[0].Rate = exact.Int(2)
	tariff.Bands()[0].Rate = exact.Int(3)
	if got := billOne(t, tariff, "2025-01-01 00:00", 1, "1"); got != "1" || tariff.Name() != "x" || tariff.zone != time.UTC {
		t.Errorf("1 kWh costs %s", got)
	}
}

// Of the rows that match an instant the first in file order counts, and a tax
// is on top of the rate.
func TestFirstRowCounts(t *testing.T) {
	tariff := must(NewTariff("x", time.UTC, []Band{
		{From: exact.NoDate, Days: Holidays, Rate: exact.MustNumber("0.1"), Tax: exact.MustNumber("19")},
		{From: exact.NoDate, Rate: exact.MustNumber("0.2"), Tax: exact.MustNumber("5.5")},
		{From: exact.NoDate, Rate: exact.MustNumber("0.3")},
	}, []exact.Date{exact.MustDate("2025-01-01")}))
	for start, want := range map[string]string{"2025-01-01 12:00": "0.119", "2025-01-02 12:00": "0.211"} {
		if got := billOne(t, tariff, start, 1, "1"); got != want {
			t.Errorf("1 kWh on %s costs %s, want %s", start, got, want)
		}
	}
}

// A block tariff without a band for the first kWh says from which use on it
// has one.
func TestGapBelowBlocks(t *testing.T) {
	tariff := must(NewTariff("high", time.UTC, []Band{{From: exact.NoDate, Above: exact.Int(50), Rate: exact.Int(1)}}, nil))
	_, err := NewMeter([12]exact.Number{}).Bill(tariff, []Span{{Start: t0, Energy: kwh("1")}}, 6)
	if want := `tariff "high" has no band for Wed 2025-01-01 00:00 up to 50 kWh of the month`; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}
