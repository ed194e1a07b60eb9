package energy

import (
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// A log's energy is the twin's between any two instants, and adds up over any
// cut.
func TestLogEnergyIsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLog(t, t0, t0.Add(24*time.Hour))
		instant := func(label string) time.Time {
			if rapid.Bool().Draw(t, "on a sample") {
				i := rapid.IntRange(0, l.Len()-1).Draw(t, label)
				return time.Unix(0, l.at[i])
			}
			return t0.Add(time.Duration(rapid.Int64Range(-int64(time.Hour), int64(26*time.Hour)).Draw(t, label)))
		}
		a, b, c := instant("a"), instant("b"), instant("c")
		if b.Before(a) {
			a, b = b, a
		}
		if got, want := l.Energy(a, b), twinEnergy(l, a, b); rat(got).Cmp(want) != 0 {
			t.Fatalf("from %v to %v: %v kWh, by the twin %v", a, b, got, want)
		}
		if c.Before(a) || c.After(b) {
			return
		}
		if sum := l.Energy(a, c).Add(l.Energy(c, b)); !sum.Equal(l.Energy(a, b)) {
			t.Fatalf("cut at %v the log has %v, whole %v", c, sum, l.Energy(a, b))
		}
	})
}

func TestLogFaults(t *testing.T) {
	at := func(seconds int, watts string) Sample {
		return Sample{At: t0.Add(time.Duration(seconds) * time.Second), Watts: exact.MustNumber(watts)}
	}
	for _, c := range []struct {
		samples []Sample
		index   int
		want    error
	}{
		{[]Sample{at(0, "1"), at(2, "1"), at(1, "1")}, 2, ErrUnordered},
		{[]Sample{at(0, "1"), at(0, "2")}, 1, ErrTwice},
		{[]Sample{at(0, "-0.1")}, 0, ErrPower},
		{[]Sample{at(0, "1000000000.1")}, 0, ErrPower},
		{[]Sample{{At: t0, Watts: exact.New(1, 10)}}, 0, ErrPowerDigit},
		{[]Sample{{At: time.Date(2300, 1, 1, 0, 0, 0, 0, time.UTC), Watts: exact.Int(1)}}, 0, ErrYear},
	} {
		_, err := NewLog(c.samples)
		var fault *RowError
		if !errors.As(err, &fault) || fault.Index != c.index || !errors.Is(err, c.want) {
			t.Errorf("%v: %v, want %v at %d", c.samples, err, c.want, c.index)
		}
	}
	if _, err := NewLog(nil); !errors.Is(err, ErrNoSamples) {
		t.Errorf("no samples: %v", err)
	}
}

// Nothing overflows at the largest power over the longest run.
func TestLogExtremes(t *testing.T) {
	var samples []Sample
	for i := range 32 {
		samples = append(samples, Sample{At: t0.AddDate(0, 0, i), Watts: exact.Int(1e9)})
	}
	l := must(NewLog(samples))
	if got := l.Energy(t0.AddDate(-500, 0, 0), t0.AddDate(500, 0, 0)); got.String() != "744000000" {
		t.Errorf("a gigawatt for 31 days is %v kWh, want 744000000", got)
	}
	one := must(NewLog(samples[:1]))
	if !one.Energy(t0, t0.Add(time.Hour)).IsZero() || !one.Energy(t0, t0).IsZero() {
		t.Error("a single sample draws something")
	}
}

// What All returns makes the same log again.
func TestLogRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLog(t, t0, t0.Add(24*time.Hour))
		var samples []Sample
		for s := range l.All() {
			samples = append(samples, s)
		}
		again := must(NewLog(samples))
		if l.HasSolar() && !again.solar.Energy(l.First(), l.Last()).Equal(l.solar.Energy(l.First(), l.Last())) {
			t.Fatalf("the roof's part of %v is not that of %v", again, l)
		}
		if again.Len() != l.Len() || !again.Energy(l.First(), l.Last()).Equal(l.Energy(l.First(), l.Last())) {
			t.Fatalf("%v is not %v", again, l)
		}
	})
}

// Leaving out a sample that is called collinear changes no energy.
func TestCollinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Int64Range(0, 6)
		at1 := small.Draw(t, "at1") + 1
		at2 := at1 + small.Draw(t, "at2") + 1
		p0, p1, p2 := small.Draw(t, "p0"), small.Draw(t, "p1"), small.Draw(t, "p2")
		whole := &Log{at: []int64{0, at1, at2}, power: []int64{p0, p1, p2}}
		short := &Log{at: []int64{0, at2}, power: []int64{p0, p2}}
		same := whole.between(0, at1).Equal(short.between(0, at1))
		if got := collinear(0, p0, at1, p1, at2, p2); got != same {
			t.Fatalf("collinear %v, same %v", got, same)
		}
	})
}

// A log that is built sample by sample is that of all samples, with those on a
// straight line left out.
func TestLogBuilder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := drawLog(t, t0, t0.Add(24*time.Hour))
		var b LogBuilder
		for i, at := range whole.at {
			solar := int64(0)
			if whole.HasSolar() {
				solar = whole.solar.power[i]
			}
			if err := b.Add(at, whole.power[i], solar); err != nil {
				t.Fatal(err)
			}
		}
		built, err := b.Log()
		if err != nil || built.Len() != b.Len() || built.Len() > whole.Len() {
			t.Fatalf("%d samples of %d: %v", b.Len(), whole.Len(), err)
		}
		for range 5 {
			from := t0.Add(time.Duration(rapid.Int64Range(0, int64(25*time.Hour)).Draw(t, "from")))
			to := from.Add(time.Duration(rapid.Int64Range(0, int64(25*time.Hour)).Draw(t, "length")))
			if got, want := built.Energy(from, to), whole.Energy(from, to); !got.Equal(want) {
				t.Fatalf("from %v to %v: %v kWh, want %v", from, to, got, want)
			}
			if built.HasSolar() != whole.HasSolar() || built.HasSolar() && !built.solar.Energy(from, to).Equal(whole.solar.Energy(from, to)) {
				t.Fatalf("from %v to %v the roof gives something else", from, to)
			}
		}
	})
}

func TestLogBuilderRefuses(t *testing.T) {
	var b LogBuilder
	if _, err := b.Log(); !errors.Is(err, ErrNoSamples) {
		t.Errorf("an empty log: %v", err)
	}
	start := t0.UnixNano()
	for _, c := range []struct {
		at, power int64
		want      error
	}{
		{start, 0, nil}, {start, 1, ErrTwice}, {start - 1, 1, ErrUnordered}, {start + 1, -1, ErrPower},
		{start + 1, MaxNanowatts + 1, ErrPower}, {start + 1, MaxNanowatts, nil}, {-1 << 62, 0, ErrYear},
	} {
		if err := b.Add(c.at, c.power, 0); !errors.Is(err, c.want) {
			t.Errorf("at %d, %d nW: %v, want %v", c.at, c.power, err, c.want)
		}
	}
}
