package report_test

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func when(t testing.TB, g *ledger.Ledger, item string, texts question.WhenTexts) report.Doc {
	t.Helper()
	q, err := question.ParseWhen(item, texts)
	if err != nil {
		t.Fatal(err)
	}
	q.Now = time.Date(2025, 11, 20, 22, 0, 0, 0, time.UTC)
	d, err := question.When(g, q)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	return d
}

// A start is a start by its texts and cost.
type start struct{ at, finish, cost string }

func starts(t testing.TB, d report.Doc) (list []start) {
	t.Helper()
	tab := table(t, d, "rows")
	for i := range tab.Rows {
		list = append(list, start{cell(t, tab, i, "start").Text(), cell(t, tab, i, "finish").Text(), cell(t, tab, i, "cost").Exact(euro)})
	}
	return list
}

// everyStart is the slow twin of the report: it bills every start on a step on
// a meter of its own, and keeps the cheapest of each day.
func everyStart(t testing.TB, g *ledger.Ledger, d report.Doc, step time.Duration, begin, finish exact.Opt[energy.Window]) []start {
	t.Helper()
	phases, zone := table(t, d, "phases"), g.Settings.Zone
	moment := func(key string) time.Time {
		at, err := time.Parse(time.RFC3339, part[report.Value](t, d, key).Text())
		if err != nil {
			t.Fatal(err)
		}
		return at.In(zone)
	}
	tariff := g.Tariff(part[report.Value](t, d, "tariff").Text())
	bill := func(at time.Time) (cost exact.Ratio, posted exact.Money, end time.Time) {
		var spans []energy.Span
		for i := range phases.Rows {
			seconds, _ := cell(t, phases, i, "hours").Ratio().Times(exact.Int(3600)).Round(0, exact.HalfEven).Int64()
			span := energy.Span{Start: at, Length: time.Duration(seconds) * time.Second, Energy: cell(t, phases, i, "kwh").Ratio()}
			spans, at = append(spans, span), at.Add(span.Length)
		}
		bills, err := g.Meter().Itemize(tariff, spans, g.Places())
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range bills {
			posted = posted.Add(b.Cost)
			for _, p := range b.Pieces {
				cost = cost.Add(p.Cost)
			}
		}
		return cost, posted, at
	}
	inside := func(w exact.Opt[energy.Window], at time.Time) bool {
		window, ok := w.Get()
		return !ok || window.Has(at, zone)
	}
	from, to := moment("from"), moment("to")
	if use := part[report.Value](t, d, "use_by"); !use.IsNull() && part[report.Value](t, d, "in_time").Text() == "yes" {
		if end := exact.MustDate(use.Text()).AddDays(1).Midnight(zone).Add(-time.Second); end.Before(to) {
			to = end
		}
	}
	best := map[exact.Date]exact.Ratio{}
	first := map[exact.Date]start{}
	try := func(at time.Time) {
		at = at.In(zone)
		cost, posted, end := bill(at)
		day := exact.DateIn(at)
		if have, ok := best[day]; (!ok || cost.Cmp(have) < 0) && inside(begin, at) && inside(finish, end) {
			best[day] = cost
			form := "2006-01-02T15:04:05-07:00"
			first[day] = start{at.Format(form), end.Format(form), posted.Number().Fixed(g.Places())}
		}
	}
	try(from)
	// Steps are those of the local clock: the first one after from.
	_, east := from.In(zone).Zone()
	seconds := int64(step.Seconds())
	steps := (from.Unix()+int64(east))/seconds + 1
	for at := time.Unix(steps*seconds-int64(east), 0); !at.After(to); at = at.Add(step) {
		try(at)
	}
	var list []start
	for day := range first {
		list = append(list, first[day])
	}
	slices.SortFunc(list, func(a, b start) int {
		x, y := exact.MustNumber(a.cost), exact.MustNumber(b.cost)
		return cmp.Or(x.Cmp(y), cmp.Compare(a.at, b.at))
	})
	return list
}

func agree(t testing.TB, have, want []start) {
	t.Helper()
	if !slices.Equal(have, want) {
		t.Errorf("cheapest starts are\n%v, the twin's\n%v", have, want)
	}
}

