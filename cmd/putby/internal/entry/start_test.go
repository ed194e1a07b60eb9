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

// bench is the sample's household at noon of 2025-11-16, with rows added to its
// records.
func bench(t *testing.T, rows ...Row) *Base {
	t.Helper()
	rec, at := noon(t, "2025-11-16")
	for _, row := range rows {
		more, faults := rec.With(row.Kind, row.Cells)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		rec = more
	}
	phases := rec.Phases.Slice()
	for i := range phases { // as if they had been read from their file
		phases[i].Line = int32(i + 2)
	}
	rec.Phases = ledger.PhaseList{}.With(phases...)
	return NewBase(rec, at)
}

// begun is a run of apples since the evening before.
func begun(t *testing.T, rows ...Row) *Base {
	t.Helper()
	return bench(t, append([]Row{
		rowOf("run", "run", "c48", "machine", "rimewell", "start", "2025-11-15 20:10", "outcome", "running"),
		rowOf("load", "run", "c48", "item", "apples", "quantity", "1.2 kg"),
	}, rows...)...)
}

// applied joins the ledger with what a draft adds.
func applied(t *testing.T, b *Base, d *Draft) *ledger.Ledger {
	t.Helper()
	g, ok := Joined(b.Records, d.Rows)
	if !ok {
		t.Fatalf("the ledger would have faults with %v", d.Rows)
	}
	return g
}

func TestStart(t *testing.T) {
	b := bench(t)
	d, err := Start(b, StartIn{Loads: []string{"1.2 kg Apple Slices trays 3", "300 g ONIONS"}, At: "9:05", Note: "first frost"})
	if err != nil {
		t.Fatal(err)
	}
	want := []Row{
		rowOf("run", "run", "c48", "machine", "rimewell", "start", "2025-11-16 09:05", "tariff", "", "outcome", "running", "note", "first frost"),
		rowOf("load", "run", "c48", "item", "apples", "quantity", "1.2 kg", "trays", "3"),
		rowOf("load", "run", "c48", "item", "onions", "quantity", "300 g"),
	}
	sameRows(t, d.Rows, want)
	g := applied(t, b, d)
	said := strings.Join(report.Lines(d.Advise(g)), "\n")
	if !strings.Contains(said, "As usual it takes ~31h1m, until ~Mon 2025-11-17 at 16:06.") {
		t.Errorf("it advises %q", said)
	}
	if heed := strings.Join(report.Lines(d.After), " "); !strings.Contains(heed, "never open it under vacuum") || !strings.Contains(heed, "hot pump oil") {
		t.Errorf("it cautions %q", heed)
	}
}

func sameRows(t *testing.T, have, want []Row) {
	t.Helper()
	if len(have) != len(want) {
		t.Fatalf("%d rows, want %d: %v", len(have), len(want), have)
	}
	for i := range want {
		for column, text := range want[i].Cells {
			if have[i].Kind.Name != want[i].Kind.Name || have[i].Cells[column] != text {
				t.Errorf("row %d is %s %v, want %s %v", i, have[i].Kind.Name, have[i].Cells, want[i].Kind.Name, want[i].Cells)
				break
			}
		}
	}
}

// What cannot be is said in a sentence, with what is there and what to type.
func TestStartRefuses(t *testing.T) {
	apples := []string{"1 kg apples"}
	for _, c := range []struct {
		name string
		b    *Base
		in   StartIn
		why  string
	}{
		{"nothing", bench(t), StartIn{}, `say what goes in, and how much: start "1.4 kg apples"`},
		{"no amount", bench(t), StartIn{Loads: []string{"Apple slices"}}, `it says no amount, as "5.5 kg apples" does; 1.4 kg is in hand`},
		{"a slip", bench(t), StartIn{Loads: []string{"1 kg aples"}}, `no food is called "aples"`},
		{"several words", bench(t), StartIn{Loads: []string{"1 kg red cabbage trays 2"}}, `no food is called "red cabbage"`},
		{"behind the food", bench(t), StartIn{Loads: []string{"1 kg apples tray 2"}}, `"tray" is not from, trays`},
		{"another measure", bench(t), StartIn{Loads: []string{"1 L apples"}}, "Apple slices is counted by mass"},
		{"nothing of it", bench(t), StartIn{Loads: []string{"0 kg apples"}}, "the amount is not above 0"},
		{"more than is in hand", bench(t), StartIn{Loads: []string{"1 kg apples", "0.5 kg apples"}}, "1.5 kg of Apple slices goes in, and only 1.4 kg is in hand"},
		{"none in hand", bench(t), StartIn{Loads: []string{"1 kg strawberries"}}, "no Strawberries in hand: record its receipt first"},
		{"another machine", bench(t), StartIn{Loads: apples, Machine: "rimwell"}, `no machine is called "rimwell"`},
		{"another tariff", bench(t), StartIn{Loads: apples, Tariff: "harbor-tou"}, `no tariff is called "harbor-tou"`},
		{"while it is on", begun(t), StartIn{Loads: []string{"0.1 kg apples"}}, "Rimewell five-tray is on with run c48 since Sat 2025-11-15 at 20:10: finish that first, with finish"},
		{"within a run", bench(t), StartIn{Loads: apples, At: "2025-11-14 12:00"}, "Rimewell five-tray is on with run c47 until Sat 2025-11-15 at 10:13: give a later at"},
		{"before a run", bench(t), StartIn{Loads: apples, At: "2025-11-12 12:00"}, "run c47 began on Rimewell five-tray later, on Thu 2025-11-13 at 21:15"},
		{"no time", bench(t), StartIn{Loads: apples, At: "noonish"}, `"noonish" is not a time that can be read: write 21:40`},
		{"no clock", bench(t), StartIn{Loads: apples, At: "yesterday"}, "is not a time that can be read"},
		{"several machines", bench(t, rowOf("machine", "machine", "shed", "cycles", "900")), StartIn{Loads: apples}, "there are several machines: say which with machine, rimewell or shed"},
	} {
		_, err := Start(c.b, c.in)
		if !errors.Is(err, ErrTyped) && !errors.Is(err, ErrNone) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: %v, want %s", c.name, err, c.why)
		}
	}
	_, err := Start(bench(t), StartIn{Loads: apples, At: "12:01"})
	if !errors.Is(err, ErrAhead) || err.Error() != "Sun 2025-11-16 at 12:01 is still to come: it is Sun 2025-11-16 at 12:00" {
		t.Errorf("a time to come: %v", err)
	}
	ahead := bench(t)
	ahead.At.AnyDay = true
	if _, err := Start(ahead, StartIn{Loads: apples, At: "12:01"}); err != nil {
		t.Errorf("a time to come that is meant: %v", err)
	}
}

