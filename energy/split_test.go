package energy

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// machineLog makes a log a minute of an invented machine: its compressor is on
// three quarters of the time, a pump joins, the draw falls towards a level,
// and standby before and after.
func machineLog(hours float64, pumpAt float64, fall float64, seed uint64) *Log {
	random := rand.New(rand.NewPCG(seed, 1))
	var samples []Sample
	for minute := -120; minute < int(hours*60)+120; minute++ {
		h := float64(minute) / 60
		watts := 2.0
		if h >= 0 && h < hours {
			watts = 90
			if (minute/3)%4 != 0 {
				watts = 410
			}
			if h >= pumpAt {
				watts += 350 + fall*math.Exp(-(h-pumpAt)/5)
			}
			watts += 30 * (random.Float64() - 0.5)
		}
		samples = append(samples, Sample{At: t0.Add(time.Duration(minute) * time.Minute), Watts: exact.New(int64(watts*10), 1)})
	}
	return must(NewLog(samples))
}

func TestSuggestPhases(t *testing.T) {
	phases := must(SuggestPhases(machineLog(34, 9, 250, 1)))
	if len(phases) != 3 {
		t.Fatalf("phases are %v", phases)
	}
	hour := func(at time.Time) float64 { return at.Sub(t0).Hours() }
	if math.Abs(hour(phases[0].Start)) > 0.2 || math.Abs(hour(phases[2].End)-34) > 0.2 {
		t.Errorf("the run is from %v to %v", phases[0].Start, phases[2].End)
	}
	if math.Abs(hour(phases[1].Start)-9) > 0.2 || phases[1].Confidence < 0.8 {
		t.Errorf("the pump joins after %v h, confidence %v", hour(phases[1].Start), phases[1].Confidence)
	}
	// The fall is 1/10 of itself, 25 W, 11.5 h after the pump has joined.
	if at := hour(phases[2].Start); at < 15 || at > 23 {
		t.Errorf("the draw settles after %v h", at)
	}
	if w := phases[0].Watts; math.Abs(float64(w)-330) > 15 {
		t.Errorf("freezing draws %v W, made with 330", w)
	}
}

// Where nothing falls there is no secondary drying to see, and where nothing
// rises there is no pump.
func TestSuggestLess(t *testing.T) {
	if phases := must(SuggestPhases(machineLog(30, 9, 0, 2))); len(phases) != 2 {
		t.Errorf("without a fall: %v", phases)
	}
	if phases, err := SuggestPhases(machineLog(30, 99, 0, 3)); !errors.Is(err, ErrNoStep) {
		t.Errorf("without a pump: %v, %v", phases, err)
	}
	if _, err := SuggestPhases(unevenLog().window(30 * time.Minute)); !errors.Is(err, ErrShortLog) {
		t.Errorf("half an hour: %v", err)
	}
	zero := must(NewLog([]Sample{{At: t0, Watts: exact.Int(0)}, {At: t0.Add(10 * time.Hour), Watts: exact.Int(0)}}))
	if _, err := SuggestPhases(zero); !errors.Is(err, ErrShortLog) {
		t.Errorf("a log of nothing: %v", err)
	}
}

// window returns the log up to a time after its start.
func (l *Log) window(d time.Duration) *Log {
	var part []Sample
	for s := range l.All() {
		if s.At.Sub(l.First()) <= d {
			part = append(part, s)
		}
	}
	return must(NewLog(part))
}

// Whatever the log, the phases follow each other within it, and confidence is
// from 0 to 1.
func TestSuggestedPhasesFollow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLog(t, t0, t0.Add(time.Duration(rapid.IntRange(1, 100).Draw(t, "hours"))*time.Hour))
		phases, err := SuggestPhases(l)
		if err != nil {
			return
		}
		at := phases[0].Start
		if at.Before(l.First()) || phases[len(phases)-1].End.After(l.Last()) {
			t.Fatalf("phases %v leave the log", phases)
		}
		for _, p := range phases {
			if !p.Start.Equal(at) || !p.End.After(p.Start) || p.Confidence < 0 || p.Confidence > 1 || math.IsNaN(float64(p.Watts)) {
				t.Fatalf("phase %v after %v", p, at)
			}
			at = p.End
		}
	})
}

// A draw that only wavers has no pump in it, however plainly it wavers.
func TestSuggestNoPump(t *testing.T) {
	base := time.Date(2025, 3, 3, 18, 0, 0, 0, time.UTC)
	log := must(NewLog([]Sample{
		{At: base, Watts: exact.Int(420)}, {At: base.Add(2 * time.Hour), Watts: exact.New(4205, 1)}, {At: base.Add(4 * time.Hour), Watts: exact.Int(420)},
	}))
	if phases, err := SuggestPhases(log); !errors.Is(err, ErrNoStep) {
		t.Errorf("suggests %v, %v", phases, err)
	}
}
