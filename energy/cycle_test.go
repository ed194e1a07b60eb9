package energy

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

var t0 = time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)

func num(s string) exact.Opt[exact.Number] { return exact.Some(exact.MustNumber(s)) }

// spanKWh lists the energies of a draw, and where they are.
func spanKWh(d Draw) string {
	var out []string
	for _, s := range d.Spans {
		text := s.Energy.String()
		if s.Curve != nil {
			text += "~"
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

func TestResolve(t *testing.T) {
	log := unevenLog() // 0.4925 kWh from 0:00 to 1:00
	watts, own := num("300"), num("0.5")
	phases := func(p ...Phase) []Phase { return p }
	for _, c := range []struct {
		name         string
		cycle        Cycle
		spans, total string
		length       time.Duration
		notes        []Note
	}{
		{"watts", Cycle{Phases: phases(Phase{Length: 2 * time.Hour, Watts: watts}, Phase{Length: time.Hour, KWh: own})},
			"3/5 1/2", "11/10", 3 * time.Hour, nil},
		{"own kWh outranks watts and log", Cycle{Phases: phases(Phase{Length: time.Hour, Watts: watts, KWh: own}), Log: log},
			"1/2", "1/2", time.Hour, nil},
		{"log outranks watts", Cycle{Phases: phases(Phase{Length: 10 * time.Minute, Watts: watts}, Phase{Length: 50 * time.Minute, KWh: own}), Log: log},
			"19/80~ 1/2", "59/80", time.Hour, nil},
		{"total scales all phases", Cycle{Phases: phases(Phase{Length: time.Hour, Watts: watts}, Phase{Length: time.Hour, KWh: own}), KWh: num("1.6")},
			"3/5 1", "8/5", 2 * time.Hour, nil},
		{"total scales the log's phases", Cycle{Phases: phases(Phase{Length: time.Hour}), Log: log, KWh: num("0.985")},
			"197/200~", "197/200", time.Hour, nil},
		{"no energy is spread by duration", Cycle{Phases: phases(Phase{Length: time.Hour, Watts: num("0")}, Phase{Length: 3 * time.Hour, KWh: num("0")}), KWh: num("8")},
			"2 6", "8", 4 * time.Hour, []Note{{Kind: SpreadPhases}}},
		{"nothing known is spread by duration", Cycle{Phases: phases(Phase{Length: time.Hour}, Phase{Length: 3 * time.Hour}), KWh: num("8")},
			"2 6", "8", 4 * time.Hour, []Note{{Kind: PhasesUntold}}},
		{"no duration either", Cycle{Phases: phases(Phase{}, Phase{}), KWh: num("8")}, "4 4", "8", 0, []Note{{Kind: PhasesUntold}}},
		{"whole run", Cycle{End: exact.Some(t0.Add(5 * time.Hour)), KWh: num("8")}, "8", "8", 5 * time.Hour, nil},
		{"whole run without end", Cycle{KWh: num("8")}, "8", "8", -1, []Note{{Kind: AtStart}}},
		{"whole log", Cycle{Log: log}, "197/400~", "197/400", -1, nil},
		{"log to the end", Cycle{Log: log, End: exact.Some(t0.Add(10 * time.Minute))}, "19/80~", "19/80", 10 * time.Minute, nil},
		{"log, end and total", Cycle{Log: log, End: exact.Some(t0.Add(10 * time.Minute)), KWh: num("1")}, "1~", "1", 10 * time.Minute, nil},
		{"log too short", Cycle{Start: t0.Add(-time.Minute), Log: log, End: exact.Some(t0.Add(2 * time.Hour))}, "197/400~", "197/400", 121 * time.Minute,
			[]Note{{Kind: LogLate, Length: time.Minute}, {Kind: LogEarly, Length: time.Hour}}},
		{"log elsewhere", Cycle{Start: t0.Add(2 * time.Hour), Log: log, End: exact.Some(t0.Add(3 * time.Hour)), KWh: num("3")}, "3", "3", time.Hour,
			[]Note{{Kind: LogOutside}, {Kind: LogShowsNone}}},
		{"log before the start, no end", Cycle{Start: t0.Add(2 * time.Hour), Log: log, KWh: num("3")}, "3", "3", -1,
			[]Note{{Kind: LogOutside}, {Kind: LogShowsNone}, {Kind: AtStart}}},
	} {
		if c.cycle.Start.IsZero() {
			c.cycle.Start = t0
		}
		d, err := c.cycle.Resolve()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := spanKWh(d); got != c.spans || d.Energy.String() != c.total {
			t.Errorf("%s: spans %s of %v, want %s of %s", c.name, got, d.Energy, c.spans, c.total)
		}
		if got := d.Length.Or(-1); got != c.length {
			t.Errorf("%s: length %v, want %v", c.name, got, c.length)
		}
		if !slices.Equal(d.Notes, c.notes) {
			t.Errorf("%s: notes %+v, want %+v", c.name, d.Notes, c.notes)
		}
	}
}

func TestResolveFaults(t *testing.T) {
	if _, err := (Cycle{Start: t0, End: exact.Some(t0.Add(time.Hour))}).Resolve(); !errors.Is(err, ErrNoEnergy) {
		t.Errorf("nothing known: %v", err)
	}
	if _, err := (Cycle{Start: t0, KWh: num("1"), End: exact.Some(t0.Add(-1))}).Resolve(); !errors.Is(err, ErrEndEarly) {
		t.Errorf("end before start: %v", err)
	}
	both := Cycle{Start: t0, End: exact.Some(t0), Phases: []Phase{{Watts: num("1")}}}
	if _, err := both.Resolve(); !errors.Is(err, ErrEndAndPhases) {
		t.Errorf("end beside phases: %v", err)
	}
	for _, total := range []exact.Opt[exact.Number]{{}, num("3")} {
		c := Cycle{Start: t0, KWh: total, Phases: []Phase{{Name: "freezing", Watts: num("1")}, {Name: "primary"}}}
		_, err := c.Resolve()
		var phase *RowError
		if !errors.As(err, &phase) || !errors.Is(err, ErrPhase) || phase.Index != 1 || phase.Name != "primary" {
			t.Errorf("unknown second phase: %v", err)
		}
	}
	if _, err := (Cycle{Start: t0, Phases: []Phase{{}}}).Resolve(); err == nil {
		t.Error("a phase of which nothing is known is no fault")
	}
}

// The spans of a draw sum to its energy, follow each other, and sum to the
// metered total where there is one.
func TestDrawSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Cycle{Start: t0}
		length := time.Duration(0)
		for range rapid.IntRange(1, 5).Draw(t, "phases") {
			p := Phase{Length: time.Duration(rapid.IntRange(0, 1e5).Draw(t, "length")) * time.Second}
			p.Watts = exact.Some(exact.New(rapid.Int64Range(0, 99999).Draw(t, "watts"), 1))
			if rapid.Bool().Draw(t, "own") {
				p.KWh = exact.Some(exact.New(rapid.Int64Range(0, 99999).Draw(t, "kwh"), 3))
			}
			c.Phases = append(c.Phases, p)
			length += p.Length
		}
		if rapid.Bool().Draw(t, "log") {
			c.Log = drawLog(t, t0, t0.Add(length))
		}
		if rapid.Bool().Draw(t, "metered") {
			c.KWh = exact.Some(exact.New(rapid.Int64Range(0, 99999).Draw(t, "total"), 3))
		}
		d := must(c.Resolve())
		var sum exact.Ratio
		at := t0
		for i, s := range d.Spans {
			sum = sum.Add(s.Energy)
			if s.Solar.Sign() < 0 || s.Solar.Cmp(s.Energy) > 0 {
				t.Fatalf("span %d: %v of %v from the roof", i, s.Solar, s.Energy)
			}
			if !s.Start.Equal(at) || s.Length != c.Phases[i].Length {
				t.Fatalf("span %d is at %v for %v", i, s.Start, s.Length)
			}
			at = at.Add(s.Length)
		}
		if !sum.Equal(d.Energy) || !sum.Equal(exact.RatioOf(c.KWh.Or(sum.Round(30, exact.Down)))) && c.KWh.Given() {
			t.Fatalf("spans sum to %v, energy %v, metered %v", sum, d.Energy, c.KWh)
		}
	})
}

