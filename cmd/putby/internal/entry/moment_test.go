package entry

import (
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// Today is the clock's date where the ledger is, and in a ledger that is kept
// as an example the day that its settings name, at the same time of day.
func TestAt(t *testing.T) {
	halifax, err := time.LoadLocation("America/Halifax")
	if err != nil {
		t.Fatal(err)
	}
	late := time.Date(2025, 11, 21, 2, 30, 0, 0, time.UTC) // 22:30 the day before in Halifax
	settings := ledger.Settings{Zone: halifax}
	at := At(&ledger.Records{Settings: settings}, late)
	if at.Today.String() != "2025-11-20" || at.Clock != at.Today || at.Now.Format("2006-01-02 15:04 -0700") != "2025-11-20 22:30 -0400" {
		t.Errorf("by the clock it is %v, %v", at.Today, at.Now)
	}
	settings.AsOf = exact.Some(exact.MustDate("2025-07-01"))
	at = At(&ledger.Records{Settings: settings}, late)
	if at.Today.String() != "2025-07-01" || at.Clock.String() != "2025-11-20" || at.Now.Format("2006-01-02 15:04 -0700") != "2025-07-01 22:30 -0300" {
		t.Errorf("as of July it is %v, %v, the clock shows %v", at.Today, at.Now, at.Clock)
	}
	for text, want := range map[string]string{
		"": "2025-07-01", "today": "2025-11-20", "Yesterday": "2025-11-19", "2024-02-29": "2024-02-29",
	} {
		if day, err := at.Standing(text); err != nil || day.String() != want {
			t.Errorf("--as-of %q is %v, %v, want %s", text, day, err, want)
		}
	}
	for _, text := range []string{"tomorrow", "2025-02-29", "29.2.2024"} {
		if day, err := at.Standing(text); err == nil {
			t.Errorf("--as-of %q is %v", text, day)
		}
	}
}

// A time of day that the clocks of a day skip is when they skip it.
func TestMomentOnADayWithoutThatTime(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		t.Fatal(err)
	}
	at := At(&ledger.Records{Settings: ledger.Settings{Zone: zone}}, time.Date(2025, 6, 1, 2, 30, 0, 0, zone))
	if got := at.On(exact.MustDate("2025-03-30")).Now; got.Format("2006-01-02 15:04 -0700") != "2025-03-30 03:00 +0200" {
		t.Errorf("it is %v", got)
	}
}

// A time of day may be told by the half of the day that it is in.
func TestDatedHalfDays(t *testing.T) {
	at := At(&ledger.Records{Settings: ledger.Settings{Zone: time.UTC}}, time.Date(2026, 11, 29, 20, 0, 0, 0, time.UTC))
	for text, want := range map[string]string{
		"7:15pm": "19:15", "7 pm": "19:00", "12 a.m.": "00:00", "12:30PM": "12:30", "13pm": "13pm", "0am": "0am",
		"Nov 7 7:15 pm": "2026-11-07 19:15", "yesterday 9am": "2026-11-28 09:00", "2026-11-07 12:05am": "2026-11-07 00:05",
		"spam": "spam", "today at 6am": "2026-11-29 06:00",
	} {
		if got := at.Dated(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if got := at.datedWhole("Nov 7"); got != "Nov 7" {
		t.Errorf("a day to come without its year is read as %q", got)
	}
}
