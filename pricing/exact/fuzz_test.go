package exact

import (
	"math/big"
	"regexp"
	"strings"
	"testing"
	"time"
)

// A number is read if and only if it is of the grammar; then it is the number
// that math/big reads, and what it prints reads as itself.
func FuzzParseNumber(f *testing.F) {
	for _, s := range []string{
		"0", "-0", "12.50", "999999999999999.999999999", "-1.000000001", "1e999999999", "NaN", "--5", "+5", ".5", "5.",
		"1,5", "1 000", "\u22125", "\u0663", strings.Repeat("7", 40), "", "1234567890123456", "1.0123456789", "0x1p-2", "1_0",
	} {
		f.Add(s)
	}
	grammar := regexp.MustCompile(`\A-?[0-9]{1,15}(\.[0-9]{1,9})?\z`)
	f.Fuzz(func(t *testing.T, s string) {
		n, err := ParseNumber(s)
		if (err == nil) != grammar.MatchString(s) {
			t.Fatalf("%q gives %v, %v", s, n, err)
		}
		if err != nil {
			return
		}
		want, _ := new(big.Rat).SetString(s)
		is(t, s, n, want)
		if again, err := ParseNumber(n.String()); err != nil || !again.Equal(n) {
			t.Fatalf("%v, printed from %q, reads as %v (%v)", n, s, again, err)
		}
	})
}

// A quantity that is read is a number of the grammar, spaces and a unit, and
// what it prints reads as itself.
func FuzzParseQuantity(f *testing.F) {
	for _, s := range []string{"500 g", "1.5L", "-3 ea", "1,5 kg", "1 000 g", "1e3 g", "5", "L", "5 l", "5 each", "--5 L", "12   doz", "5.kg"} {
		f.Add(s)
	}
	grammar := regexp.MustCompile(`\A-?[0-9]{1,15}(\.[0-9]{1,9})? *(mL|cL|dL|L|cc|floz|cup|pt|qt|gal|ukfloz|ukpt|ukqt|ukgal|g|kg|oz|lb|ea|doz|Wh|kWh|W|kW)\z`)
	f.Fuzz(func(t *testing.T, s string) {
		q, err := ParseQuantity(s)
		if (err == nil) != grammar.MatchString(s) {
			t.Fatalf("%q gives %v, %v", s, q, err)
		}
		if err != nil {
			return
		}
		again, err := ParseQuantity(q.String())
		if err != nil || again.Unit() != q.Unit() || !again.Number().Equal(q.Number()) {
			t.Fatalf("%v, printed from %q, reads as %v (%v)", q, s, again, err)
		}
	})
}

// A date is read if and only if package time reads it, of the years 1900 to
// 2999, and prints as it was written.
func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2025-02-28", "2024-02-29", "2025-02-29", "1900-01-01", "2999-12-31", "3000-01-01", "2025-2-28", "2025-13-01", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDate(s)
		want, bad := time.Parse(time.DateOnly, s)
		ok := bad == nil && want.Year() >= 1900 && want.Year() <= 2999
		if (err == nil) != ok {
			t.Fatalf("%q gives %v, %v; package time: %v", s, d, err, want)
		}
		if ok && (d != DateIn(want) || d.String() != s) {
			t.Fatalf("%q gives %v", s, d)
		}
	})
}

// A moment that is read is an instant of the zone, and printed with its offset
// it reads as itself.
func FuzzParseMoment(f *testing.F) {
	for _, s := range []string{"2025-02-28 18:30", "2025-10-26T02:30:00", "2025-03-30 02:30", "2025-02-28 18:30Z", "2025-02-28 18:30-0330", "2040-12-31 12:00"} {
		f.Add(s)
	}
	berlin := zone(f, "Europe/Berlin")
	f.Fuzz(func(t *testing.T, s string) {
		at, err := ParseMoment(s, berlin)
		if err != nil {
			return
		}
		again, err := ParseMoment(at.Format("2006-01-02 15:04:05-07:00"), berlin)
		inYears := at.Year() >= 1900 && at.Year() <= 2999 // an offset can carry it out
		if inYears && (err != nil || !again.Equal(at) || again.Location() != berlin) {
			t.Fatalf("%v, read from %q, is printed and read as %v (%v)", at, s, again, err)
		}
	})
}