// Of a cycle that has begun and not ended, what is known so far counts.
func TestResolveRunning(t *testing.T) {
	log := unevenLog() // 0.4925 kWh from 0:00 to 1:00
	hour := Phase{Length: time.Hour}
	known := Phase{Length: time.Hour, Watts: num("300")}
	for _, c := range []struct {
		name         string
		cycle        Cycle
		spans, total string
		length       time.Duration
		notes        []Note
	}{
		{"nothing", Cycle{}, "", "0", -1, []Note{{Kind: NothingYet}}},
		{"metered", Cycle{KWh: num("8")}, "8", "8", -1, []Note{{Kind: AtStart}}},
		{"a log", Cycle{Log: log}, "197/400~", "197/400", -1, nil},
		{"a log, and a phase that goes on", Cycle{Log: log, Phases: []Phase{{Length: 3 * time.Hour}}}, "197/400~", "197/400", 3 * time.Hour, nil},
		{"a phase of two is known", Cycle{Phases: []Phase{known, hour}}, "3/10 0", "3/10", 2 * time.Hour, []Note{{Kind: PhasesYet}}},
		{"that, and metered", Cycle{Phases: []Phase{known, hour}, KWh: num("1")}, "1 0", "1", 2 * time.Hour, []Note{{Kind: PhasesYet}}},
		{"no phase is known", Cycle{Phases: []Phase{hour, hour}}, "0 0", "0", 2 * time.Hour, []Note{{Kind: NothingYet}}},
		{"that, and metered: by time", Cycle{Phases: []Phase{hour, hour}, KWh: num("1")}, "1/2 1/2", "1", 2 * time.Hour, []Note{{Kind: PhasesUntold}}},
	} {
		c.cycle.Start, c.cycle.Running = t0, true
		d, err := c.cycle.Resolve()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := spanKWh(d); got != c.spans || d.Energy.String() != c.total || d.Length.Or(-1) != c.length || !slices.Equal(d.Notes, c.notes) {
			t.Errorf("%s: spans %q of %v, length %v, notes %+v", c.name, got, d.Energy, d.Length.Or(-1), d.Notes)
		}
	}
}
