package energy

import (
	"testing"
	"time"

	"putby/pricing/exact"
)

// Phases are elapsed time, band edges local clock: 1 kW from midnight for ten
// hours, 1 per kWh before 7:00 and 10 after it.
func TestClockChanges(t *testing.T) {
	for _, c := range []struct{ zone, start, want string }{
		{"UTC", "2025-03-30 00:00", "37"},
		{"Europe/Berlin", "2025-03-29 00:00", "37"},
		{"Europe/Berlin", "2025-03-30 00:00", "46"},         // 6 h before 7:00, 4 after
		{"Europe/Berlin", "2025-10-26 00:00", "28"},         // 8 h before, 2 after
		{"Australia/Sydney", "2025-10-05 00:00", "46"},      // southern spring
		{"Australia/Sydney", "2025-04-06 00:00", "28"},      // southern autumn
		{"Australia/Lord_Howe", "2025-10-05 00:00", "41.5"}, // half an hour less before 7:00
		{"Australia/Lord_Howe", "2025-04-06 00:00", "32.5"}, // half an hour more
		{"Asia/Kolkata", "2025-03-30 00:00", "37"},
		{"America/Santiago", "2025-09-06 23:00", "46"}, // 0:00 to 1:00 is left out: 1 h at 10, 6 at 1, 3 at 10
	} {
		tariff := must(NewTariff("seven", zone(t, c.zone), []Band{
			{From: exact.NoDate, End: 7 * 60, Rate: exact.Int(1)},
			{From: exact.NoDate, Start: 7 * 60, End: DayEnd, Rate: exact.Int(10)},
		}, nil))
		if got := billOne(t, tariff, c.start, 10, "1"); got != c.want {
			t.Errorf("%s from %s: %s, want %s", c.zone, c.start, got, c.want)
		}
	}
}

// time.Time.ZoneBounds names an end that is past on the last day of leap years
// from 2040 on (golang/go issue 81583): runs across that day and into it.
func TestLastDayOfLeapYear(t *testing.T) {
	for _, z := range []string{"Europe/Berlin", "Australia/Sydney", "America/Halifax"} {
		tariff := must(NewTariff("seven", zone(t, z), []Band{
			{From: exact.NoDate, End: 7 * 60, Rate: exact.Int(1)},
			{From: exact.NoDate, Start: 7 * 60, End: DayEnd, Rate: exact.Int(10)},
		}, nil))
		for start, want := range map[string]string{
			"2040-12-30 12:00": "237",   // 12 h at 10, 7 at 1, 11 at 10
			"2040-12-31 06:00": "228",   // 1 h at 1, 17 at 10, 7 at 1, 5 at 10
			"2044-12-31 23:30": "187.5", // half an hour at 10, 7 h at 1, 17 at 10, 5.5 at 1
		} {
			if got := billOne(t, tariff, start, 30, "1"); got != want {
				t.Errorf("%s from %s: %s, want %s", z, start, got, want)
			}
		}
	}
}

// A local day that a zone skips has no band, month or holiday.
func TestSkippedDay(t *testing.T) {
	z := zone(t, "Pacific/Apia")
	tariff := must(NewTariff("apia", z, []Band{
		{From: exact.NoDate, Days: must(ParseDays("fri")), Rate: exact.Int(100)},
		{From: exact.NoDate, Rate: exact.Int(1)},
	}, []exact.Date{exact.MustDate("2011-12-30")}))
	// Thursday 29 December was followed by Saturday the 31st.
	if got := billOne(t, tariff, "2011-12-29 00:00", 48, "1"); got != "48" {
		t.Errorf("Thursday and Saturday cost %s, want 48", got)
	}
}

// Prices change at the local midnight of their date, wherever that is, and
// only the newest rows count, even where an older one would match.
func TestPriceChange(t *testing.T) {
	tariff := must(NewTariff("change", zone(t, "Asia/Kolkata"), []Band{
		{From: exact.NoDate, Rate: exact.Int(1)},
		{From: exact.MustDate("2025-02-01"), Rate: exact.Int(5), Start: 0, End: 12 * 60},
		{From: exact.MustDate("2025-02-01"), Rate: exact.Int(7), Start: 12 * 60, End: 0},
		{From: exact.MustDate("2025-02-02"), Rate: exact.Int(9)},
	}, nil))
	if got := billOne(t, tariff, "2025-01-31 22:00", 30, "1"); got != "182" {
		t.Errorf("2 h at 1, 12 at 5, 12 at 7, 4 at 9 cost %s, want 182", got)
	}
}

// A run that crosses a month, a season and a holiday is cut at each.
func TestCrossings(t *testing.T) {
	tariff := ontario(t)
	start := local(t, tariff.zone, "2017-04-30 20:00") // Sunday to Monday, winter to summer
	bill := must(NewMeter([12]exact.Number{}).Itemize(tariff, []Span{{Start: start, Length: 16 * time.Hour, Energy: kwh("16")}}, 6))[0]
	var edges []string
	for _, p := range bill.Pieces {
		edges = append(edges, p.From.Format("02 15:04 ")+p.Band.Rate.String())
	}
	want := []string{"30 20:00 6.5", "01 00:00 6.5", "01 07:00 10", "01 11:00 11.7"}
	if len(edges) != len(want) {
		t.Fatalf("pieces are %q, want %q", edges, want)
	}
	for i := range want {
		if edges[i] != want[i] {
			t.Errorf("piece %d is %q, want %q", i, edges[i], want[i])
		}
	}
}

// A span without length is billed at the band of its instant; a band starts
// with its first instant and ends before its last.
func TestInstant(t *testing.T) {
	tariff := ontario(t)
	for start, want := range map[string]string{"2017-07-05 06:59": "6.5", "2017-07-05 07:00": "10", "2017-07-05 19:00": "6.5"} {
		span := Span{Start: local(t, tariff.zone, start), Energy: kwh("1")}
		if got := must(NewMeter([12]exact.Number{}).Bill(tariff, []Span{span}, 6))[0].String(); got != want {
			t.Errorf("1 kWh at %s costs %s, want %s", start, got, want)
		}
	}
}
