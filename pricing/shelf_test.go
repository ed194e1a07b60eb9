package pricing_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

func ask(date, perUnit string, terms pricing.Terms, form pricing.Form, line int) pricing.Ask {
	return pricing.Ask{
		Date: day(date), Shop: "Corner", Terms: terms, Form: form,
		PerUnit: exact.RatioOf(num(perUnit)), Line: line,
	}
}

func TestShelfAt(t *testing.T) {
	const reg, off, fresh, dried = pricing.Regular, pricing.OnOffer, pricing.Fresh, pricing.Preserved
	shelf := pricing.NewShelf([]pricing.Ask{
		ask("2025-03-01", "2.10", reg, fresh, 2),
		ask("2025-01-10", "1.90", reg, fresh, 3),
		ask("2025-03-01", "2.30", reg, fresh, 4), // later in the file wins the day
		ask("2025-03-01", "1.20", off, fresh, 5),
		ask("2025-04-01", "9.00", reg, dried, 6),
		ask("2025-04-01", "9.50", reg, dried, 7),
		ask("2025-04-20", "9.90", reg, dried, 8),
	})
	tests := []struct {
		day   string
		terms pricing.Terms
		form  pricing.Form
		line  int
	}{
		{"2025-03-01", reg, fresh, 4},
		{"2025-12-31", reg, fresh, 4},
		{"2025-02-28", reg, fresh, 3},
		{"2025-01-10", reg, fresh, 3},
		{"2024-06-01", reg, fresh, 3}, // none yet: the next after
		{"2024-06-01", off, fresh, 5},
		{"2025-03-31", reg, dried, 7}, // the last of the next date
		{"2025-04-01", reg, dried, 7},
		{"2025-04-20", reg, dried, 8},
	}
	for _, test := range tests {
		got, ok := shelf.At(day(test.day), test.terms, test.form)
		if !ok || got.Line != test.line {
			t.Errorf("%s %v %v: line %d (%v), want %d", test.day, test.terms, test.form, got.Line, ok, test.line)
		}
	}
	if got, ok := shelf.At(day("2025-04-01"), off, dried); ok {
		t.Errorf("an offer on the dried food: %+v, want none", got)
	}
	if _, ok := pricing.NewShelf(nil).At(day("2025-04-01"), reg, fresh); ok {
		t.Error("an empty shelf has a price")
	}
}

// Law: At gives what a plain reading of the rule gives, row by row.
func TestShelfAtTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		asks := make([]pricing.Ask, rapid.IntRange(0, 12).Draw(t, "asks"))
		for i := range asks {
			asks[i] = pricing.Ask{
				Date:  exact.Date(rapid.IntRange(0, 6).Draw(t, "date")),
				Terms: pricing.Terms(rapid.IntRange(0, 1).Draw(t, "terms")),
				Form:  pricing.Form(rapid.IntRange(0, 1).Draw(t, "form")),
				Line:  i,
			}
		}
		on := exact.Date(rapid.IntRange(-1, 7).Draw(t, "on"))
		want := -1
		for i, a := range asks {
			if a.Terms != pricing.Regular || a.Form != pricing.Fresh {
				continue
			}
			if want < 0 || plainlyBetter(a.Date, asks[want].Date, on) {
				want = i
			}
		}
		got, ok := pricing.NewShelf(asks).At(on, pricing.Regular, pricing.Fresh)
		if ok != (want >= 0) || ok && got.Line != want {
			t.Fatalf("line %d (%v), want %d", got.Line, ok, want)
		}
	})
}

// plainlyBetter reports whether a row of date d, further down the file,
// replaces one of date best as the price of the day on.
func plainlyBetter(d, best, on exact.Date) bool {
	switch {
	case d <= on && best <= on:
		return d >= best
	case d > on && best > on:
		return d <= best
	}
	return d <= on
}

func ExampleShelf_At() {
	shelf := pricing.NewShelf([]pricing.Ask{
		{Date: day("2025-01-10"), Shop: "Corner", PerUnit: num("1.45").Over(num("0.75"))},
		{Date: day("2025-03-01"), Shop: "Market", PerUnit: num("2.10").Over(num("1"))},
	})
	a, _ := shelf.At(day("2025-02-14"), pricing.Regular, pricing.Fresh)
	fmt.Println(a.Shop, a.PerUnit.Round(4, exact.HalfAway))
	// Output: Corner 1.9333
}

func BenchmarkShelfAt(b *testing.B) {
	asks := make([]pricing.Ask, 5000)
	for i := range asks {
		asks[i] = pricing.Ask{Date: exact.Date(i), Terms: pricing.Terms(i % 2), Form: pricing.Form(i / 2 % 2)}
	}
	shelf := pricing.NewShelf(asks)
	b.ReportAllocs()
	for b.Loop() {
		shelf.At(3333, pricing.Regular, pricing.Fresh)
	}
}
