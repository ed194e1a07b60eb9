package entry

import (
	"errors"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// noon is the middle of a day in the sample's zone, as a household's own ledger
// has it.
func noon(t *testing.T, day string) (*ledger.Records, Moment) {
	t.Helper()
	rec := sample(t)
	rec.Settings.AsOf = exact.Opt[exact.Date]{}
	at, err := time.ParseInLocation("2006-01-02 15", day+" 12", rec.Settings.Zone)
	if err != nil {
		t.Fatal(err)
	}
	return rec, At(rec, at)
}

func rowOf(kind string, pairs ...string) Row {
	k, _ := ledger.KindOf(kind)
	cells := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		cells[pairs[i]] = pairs[i+1]
	}
	return Row{k, cells}
}

// What has not happened yet is refused, whatever kind of record it is; what
// only will be, such as a best-by date or a new rate, is not.
func TestVetRefusesDaysAhead(t *testing.T) {
	rec, at := noon(t, "2026-11-28")
	for _, row := range []Row{
		rowOf("receipt", "date", "2036-11-28"), rowOf("price", "date", "2036-11-28"), rowOf("batch", "date", "2036-11-28"),
		rowOf("run", "start", "2036-11-28 18:00"), rowOf("run", "start", "2026-11-27 18:00", "end", "2036-11-28T18:00+01:00"),
		rowOf("pack", "date", "2036-11-28"), rowOf("draw", "date", "2036-11-28"), rowOf("count", "date", " 2036-11-28"),
	} {
		_, err := Vet(rec, []Row{row}, at)
		if !errors.Is(err, ErrAhead) || err.Error() != "2036-11-28 is 10 years ahead" {
			t.Errorf("%s %v: %v", row.Kind.Name, row.Cells, err)
		}
	}
	for _, row := range []Row{
		rowOf("draw", "date", "2026-11-28"), rowOf("run", "start", "2026-11-28 23:59"), rowOf("pack", "date", "2026-11-28", "best_by", "2036-11-28"),
		rowOf("tariff", "from", "2027-01-01"), rowOf("holiday", "date", "2027-12-25"), rowOf("draw", "date", "soon"), rowOf("food", "food", "figs"),
	} {
		if _, err := Vet(rec, []Row{row}, at); err != nil {
			t.Errorf("%s %v: %v", row.Kind.Name, row.Cells, err)
		}
	}
	at.AnyDay = true
	v, err := Vet(rec, []Row{rowOf("draw", "date", "2026-11-30", "pack", "c46-a", "quantity", "1")}, at)
	if err != nil || len(v.Notes) != 1 || v.Notes[0].Words != "2026-11-30 is 2 days ahead: it counts from that day on." {
		t.Errorf("meant ahead: %v, %q", err, v.Notes)
	}
}

// A ledger that stands at a day of its own may go on from there to the clock's
// day: that is told.
func TestVetOfAnExample(t *testing.T) {
	rec := sample(t) // as of 2025-11-16
	at := At(rec, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC))
	for day, want := range map[string]string{
		"2025-11-16": "", "2025-11-17": "2025-11-17 is after 2025-11-16, the day at which this ledger stands", "2026-06-01": "2026-06-01 is after 2025-11-16",
	} {
		v, err := Vet(rec, []Row{rowOf("draw", "date", day)}, at)
		if have := strings.Join(report.Lines(v.Notes), "; "); err != nil || !strings.HasPrefix(have, want) || want == "" && have != "" {
			t.Errorf("%s: %v, %q, want %q", day, err, have, want)
		}
	}
	if _, err := Vet(rec, []Row{rowOf("draw", "date", "2026-06-02")}, at); err == nil {
		t.Error("the day after the clock's is taken")
	}
}