// On the sample the cheapest start of each day is that of every start there is,
// awake or not, with blocks or without.
func TestWhenIsEveryStart(t *testing.T) {
	g := join(t, sample, exact.NoDate)
	window := func(s string) exact.Opt[energy.Window] {
		w, err := energy.ParseWindow(s)
		if err != nil {
			t.Fatal(err)
		}
		return exact.Some(w)
	}
	for _, c := range []struct {
		item  string
		texts question.WhenTexts
	}{
		{"chicken-broth", question.WhenTexts{}},
		{"chicken-broth", question.WhenTexts{From: "2025-12-22 10:07", StartBetween: "06:00-23:00", FinishBetween: "07:00-22:00"}},
		{"strawberries", question.WhenTexts{From: "2025-11-28 06:00", Days: "4", FinishBetween: "22:00-05:00", Step: "1h"}},
		{"leek-soup", question.WhenTexts{From: "2026-03-06 06:00", Days: "3", Hours: "30h", KWh: "17.5"}}, // the clocks go forward
	} {
		step, begin, finish := 15*time.Minute, exact.Opt[energy.Window]{}, exact.Opt[energy.Window]{}
		if c.texts.Step != "" {
			step = time.Hour
		}
		if c.texts.StartBetween != "" {
			begin = window(c.texts.StartBetween)
		}
		if c.texts.FinishBetween != "" {
			finish = window(c.texts.FinishBetween)
		}
		d := when(t, g, c.item, c.texts)
		have := starts(t, d)
		if len(have) == 0 {
			t.Errorf("%s %+v: no start", c.item, c.texts)
		}
		agree(t, have, everyStart(t, g, d, step, begin, finish))
	}
}

// blockLedger has a run of 95 kWh this month and a cycle that crosses a block
// at 100 kWh, prices that change with the hour, and a month that ends soon.
func blockLedger(day, night, above string) string {
	return fmt.Sprintf(`-- tariffs.csv --
tariff,start,end,above_kwh,rate,tax
flat,,,100,%[3]s,20
flat,08:00,20:00,,%[1]s,20
flat,,,,%[2]s,20
-- foods.csv --
food,basis
peas,mass
-- machines.csv --
machine,cycles
m,100
-- wattage.csv --
machine,phase,watts
m,freezing,400
m,primary,900
-- receipts.csv --
receipt,date,line,kind,item,size,price
a,2025-11-01,1,food,peas,90 kg,9.00
-- runs.csv --
run,machine,start,kwh
r,m,2025-11-10 10:00,95
-- phases.csv --
run,step,phase,duration
r,1,freezing,5h
r,2,primary,12h20m
-- loads.csv --
run,item,quantity
r,peas,4 kg
`, day, night, above)
}

// The month's use counts for the prices of blocks: with the block dear, the
// cycle waits for the next month.
func TestWhenBlocks(t *testing.T) {
	for _, c := range []struct{ day, night, above string }{{"0.20", "0.15", "0.90"}, {"0.20", "0.15", "0.02"}, {"0.15", "0.20", "0.21"}} {
		g := join(t, write(t, blockLedger(c.day, c.night, c.above)), exact.NoDate)
		d := when(t, g, "peas", question.WhenTexts{From: "2025-11-27 09:10", Days: "5", KWh: "12"})
		agree(t, starts(t, d), everyStart(t, g, d, 15*time.Minute, exact.Opt[energy.Window]{}, exact.Opt[energy.Window]{}))
		if !noted(d.Notes, "Blocks count") {
			t.Errorf("notes are %q", d.Notes)
		}
		best := starts(t, d)[0].at
		if late := best >= "2025-11-30"; late != (c.above != "0.02") {
			t.Errorf("above 100 kWh at %s: best start is %s", c.above, best)
		}
	}
}

// No answer takes minutes: so many starts are refused at once.
func TestWhenAsksTooMuch(t *testing.T) {
	g := join(t, sample, exact.NoDate)
	q, err := question.ParseWhen(g.Foods[0].ID, question.WhenTexts{Hours: "10h", KWh: "10", Days: "100", Step: "0:00:01"})
	if err != nil {
		t.Fatal(err)
	}
	q.Now = time.Date(2025, 12, 1, 10, 0, 0, 0, time.UTC)
	if _, err := question.When(g, q); question.OptionOf(err).Field != "step" {
		t.Errorf("a start every second of 100 days: %v", err)
	}
}

