package page

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger/report"
	"putby/pricing/exact"
)

var euro = valueText{currency: mustCurrency("EUR")}

func mustCurrency(code string) exact.Currency {
	c, err := exact.ParseCurrency(code)
	if err != nil {
		panic(err)
	}
	return c
}

func price(s string, u exact.Unit) report.Value { return report.PriceOf(ratio(s), u) }

func costBar(name, total, shelf string, u exact.Unit) bar {
	return bar{name: name, total: price(total, u), beside: price(shelf, u),
		parts: []part{{class: "food", name: "food", value: price(total, u)}}}
}

// find returns the shapes of a class.
func (f *figure) find(class string) (list []shape) {
	all := append(slices.Clone(f.Shapes), f.Axis...)
	for _, row := range f.Bars {
		all = append(all, row.Shapes...)
	}
	for _, s := range all {
		if s.Class == class || strings.HasPrefix(s.Class, class+" ") {
			list = append(list, s)
		}
	}
	return list
}

// A bar far longer than the others is cut, and says so: else the others would
// all look alike.
func TestOneLongBarIsCut(t *testing.T) {
	var f figure
	f.drawBars(euro, []bar{
		costBar("apples", "2", "4", exact.Kg), costBar("corn", "6", "8", exact.Kg),
		costBar("chives", "9", "59", exact.Kg), costBar("saffron", "3000", "9000", exact.Kg),
	})
	marks, cuts := f.find("shelf"), f.find("beyond")
	if len(marks) != 2 || marks[0].X != "40%" || marks[1].X != "80%" {
		t.Errorf("the shelf prices are marked at %+v", marks)
	}
	if len(cuts) != 3 { // the shelf price of chives, and both of saffron
		t.Errorf("%d bars and marks are cut: %+v", len(cuts), cuts)
	}
	for _, s := range f.find("part") {
		if s.Tip == "food: 3000.000000000000 EUR per kg" && s.W != "100%" {
			t.Errorf("the cut bar is %s wide", s.W)
		}
	}
	if end := f.find("tick end"); len(end) != 1 || end[0].Text != "10" {
		t.Errorf("the axis ends at %+v", end)
	}
}

// Charts are drawn in the units that tables show, so that the axis and the
// figures beside the bars agree, and the tips with them.
func TestBarsFollowTheUnitsShown(t *testing.T) {
	quarts := valueText{currency: mustCurrency("USD"), show: report.Show{Volume: exact.Qt}}
	var f figure
	f.drawBars(quarts, []bar{costBar("broth", "10", "10", exact.L)})
	// 10 a litre are 9.46352946 a quart (NIST SP 811: 1 qt = 0.946352946 L).
	if row := f.Bars[0]; row.Figures != "9.4635 · shop 9.4635" || row.Loss {
		t.Errorf("the figures are %+v", row)
	}
	if s := f.find("shelf"); s[0].X != "94.64%" || !strings.HasSuffix(s[0].Tip, "9.463529460000 USD per qt") {
		t.Errorf("the mark is %+v", s[0])
	}
}

// The parts of a bar follow each other without gap or overlap, and end where
// the total does.
func TestPartsOfABarAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts []part
		var sum exact.Ratio
		for range rapid.IntRange(1, 5).Draw(t, "parts") {
			v := exact.New(rapid.Int64Range(0, 1e6).Draw(t, "v"), 4).Over(exact.Int(rapid.Int64Range(1, 9).Draw(t, "d")))
			sum = sum.Add(v)
			parts = append(parts, part{class: "food", name: "food", value: report.PriceOf(v, exact.L)})
		}
		var f figure
		f.drawBars(euro, []bar{{name: "x", total: report.PriceOf(sum, exact.L), parts: parts}})
		end := exact.Number{}
		for _, s := range f.find("part") {
			x, w := exact.MustNumber(strings.TrimSuffix(s.X, "%")), exact.MustNumber(strings.TrimSuffix(s.W, "%"))
			if off := x.Sub(end).Abs(); exact.New(2, 2).Less(off) {
				t.Fatalf("a part begins at %v, the one before ends at %v", x, end)
			}
			end = x.Add(w)
		}
		if exact.New(10002, 2).Less(end) {
			t.Fatalf("the parts end at %v %%", end)
		}
	})
}

func month(s, money string) pricePoint {
	return pricePoint{date: exact.MustDate(s), price: report.MoneyQuotient(ratio(money))}
}

