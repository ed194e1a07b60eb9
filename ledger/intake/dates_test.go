package intake

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// TestWrittenDates has the ways of writing a date that shops and banks use, in
// each order: dmy, mdy, ymd. A dash means that it is none then.
func TestWrittenDates(t *testing.T) {
	for _, c := range []struct{ text, dmy, mdy, ymd string }{
		{"2025-03-02", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"2025/3/2", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"20250302", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"02.03.2025", "2025-03-02", "2025-02-03", "-"},
		{"2.3.2025", "2025-03-02", "2025-02-03", "-"},
		{"2. 3. 2025", "2025-03-02", "2025-02-03", "-"},
		{"02/03/25", "2025-03-02", "2025-02-03", "2002-03-25"},
		{"02-03-25", "2025-03-02", "2025-02-03", "2002-03-25"},
		{"31.12.2025", "2025-12-31", "-", "-"},
		{"12/31/2025", "-", "2025-12-31", "-"},
		{"29.02.2025", "-", "-", "-"},
		{"2 Mar 2025", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"March 2, 2025", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"2nd of March 2025", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"Sun, 2 Mar 2025", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"Sunday 2 March 2025", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"So, 2. März 2025", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"2 août 25", "2025-08-02", "2025-08-02", "2025-08-02"},
		{"1er juin 2025", "2025-06-01", "2025-06-01", "2025-06-01"},
		{"2 de mayo de 2025", "2025-05-02", "2025-05-02", "2025-05-02"},
		{"2025 Mar 2", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"02-DEC-2025", "2025-12-02", "2025-12-02", "2025-12-02"},
		{"2025-03-02T18:30:00+01:00", "2025-03-02", "2025-03-02", "2025-03-02"},
		{"02.03.2025 18:30", "2025-03-02", "2025-02-03", "-"},
		{"1899-12-31", "-", "-", "-"},
		{"3000-01-01", "-", "-", "-"},
		{"2025-13-01", "-", "-", "-"},
		{"2025-00-01", "-", "-", "-"},
		{"2025-01-00", "-", "-", "-"},
		{"02.03.", "-", "-", "-"},
		{"02.03", "-", "-", "-"},
		{"1.2.3.2025", "-", "-", "-"},
		{"2.3.205", "-", "-", "-"},
		{"2.3.5", "-", "-", "-"},
		{"2025.2025.1", "-", "-", "-"},
		{"Total", "-", "-", "-"},
		{"45718", "-", "-", "-"},
		{"", "-", "-", "-"},
		{"2025-03-02 25:00", "-", "-", "-"},
		{"2025-03-02 18:60", "-", "-", "-"},
		{"12:30", "-", "-", "-"},
	} {
		for i, want := range []string{c.dmy, c.mdy, c.ymd} {
			got := "-"
			if w, err := takeApart(c.text); err == nil {
				if d, ok := w.in(orders[i]); ok {
					got = d.String()
				}
			}
			if got != want {
				t.Errorf("%q as %s is %s, want %s", c.text, orders[i], got, want)
			}
		}
	}
}

func TestClocks(t *testing.T) {
	for text, want := range map[string]string{
		"2025-03-02 18:30":             "2025-03-02 18:30",
		"2025-03-02 8:05":              "2025-03-02 08:05",
		"2025-03-02T18:30:07":          "2025-03-02 18:30:07",
		"2025-03-02T18:30:07.25Z":      "2025-03-02 18:30:07Z",
		"2025-03-02 18:30 +01:00":      "2025-03-02 18:30+01:00",
		"2025-03-02 18:30-0330":        "2025-03-02 18:30-03:30",
		"2025-03-02 18:30:00+02":       "2025-03-02 18:30+02:00",
		"2025-03-02 6:30 PM":           "2025-03-02 18:30",
		"2025-03-02 6:30pm":            "2025-03-02 18:30",
		"2025-03-02 12:05 am":          "2025-03-02 00:05",
		"2025-03-02 12:05 p.m.":        "2025-03-02 12:05",
		"2025-03-02, 18:30 Uhr":        "2025-03-02 18:30",
		"2 Mar 2025 at 18:30":          "2025-03-02 18:30",
		"2025-03-02 13:05 pm":          "",
		"2025-03-02 18:30 +1":          "",
		"2025-03-02 18:30:07:09":       "",
		"2025-03-02 18:30 in the barn": "",
	} {
		got := ""
		if w, err := takeApart(text); err == nil {
			d, _ := w.in(DayMonthYear)
			got = formatMoment(d, w.clock)
		}
		if got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
		if want != "" {
			if _, err := exact.ParseMoment(got, time.UTC); err != nil {
				t.Errorf("%q: %v", text, err)
			}
		}
	}
}