// A time that occurs twice when the clocks go back is written with its offset
// where it is the second.
func TestInstantOnTheLongNight(t *testing.T) {
	rec, _ := noon(t, "2025-11-16")
	for _, c := range []struct{ utc, cell string }{
		{"2025-11-02T04:30:00Z", "2025-11-02 01:30"}, {"2025-11-02T05:30:00Z", "2025-11-02T01:30:00-04:00"}, {"2025-11-02T06:30:00Z", "2025-11-02 02:30"},
	} {
		now, _ := time.Parse(time.RFC3339, c.utc)
		b := NewBase(rec, At(rec, now))
		at, err := b.instant("")
		if err != nil || b.cell(at) != c.cell {
			t.Errorf("%s is written %q, %v", c.utc, b.cell(at), err)
		}
		if read, err := exact.ParseMoment(b.cell(at), rec.Settings.Zone); err != nil || !read.Equal(now) {
			t.Errorf("%q is read as %v, %v", c.cell, read, err)
		}
	}
}

func TestLoads(t *testing.T) {
	for text, want := range map[string]string{
		"6.2 L chicken-broth 0.4 kg chives": "6.2 L chicken-broth|0.4 kg chives", "5.5kg apples 2 leeks": "5.5kg apples|2 leeks",
		"5 kg apples wet 5 kg dry 880 g trays 5 3 kg leeks": "5 kg apples wet 5 kg dry 880 g trays 5|3 kg leeks", "apples": "apples", "": "",
		"1 kg wild blueberries 2 kg apples": "1 kg wild blueberries|2 kg apples", "5 kg": "5 kg", "2 x kg": "2 x kg",
	} {
		if have := strings.Join(Loads(strings.Fields(text)), "|"); have != want {
			t.Errorf("%q: %q, want %q", text, have, want)
		}
	}
	if have := Loads([]string{"5 kg apples", "leeks"}); len(have) != 2 {
		t.Errorf("quoted loads are joined: %q", have)
	}
}

// A load is cautioned by what the loads before it leave: the frozen lot goes into the
// first, and what is past its day into the second.
func TestStartTurnedInLaterLoad(t *testing.T) {
	bought := func(id, date string) Row {
		return rowOf("receipt", "receipt", id, "date", date, "shop", "Hill Stall", "line", "1", "kind", "food", "item", "medlars", "count", "1", "size", "1 kg", "price", "2.00")
	}
	b := bench(t, rowOf("food", "food", "medlars", "basis", "mass", "fresh_days", "5", "frozen_days", "90"),
		bought("hs-1", "2025-11-01"), rowOf("frozen", "date", "2025-11-02", "item", "medlars", "quantity", "1 kg"), bought("hs-2", "2025-11-08"))
	for _, c := range []struct {
		loads  []string
		turned int
	}{
		{[]string{"1 kg medlars"}, 0},
		{[]string{"1 kg medlars", "1 kg medlars"}, 1},
		{[]string{"1.5 kg medlars", "0.5 kg medlars"}, 2},
		{[]string{"1 kg medlars from hs-2", "1 kg medlars"}, 1},
	} {
		d, err := Start(b, StartIn{Loads: c.loads})
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(strings.Join(d.Notes, "\n"), "was to be used by"); n != c.turned {
			t.Errorf("%q: %d notes of what turned, want %d: %q", c.loads, n, c.turned, d.Notes)
		}
		if said := strings.Join(d.Notes, "\n"); strings.Contains(said, "To leave it out") {
			t.Errorf("%q: the frozen lot is taken already: %s", c.loads, said)
		}
	}
}
