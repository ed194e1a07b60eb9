package energy

import (
	"errors"
	"math/big"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

func drawLegs(t *rapid.T, aligned bool) []Leg {
	var legs []Leg
	for range rapid.IntRange(1, 4).Draw(t, "legs") {
		leg := Leg{Length: time.Duration(rapid.IntRange(0, 14*60).Draw(t, "length")) * time.Minute}
		if !aligned {
			leg.Length += time.Duration(rapid.Int64Range(0, int64(time.Minute)).Draw(t, "rest"))
		}
		leg.Energy = exact.New(rapid.Int64Range(0, 900).Draw(t, "kwh"), 2).Over(exact.Int(rapid.Int64Range(1, 1<<40).Draw(t, "of")))
		legs = append(legs, leg)
	}
	return legs
}

// cheapest is the cheapest start of a search that has one.
func cheapest(t testing.TB, s Search) Start {
	t.Helper()
	best, found, err := s.Cheapest()
	if err != nil || !found {
		t.Fatal(found, err)
	}
	return best
}

// bruteForce prices every minute of the window, and the start of it.
func bruteForce(t *rapid.T, s Search) (best Start, found bool) {
	try := func(at time.Time) {
		start, err := s.Price(at)
		if err != nil {
			t.Fatal(err)
		}
		if w, ok := s.Finish.Get(); ok && !w.Has(start.Finish, s.Tariff.zone) {
			return
		}
		if w, ok := s.Begin.Get(); ok && !w.Has(at, s.Tariff.zone) {
			return
		}
		if !found || start.cost.Cmp(best.cost) < 0 {
			best, found = start, true
		}
	}
	try(s.From)
	for at := s.From.Truncate(time.Minute); !at.After(s.To); at = at.Add(time.Minute) {
		if !at.Before(s.From) {
			try(at)
		}
	}
	return best, found
}

// The cheapest start found is the cheapest of every minute of the window,
// under any tariff, with phases in whole minutes or not, blocks or not.
func TestCheapestIsBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t, rapid.Bool().Draw(t, "blocks"), false)
		s := Search{Tariff: w.tariff(t), Step: time.Minute, Places: 6}
		if rapid.Bool().Draw(t, "metered") {
			s.Meter = NewMeter(drawHousehold(t))
		}
		s.Profile = drawLegs(t, rapid.Bool().Draw(t, "aligned"))
		s.From = w.near.Midnight(time.UTC).Add(time.Duration(rapid.IntRange(-20*3600, 20*3600).Draw(t, "from")) * time.Second)
		s.To = s.From.Add(time.Duration(rapid.IntRange(0, 10*3600).Draw(t, "window")) * time.Second)
		for _, window := range []*exact.Opt[Window]{&s.Begin, &s.Finish} {
			if rapid.Bool().Draw(t, "awake") {
				from, to := rapid.IntRange(0, 1440).Draw(t, "wake"), rapid.IntRange(0, 1440).Draw(t, "sleep")
				*window = exact.Some(Window{Clock(from), Clock(to)})
			}
		}
		have, is, err := s.Cheapest()
		if err != nil {
			t.Fatal(err)
		}
		if best, found := bruteForce(t, s); found != is || !have.cost.Equal(best.cost) || !have.At.Equal(best.At) {
			t.Fatalf("brute force: %v, %v at %v; search: %v, %v at %v", found, best.cost, best.At, is, have.cost, have.At)
		}
	})
}

