package exact

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// No function panics on any value, however odd, but by division by zero.

func anyPlaces() *rapid.Generator[int] {
	return rapid.OneOf(rapid.IntRange(-3, 30),
		rapid.SampledFrom([]int{math.MinInt, math.MinInt32, -256, 255, 256, 300, math.MaxInt32, math.MaxInt32 + 1, math.MaxInt}))
}

func TestNumbersAreTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := numbers().Draw(t, "a"), numbers().Draw(t, "b")
		places, mode := anyPlaces().Draw(t, "places"), Mode(rapid.Byte().Draw(t, "mode"))
		m, _ := MoneyOf(a), mode.String()
		if n := New(rapid.Int64().Draw(t, "coef"), places); n.Places() > MaxPlaces {
			t.Fatalf("New made %d places", n.Places())
		}
		if r := a.Round(places, mode); r.Places() > max(a.Places(), 0) {
			t.Fatalf("%v became %v", a, r)
		}
		if s := a.Fixed(places); len(s) > len(a.String())+MaxPlaces+1 {
			t.Fatalf("Fixed(%d) wrote %d bytes", places, len(s))
		}
		m.Round(places, mode)
		m.FirstOf(rapid.Int().Draw(t, "k"), rapid.Int().Draw(t, "n"), places)
		if !b.IsZero() {
			r := a.Over(b)
			r.Round(places, mode)
			_, _, _ = r.String(), r.Floor(), r.Ceil()
			m.Share(b.Add(a), b, places)
		}
		Split(a, []Number{a, b, {}}, places)
	})
}

func TestQuantitiesAreTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, v := Unit(rapid.Byte().Draw(t, "u")), Unit(rapid.Byte().Draw(t, "v"))
		q, p := u.Of(numbers().Draw(t, "q")), v.Of(numbers().Draw(t, "p"))
		for _, err := range []error{
			second(q.Add(p)), second(q.Sub(p)), second(q.Cmp(p)), second(q.In(v)), second(q.Through(numbers().Draw(t, "density"), v)),
		} {
			if err != nil && err.Error() == "" {
				t.Fatal("an error that says nothing")
			}
		}
		_, _, _, _, _ = q.String(), q.Base(), q.Sign(), q.Given(), Units(Dimension(u))
	})
}

func second[T any](_ T, err error) error { return err }

func TestTimesAreTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, n := Date(rapid.Int32().Draw(t, "d")), rapid.Int().Draw(t, "n")
		for _, moved := range []Date{d.AddDays(n), d.AddMonths(n), d.Month()} {
			_, _, _ = moved.String(), moved.Weekday(), moved.Midnight(time.UTC)
		}
		y := rapid.Int().Draw(t, "y")
		_ = DateOf(y, time.Month(n), n)
		if in := DaysIn(y, time.Month(n)); in < 28 || in > 31 {
			t.Fatalf("%d-%d has %d days", y, n, in)
		}
		_ = FormatDuration(time.Duration(n))
		LocalTime(d, n, time.UTC)
	})
}

// Every parser takes or refuses any bytes at all, and refuses in few words.
func TestParsersAreTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(
			rapid.String(),
			rapid.StringMatching(`[-+]?[0-9]{0,20}[.,:]?[0-9]{0,12}[ ]?[hmsegLk]{0,3}`),
			rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }),
		).Draw(t, "s")
		for _, err := range []error{
			second(ParseNumber(s)), second(ParseQuantity(s)), second(ParseUnit(s)), second(ParseDate(s)),
			second(ParseMoment(s, time.UTC)), second(ParseDuration(s)), second(ParseCurrency(s)),
		} {
			if err != nil && len(err.Error()) > 500 {
				t.Fatalf("an error of %d bytes", len(err.Error()))
			}
		}
	})
}