func TestOrderSense(t *testing.T) {
	for _, c := range []struct {
		cells string
		want  Order
		err   error
	}{
		{"02.03.2025 14.03.2025", DayMonthYear, nil},
		{"03/02/2025 03/14/2025", MonthDayYear, nil},
		{"2025-03-02 2025-03-14", DayMonthYear, nil},  // any order will do
		{"05/05/2025 06/06/2025", DayMonthYear, nil},  // the same in both
		{"25/03/31 25/04/01", AnyOrder, ErrAmbiguous}, // or 25 March 2031
		{"42/03/31 25/04/01", YearMonthDay, nil},
		{"02.03.2025 04.05.2025", AnyOrder, ErrAmbiguous},
		{"02/03/04", AnyOrder, ErrAmbiguous},
		{"14.03.2025 03.14.2025", AnyOrder, ErrMixed},
		{"2025-03-02 02.03.2025 14.03.2025", DayMonthYear, nil},
		{"31.31.2025 02.03.2025 14.03.2025 Total", DayMonthYear, nil},
		{"Total", AnyOrder, nil},
		{"", AnyOrder, nil},
	} {
		var x evidence
		for i, cell := range strings.Fields(c.cells) {
			x.seeDate(i+1, cell)
		}
		got, err := x.order()
		if got != c.want || (err == nil) != (c.err == nil) || err != nil && !errors.Is(err, c.err) {
			t.Errorf("%s: %q, %v", c.cells, got, err)
		}
	}
}

// TestDateComesBack: a date written in an order is read as that date, and a
// file of dates that has a day above 12 is never read in a wrong order.
func TestDateComesBack(t *testing.T) {
	layouts := map[Order][]string{
		DayMonthYear: {"02.01.2006", "2.1.2006", "2/1/06", "02-01-2006", "2 Jan 2006"},
		MonthDayYear: {"01/02/2006", "1/2/2006", "1/2/06", "Jan 2, 2006"},
		YearMonthDay: {"2006-01-02", "2006/1/2", "06-01-02", "20060102"},
	}
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.SampledFrom(orders[:]).Draw(t, "order")
		layout := rapid.SampledFrom(layouts[order]).Draw(t, "layout")
		days := rapid.SliceOfN(rapid.IntRange(0, 36524), 1, 20).Draw(t, "days") // 2000 to 2099
		var x evidence
		for i, day := range days {
			date := time.Date(2000, 1, 1+day, 0, 0, 0, 0, time.UTC)
			text := date.Format(layout)
			x.seeDate(i+1, text)
			w, err := takeApart(text)
			if err != nil {
				t.Fatalf("%q: %v", text, err)
			}
			if got, ok := w.in(order); !ok || got != exact.DateIn(date) {
				t.Fatalf("%q as %s is %v, %v", text, order, got, ok)
			}
		}
		found, err := x.order()
		if err != nil {
			return // refused, not guessed
		}
		for _, day := range days {
			date := time.Date(2000, 1, 1+day, 0, 0, 0, 0, time.UTC)
			w, _ := takeApart(date.Format(layout))
			if got, ok := w.in(found); !ok || got != exact.DateIn(date) {
				t.Fatalf("%s was taken for %s: %s became %v", order, found, date.Format(layout), got)
			}
		}
	})
}

