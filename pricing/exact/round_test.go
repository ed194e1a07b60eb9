package exact

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRoundModes(t *testing.T) {
	for _, c := range []struct {
		in                   string
		places               int
		even, away, down, up string
	}{
		{"0", 0, "0", "0", "0", "0"},
		{"0.5", 0, "0", "1", "0", "1"},
		{"1.5", 0, "2", "2", "1", "2"},
		{"2.5", 0, "2", "3", "2", "3"},
		{"-2.5", 0, "-2", "-3", "-2", "-3"},
		{"2.51", 0, "3", "3", "2", "3"},
		{"2.49", 0, "2", "2", "2", "3"},
		{"-0.4", 0, "0", "0", "0", "-1"},
		{"2.50", 1, "2.5", "2.5", "2.5", "2.5"},
		{"2.345", 2, "2.34", "2.35", "2.34", "2.35"},
		{"2.355", 2, "2.36", "2.36", "2.35", "2.36"},
		{"99.995", 2, "100", "100", "99.99", "100"},
		{"9.223372036854775807", 0, "9", "9", "9", "10"},
		{"9223372036854775807.5", 0, "9223372036854775808", "9223372036854775808", "9223372036854775807", "9223372036854775808"},
		{"9223372036854775806.5", 0, "9223372036854775806", "9223372036854775807", "9223372036854775806", "9223372036854775807"},
		{"0.0000000000000000000005", 21, "0", "0.000000000000000000001", "0", "0.000000000000000000001"},
	} {
		for mode, want := range map[Mode]string{HalfEven: c.even, HalfAway: c.away, Down: c.down, Up: c.up} {
			got := num(c.in).Round(c.places, mode)
			wellFormed(t, got)
			if got.String() != want {
				t.Errorf("%s to %d %v = %v, want %s", c.in, c.places, mode, got, want)
			}
		}
	}
}

func TestRoundPlacesBeyondAnyUse(t *testing.T) {
	for _, in := range []string{"1.5", "-123456789012345678901234567890.123456789"} {
		n := num(in)
		for _, places := range []int{18, 19, 255, 256, 1 << 40, math.MaxInt} {
			if got := n.Round(places, HalfEven); !got.Equal(n) {
				t.Errorf("%s to %d places = %v", in, places, got)
			}
		}
		for _, places := range []int{-1, -300, math.MinInt} {
			if got := n.Round(places, Down); !got.Equal(n.Round(0, Down)) {
				t.Errorf("%s to %d places = %v", in, places, got)
			}
		}
	}
	third := Int(1).Over(Int(3))
	if got := third.Round(math.MaxInt, Down); got.Places() != MaxPlaces {
		t.Errorf("a third to as many places as there are has %d", got.Places())
	}
}

func TestModeString(t *testing.T) {
	for mode, want := range map[Mode]string{
		HalfEven: "half even", HalfAway: "half away from zero", Down: "down", Up: "up",
	} {
		if got := mode.String(); got != want {
			t.Errorf("%d prints as %q, want %q", mode, got, want)
		}
	}
}

// Rounding again to the same or more places changes nothing; rounding down and
// up enclose the number within one step.
func TestRoundLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, places, mode := numbers().Draw(t, "a"), places().Draw(t, "places"), modes().Draw(t, "mode")
		r := a.Round(places, mode)
		if again := r.Round(places+rapid.IntRange(0, 5).Draw(t, "more"), mode); !again.Equal(r) {
			t.Fatalf("rounded again, %v became %v", r, again)
		}
		if !a.Neg().Round(places, mode).Equal(r.Neg()) {
			t.Fatalf("%v and its negative round apart", a)
		}
		down, up := a.Abs().Round(places, Down), a.Abs().Round(places, Up)
		if a.Abs().Less(down) || up.Less(a.Abs()) || New(1, places).Less(up.Sub(down)) {
			t.Fatalf("%v and %v do not enclose %v in one step", down, up, a.Abs())
		}
		if !r.Abs().Equal(down) && !r.Abs().Equal(up) {
			t.Fatalf("%v is neither %v nor %v", r, down, up)
		}
	})
}