// A day that is likely to be of another year is odd: more than a year before the
// last record, about a year before it or today, before the first by over a month.
func TestVetTellsOfLongPast(t *testing.T) {
	rec, at := noon(t, "2026-01-10") // the last record is of 2025-11-16
	recent := &ledger.Records{Settings: rec.Settings, Counts: []ledger.Count{{Date: exact.MustDate("2025-10-01")}, {Date: exact.MustDate("2025-11-16")}}}
	const year = "is about a year before the last record, which is of 2025-11-16."
	for _, c := range []struct {
		rec       *ledger.Records
		day, want string
	}{
		{rec, "2015-11-16", "2015-11-16 is 10 years before the last record, which is of 2025-11-16."},
		{rec, "2024-11-15", "2024-11-15 is 1 year before the last record, which is of 2025-11-16."},
		{rec, "2024-11-16", "2024-11-16 " + year},
		{rec, "2024-12-17", "2024-12-17 " + year},
		{rec, "2024-12-18", "2024-12-18 is about a year before today, which is 2026-01-10."},
		{rec, "2025-01-10", "2025-01-10 is about a year before today, which is 2026-01-10."},
		{rec, "2025-01-11", ""},
		{rec, "2025-08-01", ""},
		{recent, "2025-09-01", ""},
		{recent, "2025-08-31", "2025-08-31 is 31 days before the first record, which is of 2025-10-01."},
		{&ledger.Records{Settings: rec.Settings}, "1999-01-01", ""},
	} {
		v, err := Vet(c.rec, []Row{rowOf("draw", "date", c.day)}, at)
		want := c.want
		if want != "" {
			want = "Look again: " + want
		}
		if have := strings.Join(v.Odd, "; "); err != nil || have != want {
			t.Errorf("%s: %v, %q, want %q", c.day, err, have, want)
		}
	}
}

// A household that enters a past year in order, a year later, is not asked at each
// record; one that jumps on is.
func TestVetOfAPastYear(t *testing.T) {
	rec, at := noon(t, "2026-12-20") // the last record is of 2025-11-16
	for day, want := range map[string]string{
		"2025-11-17": "", "2025-11-29": "", "2025-12-17": "",
		"2025-12-18": "Look again: 2025-12-18 is about a year before today, which is 2026-12-20.",
	} {
		v, err := Vet(rec, []Row{rowOf("draw", "date", day)}, at)
		if have := strings.Join(v.Odd, "; "); err != nil || have != want {
			t.Errorf("%s: %v, %q, want %q", day, err, have, want)
		}
	}
}

// receiptOf is a receipt as rows, its lines written as kind|item|count|size|price|note.
func receiptOf(id, date, shop string, lines ...string) []Row {
	var rows []Row
	for i, line := range lines {
		c := strings.Split(line, "|")
		rows = append(rows, rowOf("receipt", "receipt", id, "date", date, "shop", shop, "line", string(rune('1'+i)),
			"kind", c[0], "item", c[1], "count", c[2], "size", c[3], "price", c[4], "note", c[5]))
	}
	return rows
}

// A receipt of the same shop and day with the same lines is there already, in
// whatever order and spelling; a line more, less or other is another receipt.
func TestVetFindsTheSameReceipt(t *testing.T) {
	rec, at := noon(t, "2026-01-10")
	carrots, soap, total := "food|carrots|2|5 kg|5.99|", "other|Soap|1||2.50|", "total||||14.48|"
	for _, row := range receiptOf("a", "2026-01-08", "Muddleby Foods", carrots, soap, total) {
		with, faults := rec.With(row.Kind, row.Cells)
		if faults != nil {
			t.Fatal(faults)
		}
		rec = with
	}
	for what, c := range map[string]struct {
		rows []Row
		same bool
	}{
		"the same":      {receiptOf("b", "2026-01-08", "Muddleby Foods", carrots, soap, total), true},
		"other order":   {receiptOf("b", "2026-01-08", "muddleby foods ", soap, carrots), true},
		"spelled":       {receiptOf("b", "2026-01-08", "Muddleby Foods", "food|carrots|2.0|5000 g|5.990|", "other|soap|||2.5|"), true},
		"another day":   {receiptOf("b", "2026-01-09", "Muddleby Foods", carrots, soap), false},
		"another shop":  {receiptOf("b", "2026-01-08", "Corner Shop", carrots, soap), false},
		"one line less": {receiptOf("b", "2026-01-08", "Muddleby Foods", carrots), false},
		"one line more": {receiptOf("b", "2026-01-08", "Muddleby Foods", carrots, soap, soap), false},
		"another price": {receiptOf("b", "2026-01-08", "Muddleby Foods", "food|carrots|2|5 kg|5.98|", soap), false},
		"another note":  {receiptOf("b", "2026-01-08", "Muddleby Foods", carrots, "other|Soap|1||2.50|for the shed"), false},
	} {
		v, err := Vet(rec, c.rows, at)
		if err != nil || (v.Twice != nil) != c.same {
			t.Errorf("%s: %v, %v", what, v.Twice, err)
		}
		if want := "receipt a of 2026-01-08 from"; c.same && (!strings.HasPrefix(v.Twice.What, want) || v.Twice.Kind != ErrAgain) {
			t.Errorf("%s: %v", what, v.Twice)
		}
	}
}