// The same where it is hardest: blocks that are reached during the cycle, day
// and night prices within them, a month that turns, and energy without length.
func TestCheapestBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := func(label string) exact.Number { return exact.Int(rapid.Int64Range(1, 9).Draw(t, label)) }
		edge := rapid.SampledFrom([]exact.Number{exact.Int(3), exact.Int(7), exact.New(125, 1)}).Draw(t, "above")
		day := Clock(rapid.IntRange(0, 23).Draw(t, "day") * 60)
		tariff := must(NewTariff("blocks", time.UTC, []Band{
			{From: exact.NoDate, Start: day, End: (day + 8*60) % DayEnd, Rate: small("day"), Above: edge},
			{From: exact.NoDate, Start: day, End: (day + 8*60) % DayEnd, Rate: small("day block")},
			{From: exact.NoDate, Rate: small("night"), Above: edge},
			{From: exact.NoDate, Rate: small("night block")},
		}, nil))
		household := [12]exact.Number{exact.Int(rapid.Int64Range(0, 3).Draw(t, "january"))}
		s := Search{Tariff: tariff, Meter: NewMeter(household), Step: time.Minute, Places: 6}
		for range rapid.IntRange(1, 3).Draw(t, "legs") {
			length := time.Duration(rapid.IntRange(0, 5).Draw(t, "hours")) * 100 * time.Minute
			s.Profile = append(s.Profile, Leg{length, kwh(rapid.SampledFrom([]string{"0", "1", "4", "9.5"}).Draw(t, "kwh"))})
		}
		s.From = time.Date(2025, 1, 31, 12, 0, 0, 0, time.UTC).Add(time.Duration(rapid.IntRange(0, 12*60).Draw(t, "from")) * time.Minute)
		s.To = s.From.Add(time.Duration(rapid.IntRange(0, 16*60).Draw(t, "window")) * time.Minute)
		have, _, err := s.Cheapest()
		if err != nil {
			t.Fatal(err)
		}
		if best, _ := bruteForce(t, s); !have.cost.Equal(best.cost) || !have.At.Equal(best.At) {
			t.Fatalf("brute force: %v at %v; search: %v at %v", best.cost, best.At, have.cost, have.At)
		}
	})
}

// A profile of one kilowatt for ten hours, on a Wednesday at noon in Ontario in
// summer: it is cheapest from 19:00, when all of it is off peak.
func TestCheapestOntario(t *testing.T) {
	tariff := ontario(t)
	s := Search{
		Tariff: tariff, Places: 6, Step: time.Minute,
		Profile: []Leg{{4 * time.Hour, kwh("4")}, {6 * time.Hour, kwh("6")}},
		From:    local(t, tariff.zone, "2017-07-05 12:00"),
		To:      local(t, tariff.zone, "2017-07-06 12:00"),
	}
	best := cheapest(t, s)
	// At once: 5 h at 11.7, 2 at 10, 3 at 6.5 = 98; then: 10 h at 6.5.
	if best.At.Format("15:04") != "19:00" || best.Cost.String() != "65" {
		t.Errorf("best is %v at %v", best.Cost, best.At)
	}
	if best.Finish.Format("02 15:04") != "06 05:00" {
		t.Errorf("it finishes at %v", best.Finish)
	}
	// With somebody awake from 7:00 to 22:00, the end has to be at 7:00.
	s.Finish = exact.Some(must(ParseWindow("07:00-22:00")))
	awake := cheapest(t, s)
	if awake.Finish.Format("02 15:04") != "06 07:00" || awake.Cost.String() != "65" {
		t.Errorf("with somebody awake: %v, finish %v", awake.Cost, awake.Finish)
	}
}

// Asking does not use anything.
func TestSearchLeavesTheMeter(t *testing.T) {
	m := NewMeter([12]exact.Number{})
	s := Search{
		Tariff: blockTariff(t, "0.10", "0.15", 10), Meter: m, Places: 6,
		Profile: []Leg{{time.Hour, kwh("8")}}, From: t0, To: t0.Add(time.Hour),
	}
	for range 2 {
		if got := cheapest(t, s).Cost.String(); got != "0.8" {
			t.Fatalf("8 kWh cost %s, want 0.8", got)
		}
	}
	s.Tariff = ontario(t)
	cheapest(t, s)
	s.Tariff = must(NewTariff("night", time.UTC, []Band{{From: exact.NoDate, End: 30}}, nil))
	if _, _, err := s.Cheapest(); err == nil {
		t.Error("a tariff with a hole is taken")
	}
	if m.settle(); len(m.used) != 0 {
		t.Errorf("the meter has used %v", m.used)
	}
}