// The curve ends where the figures do; the way on begins there and meets the
// goal in the month of the estimate.
func TestCurveMeetsItsGoal(t *testing.T) {
	c := curve{
		past: []pricePoint{month("2024-01-31", "10"), month("2024-12-31", "100")}, goal: report.MoneyOf(exact.MustMoney("400")),
		asOf: exact.MustDate("2024-12-31"), paid: exact.MustDate("2028-01-01"), early: exact.MustDate("2027-01-01"), late: exact.MustDate("2030-01-01"),
	}
	var f figure
	f.drawCurve(euro, c)
	guess, shade, goal := f.find("guess"), f.find("shade"), f.find("goal")
	if len(guess) != 1 || len(shade) != 1 || len(goal) != 1 {
		t.Fatalf("%d ways on, %d shades, %d goals", len(guess), len(shade), len(goal))
	}
	// From 2024-01-01 to 2030-01-01 there are 2192 days; 0 to 400 on 240 pixels.
	if want := "M1665 196L6665 16"; guess[0].D != want {
		t.Errorf("the way on is %s, want %s", guess[0].D, want)
	}
	if goal[0].Y != "16" || !strings.HasSuffix(shade[0].D, "L10000 16Z") {
		t.Errorf("the goal is at %s, the shade is %s", goal[0].Y, shade[0].D)
	}
	c.late = exact.NoDate // it may never be paid
	f = figure{}
	f.drawCurve(euro, c)
	if shade := f.find("shade"); len(shade) != 1 || strings.Count(shade[0].D, "L") != 3 {
		t.Errorf("without a late end the shade is %+v", shade)
	}
	c.paid, c.early = exact.NoDate, exact.NoDate
	f = figure{}
	f.drawCurve(euro, c)
	if len(f.find("guess"))+len(f.find("shade")) != 0 {
		t.Error("a way on is drawn that nobody knows")
	}
}

// A price holds until the next one: the line has only level and upright parts.
func TestPricesAreSteps(t *testing.T) {
	var f figure
	first, last := exact.MustDate("2025-01-01"), exact.MustDate("2025-01-11")
	f.drawHistory(euro, []pricePoint{
		{date: first, price: price("4", exact.L)}, {date: exact.MustDate("2025-01-06"), price: price("2", exact.L)},
	}, []dots{{"offer", []pricePoint{{date: exact.MustDate("2025-01-03"), price: price("3", exact.L), label: "offered"}}}}, first, last)
	if d := f.find("line")[0].D; d != "M0 10H5000V94H10000" {
		t.Errorf("the line is %s", d)
	}
	if o := f.find("offer")[0]; o.X != "20%" || o.Y != "52" || o.Tip != "2025-01-03, offered: 3.000000000000" {
		t.Errorf("the offer is %+v", o)
	}
}

// What costs more than the shelf asks is told in words, at its own bar.
func TestALossIsTold(t *testing.T) {
	var f figure
	f.drawBars(euro, []bar{costBar("a very long name of a food, which is not to be cut", "5", "4", exact.Kg), costBar("corn", "6", "8", exact.Kg)})
	if !f.Bars[0].Loss || f.Bars[1].Loss {
		t.Errorf("at a loss are %v and %v", f.Bars[0].Loss, f.Bars[1].Loss)
	}
	if f.Bars[0].Name != "a very long name of a food, which is not to be cut" {
		t.Errorf("a name is cut: %q", f.Bars[0].Name)
	}
}

func saving(month, money string) stack {
	return stack{month: exact.MustDate(month), parts: []part{
		{class: "saved", name: "saved", value: report.MoneyOf(exact.MustMoney(money))},
		{class: "lost", name: "lost", less: true, value: report.MoneyOf(exact.MustMoney("1"))},
	}}
}

// A month of losses alone is not the highest with nothing.
func TestHighestOfLosses(t *testing.T) {
	if about := aboutColumns(euro, []stack{saving("2026-11-01", "-12.50")}, "Saved"); about != "Saved, from November 2026 to November 2026." {
		t.Error(about)
	}
	if about := aboutColumns(euro, []stack{saving("2026-10-01", "20"), saving("2026-11-01", "-12.50")}, "Saved"); !strings.HasSuffix(about, " The highest is October 2026 with 20.00 EUR.") {
		t.Error(about)
	}
}

// Charts side by side stand on one line, whatever is below it in each, and a loss
// where a gain should be has the colour of losses.
func TestChartsShareTheirBaseline(t *testing.T) {
	plain := []stack{{month: exact.MustDate("2025-01-01"), parts: []part{{class: "food", name: "food", value: report.MoneyOf(exact.MustMoney("730"))}}}}
	mixed := []stack{saving("2025-01-01", "20"), saving("2025-02-01", "-12.50")}
	axes := axesOf(plain, mixed)
	var a, b figure
	a.drawColumns(euro, plain, axes[0])
	b.drawColumns(euro, mixed, axes[1])
	if x, y := a.find("zero")[0].Y, b.find("zero")[0].Y; x != y {
		t.Errorf("one stands at %s, the other at %s", x, y)
	}
	if gains, losses := b.find("part saved"), b.find("part lost"); len(gains) != 1 || len(losses) != 3 {
		t.Errorf("%d parts are gains and %d losses: %+v", len(gains), len(losses), losses)
	}
}

// Many months are named sparely, and the newest are drawn.
func TestMonthsAreNamedSparely(t *testing.T) {
	for _, n := range []int{1, 5, 13, 24, 120} {
		var stacks []stack
		for i := range n {
			stacks = append(stacks, stack{month: exact.MustDate("2015-03-01").AddMonths(i),
				parts: []part{{class: "food", name: "food", value: report.MoneyOf(exact.MustMoney("10"))}}})
		}
		var f figure
		f.drawColumns(euro, stacks, axesOf(stacks)[0])
		always, roomy := 0, 0
		for _, s := range f.find("tick middle") {
			switch {
			case strings.Contains(s.Class, "year"):
			case strings.Contains(s.Class, "roomy"):
				roomy++
			default:
				always++
			}
		}
		if always > 10 || always+roomy > 16 || always == 0 && n > 12 {
			t.Errorf("of %d months %d are named on a phone and %d on a desk", n, always, always+roomy)
		}
	}
}