// A duration that is read is from 0 to 31 days of whole seconds, is the one
// that package time reads where that reads it, and prints as what reads the same.
func FuzzParseDuration(f *testing.F) {
	for _, s := range []string{"8h24m", "8:24", "8:24:07", "504m", "90s", "0m", "744h", "745h", "2562048h", "5124096h", "8:60", "1h1h", "-8h"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDuration(s)
		if err != nil {
			return
		}
		if d < 0 || d > MaxDuration || d%time.Second != 0 {
			t.Fatalf("%q = %v", s, d)
		}
		if same, err := time.ParseDuration(s); err == nil && same != d {
			t.Fatalf("%q = %v, to package time %v", s, d, same)
		}
		if again, err := ParseDuration(FormatDuration(d)); err != nil || again != d {
			t.Fatalf("%v, printed, reads as %v (%v)", d, again, err)
		}
	})
}

// The parts of any amount by any weights keep the rule of splitting, or there
// is an error that the rule explains.
func FuzzSplit(f *testing.F) {
	f.Add(int64(1000), 2, []byte{1, 1, 1})
	f.Add(int64(-1), 0, []byte{0, 0, 5, 0})
	f.Add(int64(1<<62), 6, []byte{255, 255, 255, 255, 255, 255, 255, 127, 1})
	f.Add(int64(7), 19, []byte{})
	f.Fuzz(func(t *testing.T, coef int64, places int, weightBytes []byte) {
		if len(weightBytes) > 200 {
			return
		}
		places = clampPlaces(places) % 30
		whole := New(coef, min(places, maxScale))
		// Each byte is a weight: a factor of 0 to 15 and a power of ten up to 15.
		var list []Number
		total := 0
		for _, b := range weightBytes {
			list = append(list, New(int64(b&15), int(b>>4)))
			total += int(b & 15)
		}
		parts, err := Split(whole, list, places)
		if (err != nil) != (total == 0) {
			t.Fatalf("%v by %v: %v", whole, list, err)
		}
		if err == nil {
			checkSplit(t, whole, list, places, parts)
		}
	})
}

// Every operation on two numbers is math/big's.
func FuzzArithmetic(f *testing.F) {
	f.Add(int64(1), 0, int64(3), 18, 6, uint8(0))
	f.Add(int64(-1<<63), 0, int64(1<<63-1), 3, 0, uint8(1))
	f.Add(int64(1<<62), 18, int64(-1<<62), 0, 18, uint8(3))
	f.Fuzz(func(t *testing.T, x int64, xPlaces int, y int64, yPlaces int, places int, mode uint8) {
		a, b := New(x, clampPlaces(xPlaces)%25), New(y, clampPlaces(yPlaces)%25)
		places = clampPlaces(places) % 40
		p, q := asRat(t, a), asRat(t, b)
		is(t, "a+b", a.Add(b), new(big.Rat).Add(p, q))
		is(t, "a-b", a.Sub(b), new(big.Rat).Sub(p, q))
		is(t, "a*b", a.Mul(b), new(big.Rat).Mul(p, q))
		if a.Cmp(b) != p.Cmp(q) {
			t.Fatalf("%v against %v: %d", a, b, a.Cmp(b))
		}
		if b.IsZero() {
			return
		}
		quotient := new(big.Rat).Quo(p, q)
		isRatio(t, "a/b", a.Over(b), quotient)
		is(t, "a/b rounded", a.Over(b).Round(places, Mode(mode%4)), roundRat(quotient, places, Mode(mode%4)))
		share := roundRat(new(big.Rat).Mul(p, quotient), places, HalfEven)
		if !a.Equal(b) {
			is(t, "a's share", MoneyOf(a).Share(a, b, places).Number(), share)
		}
	})
}