func TestSearchFaults(t *testing.T) {
	s := Search{Tariff: ontario(t), From: t0, To: t0}
	if _, _, err := s.Cheapest(); !errors.Is(err, ErrNoProfile) {
		t.Errorf("no profile: %v", err)
	}
	s.Profile = []Leg{{time.Hour, kwh("1")}}
	s.To = t0.Add(-1)
	if _, _, err := s.Cheapest(); !errors.Is(err, ErrNoWindow) {
		t.Errorf("no window: %v", err)
	}
	s.To = t0.AddDate(2, 0, 0)
	if _, _, err := s.Cheapest(); !errors.Is(err, ErrTooLong) {
		t.Errorf("two years: %v", err)
	}
	s.Tariff = must(NewTariff("night", time.UTC, []Band{{From: exact.NoDate, End: 6 * 60}}, nil))
	s.To = t0.Add(24 * time.Hour)
	var gap *GapError
	if _, _, err := s.Cheapest(); !errors.As(err, &gap) {
		t.Errorf("a tariff with a hole: %v", err)
	}
}

// Where the month turns during a cycle, the block of the new month is reached
// at a time that moves with the start: 1 kW for 20 h, then 2 kW for 20 h. The
// cheapest start of the window lies where no leg's edge meets a band's edge.
func TestCheapestAcrossMonths(t *testing.T) {
	s := Search{
		Tariff: must(NewTariff("blocks by day", time.UTC, []Band{
			{From: exact.NoDate, Start: 6 * 60, End: 18 * 60, Rate: exact.MustNumber("0.30"), Above: exact.Int(10)},
			{From: exact.NoDate, Rate: exact.MustNumber("0.10")},
			{From: exact.NoDate, Rate: exact.MustNumber("0.17"), Above: exact.Int(10)},
		}, nil)),
		Profile: []Leg{{20 * time.Hour, kwh("20")}, {20 * time.Hour, kwh("40")}},
		From:    time.Date(2025, 1, 30, 8, 0, 0, 0, time.UTC),
		To:      time.Date(2025, 1, 31, 20, 0, 0, 0, time.UTC),
		Step:    time.Minute, Places: 6,
	}
	have := cheapest(t, s)
	var best *big.Rat
	for at := s.From; !at.After(s.To); at = at.Add(time.Minute) {
		if cost := rat(must(s.Price(at)).cost); best == nil || cost.Cmp(best) < 0 {
			best = cost
		}
	}
	if rat(have.cost).Cmp(best) != 0 {
		t.Errorf("search %v, brute force %v", have.cost, best)
	}
}

func TestWindow(t *testing.T) {
	at := func(clock string) time.Time { return must(time.Parse("15:04:05.999", clock)) }
	for _, c := range []struct {
		window, clock string
		want          bool
	}{
		{"07:00-22:00", "07:00:00", true},
		{"07:00-22:00", "22:00:00", true},
		{"07:00-22:00", "22:00:00.001", false},
		{"07:00-22:00", "06:59:59", false},
		{"22:00-7:00", "03:00:00", true},
		{"22:00-7:00", "12:00:00", false},
		{"22:00-24:00", "12:00:00", false},
		{"22:00-0:00", "00:00:00", true},
		{"22:00-24:00", "00:00:00", true},
		{"5:00-5:00", "12:00:00", true},
		{"0:00-24:00", "12:00:00", true},
	} {
		w := must(ParseWindow(c.window))
		if got := w.Has(at(c.clock), time.UTC); got != c.want {
			t.Errorf("%v has %s: %v, want %v", w, c.clock, got, c.want)
		}
		if again := must(ParseWindow(w.String())); again != w {
			t.Errorf("%v reads back as %v", w, again)
		}
	}
	for _, s := range []string{"", "7:00", "7-22", "7:00-25:00", "7:00-22:00-23:00"} {
		if _, err := ParseWindow(s); !errors.Is(err, ErrWindow) {
			t.Errorf("%q: %v, want a fault", s, err)
		}
	}
}