// The same under any prices, windows and steps.
func TestWhenIsTwin(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		price := func(label string) string { return exact.New(rapid.Int64Range(1, 60).Draw(rt, label), 2).String() }
		g := join(t, write(t, blockLedger(price("day"), price("night"), price("above"))), exact.NoDate)
		window := func(label string) (string, exact.Opt[energy.Window]) {
			if !rapid.Bool().Draw(rt, label) {
				return "", exact.Opt[energy.Window]{}
			}
			w := energy.Window{From: energy.Clock(rapid.IntRange(0, 1439).Draw(rt, "from")), To: energy.Clock(rapid.IntRange(0, 1439).Draw(rt, "to"))}
			return w.String(), exact.Some(w)
		}
		texts := question.WhenTexts{
			From: fmt.Sprintf("2025-11-2%d %02d:%02d", rapid.IntRange(7, 9).Draw(rt, "date"), rapid.IntRange(0, 23).Draw(rt, "hour"), rapid.IntRange(0, 59).Draw(rt, "minute")),
			Days: "2", KWh: exact.New(rapid.Int64Range(1, 300).Draw(rt, "kwh"), 1).String(),
			Hours: fmt.Sprintf("%dh%02dm", rapid.IntRange(1, 40).Draw(rt, "hours"), rapid.IntRange(0, 59).Draw(rt, "minutes")),
		}
		var begin, finish exact.Opt[energy.Window]
		texts.StartBetween, begin = window("load")
		texts.FinishBetween, finish = window("unload")
		step := rapid.SampledFrom([]time.Duration{15 * time.Minute, time.Hour, 7 * time.Minute}).Draw(rt, "step")
		texts.Step = exact.FormatDuration(step)
		d := when(t, g, "peas", texts)
		have, want := starts(t, d), everyStart(t, g, d, step, begin, finish)
		if !slices.Equal(have, want) {
			rt.Fatalf("%+v: cheapest starts %v, the twin %v", texts, have, want)
		}
	})
}

// What a cycle is taken to be: its own runs, else the machine's, else what is
// given; and what is missing is named at once.
func TestWhenCycle(t *testing.T) {
	g := join(t, write(t, blockLedger("0.2", "0.1", "0.1")), exact.NoDate)
	d := when(t, g, "peas", question.WhenTexts{From: "2025-12-01 00:00"})
	cycle := part[report.Object](t, d, "cycle")
	for key, want := range map[string]string{"hours": "17.333333333333", "kwh": "95", "basis": "mean", "runs": "1", "machine": "m"} {
		if have := value(t, cycle, key).Exact(euro); have != want {
			t.Errorf("%s is %s, want %s", key, have, want)
		}
	}
	if kwh := value(t, cycle, "kwh"); !kwh.IsEstimate() || !cell(t, table(t, d, "rows"), 0, "cost").IsEstimate() {
		t.Error("an estimate does not say that it is one")
	}
	d = when(t, g, "peas", question.WhenTexts{From: "2025-12-01 00:00", KWh: "8", Hours: "10"})
	if v := cell(t, table(t, d, "rows"), 0, "cost"); v.IsEstimate() || v.Exact(euro) != "0.960000" {
		t.Errorf("8 kWh at night, 0.1 and 20 %% tax, cost %s", v.Exact(euro))
	}
	bare := join(t, write(t, "-- foods.csv --\nfood,basis\npeas,mass\n"), exact.NoDate)
	q, err := question.ParseWhen("peas", question.WhenTexts{})
	if err != nil {
		t.Fatal(err)
	}
	q.Now = time.Now()
	_, err = question.When(bare, q)
	if missing := (*question.MissingError)(nil); !errors.As(err, &missing) || len(missing.Facts) != 2 {
		t.Errorf("a ledger of nothing says %v", err)
	}
}

// While the machine is on, no start is possible.
// One run tells no bounds: the small ledger has one, the sample has many of
// broth.
func TestWhenBounds(t *testing.T) {
	for _, c := range []struct {
		dir, item string
		shown     bool
	}{{small, "tomato-soup", false}, {sample, "chicken-broth", true}} {
		d := when(t, whole(t, c.dir, exact.NoDate), c.item, question.WhenTexts{})
		for _, f := range part[report.Object](t, d, "cycle") {
			if (f.Key == "low" || f.Key == "high") && (f.Title != "") != c.shown {
				t.Errorf("%s: the bound %s is told as %q", c.item, f.Key, f.Title)
			}
		}
	}
}

func TestWhenMachineIsOn(t *testing.T) {
	g := join(t, write(t, blockLedger("0.2", "0.1", "0.1")), exact.NoDate)
	d := when(t, g, "peas", question.WhenTexts{From: "2025-11-10 12:00"})
	if from := part[report.Value](t, d, "from").Text(); !strings.HasPrefix(from, "2025-11-11T03:20") {
		t.Errorf("the first start is %s", from)
	}
	if !noted(d.Notes, "m is on with run r until Tue 2025-11-11 at 03:20") {
		t.Errorf("notes are %q", d.Notes)
	}
}
