package exact

import (
	"testing"
	"time"
)

// Ledgers have a hundred thousand rows, and each of their figures is a sum of
// some: what a row needs must not allocate.
func TestNoAllocations(t *testing.T) {
	money := amounts(1000)
	a, b := MustNumber("1234.567891"), MustNumber("0.000123456")
	third, ninth := Int(1).Over(Int(3)), Int(1).Over(Int(9))
	q := MustQuantity("1.5 qt")
	date := MustDate("2025-02-28")
	line := make([]byte, 0, 200)
	berlin := zone(t, "Europe/Berlin")
	var sum Money
	for name, do := range map[string]func(){
		"a sum": func() {
			sum = Money{}
			for _, m := range money {
				sum = sum.Add(m)
			}
		},
		"a difference":     func() { _ = a.Sub(b) },
		"a product":        func() { _ = a.Mul(b) },
		"a comparison":     func() { _ = a.Cmp(b) },
		"a comparison far": func() { _ = Int(1 << 62).Cmp(New(1, 18)) },
		"a rounding":       func() { _ = a.Round(2, HalfEven) },
		"places":           func() { _, _ = a.Places(), a.IsInt() },
		"a number read":    func() { _, _ = ParseNumber("-123456789.123456789") },
		"a quantity read":  func() { _, _ = ParseQuantity("1.5 kg") },
		"a date read":      func() { _, _ = ParseDate("2025-02-28") },
		"a duration read":  func() { _, _ = ParseDuration("8h24m"); _, _ = ParseDuration("8:24:07") },
		"a moment read":    func() { _, _ = ParseMoment("2025-02-28 18:30", berlin) },
		"a ratio":          func() { _ = a.Over(b) },
		"ratios added":     func() { _ = third.Add(ninth) },
		"ratios divided":   func() { _ = third.Mul(ninth).Quo(third) },
		"ratios compared":  func() { _ = third.Cmp(ninth) },
		"a ratio rounded":  func() { _ = third.Round(12, HalfEven) },
		"a ratio's number": func() { _, _ = Int(1).Over(Int(640)).Number() },
		"a share":          func() { _ = money[0].Share(a, Int(5000), 6) },
		"first parts":      func() { _ = money[0].FirstOf(3, 7, 6) },
		"a conversion":     func() { _, _ = q.In(ML) },
		"through density":  func() { _, _ = q.Through(MustNumber("1.03"), Kg) },
		"a number written": func() { line = a.AppendTo(line[:0]); line = a.AppendFixed(line, 12) },
		"a date written":   func() { line = date.AppendTo(line[:0]) },
		"a date's parts":   func() { _, _, _ = date.Civil(); _ = date.AddMonths(1).Month().Weekday() },
		"midnight":         func() { _ = date.Midnight(time.UTC) },
	} {
		if got := testing.AllocsPerRun(20, do); got != 0 {
			t.Errorf("%s allocates %v times", name, got)
		}
	}
	if sum.IsZero() {
		t.Error("nothing was added")
	}
}

// Splitting allocates its parts, and where weights are many one list besides;
// under the race detector that list is never spared.
func TestSplitAllocations(t *testing.T) {
	few, many := numbersUpTo(12), numbersUpTo(500)
	m := MustMoney("1234.56")
	for name, c := range map[string]struct {
		most float64
		do   func()
	}{
		"few weights":  {2, func() { _, _ = m.Split(few, 6) }},
		"many weights": {10, func() { _, _ = Split(m.Number(), many, 6) }},
	} {
		if got := testing.AllocsPerRun(20, c.do); got > c.most {
			t.Errorf("%s: %v allocations, want at most %v", name, got, c.most)
		}
	}
}

// amounts returns n amounts as a ledger posts and receipts print them.
func amounts(n int) []Money {
	list := make([]Money, n)
	for i := range list {
		list[i] = MoneyOf(New(int64(i%9973)*7919+1, 6))
		if i%4 == 0 {
			list[i] = MoneyOf(New(int64(i%9973)+1, 2))
		}
	}
	return list
}

func numbersUpTo(n int) []Number {
	list := make([]Number, n)
	for i := range list {
		list[i] = New(int64(i*i+1), 3)
	}
	return list
}
