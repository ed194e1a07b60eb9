package page

import (
	"strconv"

	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// payback is the part about what the machine has earned back.
func payback(r Reports) (s section, err error) {
	p := r.Payback.Figures
	s = section{ID: "payback", Title: "The machine", Wide: "one", Said: firstOf(r.Payback.Words)}
	if len(p.Shown()) == 0 {
		return s, nil
	}
	t, o := tellerOf(r.Payback.Doc), p.Outlay
	for _, l := range []struct {
		name, class string
		sum         report.Value
	}{
		{"price", "", report.MoneyOf(o.Price)}, {"and repairs", "", report.MoneyOf(o.Repairs)}, {"less what it will fetch", "", report.MoneyOf(o.Residual)},
		{"to earn back", "sum", report.MoneyOf(o.Target())}, {"earned so far", "after", report.MoneyQuotient(p.Earned())}, {"left", "sum", report.MoneyQuotient(p.Left())},
	} {
		s.Lines = append(s.Lines, line{l.name, l.class, t.figure(l.sum)})
	}
	f := figure{ID: "earned", Title: "Earned back, in " + t.currency.Code(), About: firstOf(r.Payback.Words),
		Lead: "The line is what has been earned so far. Dots and the shade, if any, are an estimate: how it goes on at the pace of the last months, and how early or late that may end."}
	f.drawCurve(t, newCurve(p))
	s.Figures = []figure{f}
	s.Tables, err = tables(r.Payback.Doc, "payback", "by_machine", "rows", "pace", "sooner", "foods")
	return s, err
}

// A curve is what has been earned month by month, what there is to earn, and
// when that is done at the pace so far.
type curve struct {
	past  []pricePoint // of months' ends
	goal  report.Value
	paid  exact.Date // NoDate: it is paid for, or nobody knows
	early exact.Date // at the high end of the pace; NoDate: nobody knows
	late  exact.Date // at the low end; NoDate: not within the years looked ahead
	asOf  exact.Date // the day of the page: the figures end there, the estimate begins
}

func newCurve(p *figures.PaybackResult) curve {
	c := curve{goal: report.MoneyOf(p.Outlay.Target()), asOf: p.AsOf}
	for _, m := range p.Shown() {
		c.past = append(c.past, pricePoint{date: m.To, price: report.MoneyQuotient(m.SoFar)})
	}
	if p.Since.Key == "" && p.Pace.Paid.From > p.AsOf {
		c.paid, c.early, c.late = p.Pace.Paid.From, p.Pace.Earliest.From, p.Pace.Latest.From
	}
	return c
}

// How the curve is laid out, in pixels.
const (
	curveTop    = 16
	curveHeight = 240
	curveFoot   = 26
)

// drawCurve draws what has been earned, the goal, and the way there.
func (f *figure) drawCurve(t valueText, c curve) {
	first, last := c.past[0].date.Month(), c.past[len(c.past)-1].date
	if c.paid != exact.NoDate {
		last = max(last, c.paid)
		// Where the late end is very far off, the shade leaves the chart.
		if c.late != exact.NoDate && int(c.late-first) <= 2*int(c.paid-first) {
			last = max(last, c.late)
		}
	}
	high, low := c.goal.Ratio(), exact.Ratio{}
	for _, p := range c.past {
		low, high = low.Min(p.price.Ratio()), high.Max(p.price.Ratio())
	}
	a := newAxis(low, high, 4)
	f.Height = curveTop + curveHeight + curveFoot
	f.grid(t, a, curveTop, curveHeight)
	place := func(d exact.Date, v exact.Ratio) string {
		return pathX(inTime(d, first, last)) + " " + a.down(v, curveTop, curveHeight).String()
	}
	f.guess(c, last, place)
	path := "M" + place(first, exact.Ratio{})
	for _, p := range c.past {
		// The last month may not be over: it is drawn up to the day of the page.
		path += "L" + place(min(p.date, c.asOf), p.price.Ratio())
	}
	f.Shapes = append(f.Shapes, shape{Kind: "path", H: strconv.Itoa(f.Height), Class: "line", D: path})
	goal := a.down(c.goal.Ratio(), curveTop, curveHeight)
	f.Shapes = append(f.Shapes, level("goal", goal), words("value on", "0", goal.Sub(exact.Int(7)), "to earn back: "+t.short(c.goal)))
	for _, p := range c.past {
		f.Shapes = append(f.Shapes, shape{Kind: "dot", Class: "regular small", X: percent(inTime(min(p.date, c.asOf), first, last)),
			Y: a.down(p.price.Ratio(), curveTop, curveHeight).String(), Tip: "earned by " + t.day(min(p.date, c.asOf)) + ": " + t.whole(p.price)})
	}
	f.years(first, last)
}

// guess draws the way on from the last figure: a dotted line to the goal, and
// a shade between the early and the late end.
func (f *figure) guess(c curve, last exact.Date, place func(exact.Date, exact.Ratio) string) {
	if c.paid == exact.NoDate {
		return
	}
	now, goal := c.past[len(c.past)-1].price.Ratio(), c.goal.Ratio()
	start := place(c.asOf, now)
	if c.early > c.asOf {
		shade := "M" + start + "L" + place(c.early, goal)
		switch {
		case c.late == exact.NoDate: // at the low end of the pace it is never paid
			shade += "L" + place(last, goal) + "L" + place(last, now)
		case c.late > last:
			// How far the straight way to the late end has come where the chart ends.
			part := exact.Int(int64(last - c.asOf)).Over(exact.Int(int64(c.late - c.asOf)))
			shade += "L" + place(last, goal) + "L" + place(last, now.Add(goal.Sub(now).Mul(part)))
		default:
			shade += "L" + place(c.late, goal)
		}
		f.Shapes = append(f.Shapes, shape{Kind: "path", H: strconv.Itoa(f.Height), Class: "shade", D: shade + "Z"})
	}
	f.Shapes = append(f.Shapes, shape{Kind: "path", H: strconv.Itoa(f.Height), Class: "guess", D: "M" + start + "L" + place(c.paid, goal)})
}

// years names years below the curve, as many as there is room for.
func (f *figure) years(first, last exact.Date) {
	from, _, _ := first.Civil()
	to, _, _ := last.Civil()
	narrow, wide := nameEvery(to-from+1, 5, 1, 2, 5, 10, 20, 50, 100), nameEvery(to-from+1, 12, 1, 2, 5, 10, 20, 50, 100)
	base := exact.Int(curveTop + curveHeight + 18)
	for y := from; y <= to; y++ {
		class, at := "tick middle", exact.DateOf(y, 1, 1)
		switch {
		case at < first:
			continue
		case y%wide != 0:
			continue
		case y%narrow != 0:
			class += " roomy"
		}
		f.Shapes = append(f.Shapes, words(class, percent(inTime(at, first, last)), base, strconv.Itoa(y)))
	}
}