func TestOrderWords(t *testing.T) {
	for o := AnyOrder; o <= Serial; o++ {
		if got, err := ParseOrder(o.String()); got != o || err != nil {
			t.Errorf("%q: %v, %v", o, got, err)
		}
	}
	if _, err := ParseOrder("ydm"); err == nil {
		t.Error("ydm was taken")
	}
}

// TestSerialDates checks both of a workbook's calendars: ECMA-376 part 1,
// 18.17.4.1 (memory): 1900-01-01 is 1 and 1900-03-01 is 61 in the one,
// 1904-01-01 is 0 in the other, and the two lie 1462 days apart.
func TestSerialDates(t *testing.T) {
	for _, c := range []struct {
		serial   string
		from1904 bool
		want     string
	}{
		{"1", false, "1900-01-01 00:00"},
		{"59", false, "1900-02-28 00:00"},
		{"60", false, "-"},
		{"61", false, "1900-03-01 00:00"},
		{"0", true, "1904-01-01 00:00"},
		{"1462", false, "1904-01-01 00:00"},
		{"45718", false, "2025-03-02 00:00"},
		{"44256", true, "2025-03-02 00:00"},
		{"45718.770833333336", false, "2025-03-02 18:30"},
		{"45718.77083333334", false, "2025-03-02 18:30"},
		{"45718.999999999", false, "2025-03-03 00:00"},
		{"45718.0000115741", false, "2025-03-02 00:00:01"},
		{"4.5718E4", false, "2025-03-02 00:00"},
		{"0.5", false, "-"},
		{"0.5", true, "1904-01-01 12:00"},
		{"-1", false, "-"},
		{"1E6", false, "-"},
	} {
		n, ok := stored(c.serial)
		if !ok {
			t.Fatalf("%s is no stored number", c.serial)
		}
		got := "-"
		if d, sec, err := (serialDate{n, c.from1904}).moment(); err == nil {
			got = formatMoment(d, clock{sec: sec})
		}
		if got != c.want {
			t.Errorf("%s (1904: %v) is %s, want %s", c.serial, c.from1904, got, c.want)
		}
	}
}

func TestStoredNumbers(t *testing.T) {
	for text, want := range map[string]string{
		"0": "0", "-0": "0", "1": "1", "2.99": "2.99", "2.9900000000000002": "2.99", "0.30000000000000004": "0.3",
		"1.1499999999999999": "1.15", "-12.5": "-12.5", "1E3": "1000", "1.5e+3": "1500", "5E-2": "0.05",
		"1.2345678901234567E-7": "0.000000123456789012346", "123456789012345680": "123456789012346000",
		"1E-300": "0", "0E999": "0", "00012": "12",
		"1E16": "-", "1E300": "-", "": "-", "1.": "-", ".5": "-", "1,5": "-", "0x10": "-", "1e": "-", "1e5.5": "-",
		"NaN": "-", "+1": "-", "1 ": "-", "1E1000": "-", "1234567890123456789": "-",
	} {
		got := "-"
		if n, ok := stored(text); ok {
			got = n.String()
		}
		if got != want {
			t.Errorf("%q is %s, want %s", text, got, want)
		}
	}
}

// TestStoredComesBack: what a binary fraction prints for a number of at most 15
// digits, with all the 17 digits that it can have, is read as that number.
func TestStoredComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 9).Draw(t, "places")
		n := exact.New(rapid.Int64Range(-99_999_999_999_999, 99_999_999_999_999).Draw(t, "coef"), places)
		var f float64
		if _, err := fmt.Sscan(n.String(), &f); err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{fmt.Sprintf("%.17g", f), fmt.Sprintf("%v", f), fmt.Sprintf("%.15E", f)} {
			if got, ok := stored(text); !ok || !got.Equal(n) {
				t.Fatalf("%q is %v, %v; want %v", text, got, ok, n)
			}
		}
	})
}
