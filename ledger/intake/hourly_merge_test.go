package intake

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/pricing/exact"
)

// hoursOf are prices that follow each other from t0 on, step by step; "" is a
// gap.
func hoursOf(after int, step time.Duration, rates ...string) *HourlyPrices {
	p := new(HourlyPrices)
	for i, rate := range rates {
		if rate != "" {
			from := t0.Add(time.Duration(after)*time.Hour + time.Duration(i)*step)
			p.List = append(p.List, HourlyPrice{From: from, Until: from.Add(step), Rate: exact.MustNumber(rate)})
		}
	}
	return p
}

// said writes rows as hours after t0 and rates.
func said(list []energy.Price) string {
	var s []string
	for _, p := range list {
		rate := "?"
		if n, ok := p.Rate.Get(); ok {
			rate = n.String()
		}
		s = append(s, fmt.Sprintf("%v %s", p.At.Sub(t0).Hours(), rate))
	}
	return strings.Join(s, ", ")
}

func TestMergeHourly(t *testing.T) {
	half := 30 * time.Minute
	for name, c := range map[string]struct {
		have    *HourlyPrices
		raw     []energy.Price // of a file that somebody wrote by hand
		file    *HourlyPrices
		replace bool
		rows    string
		said    string // added, there, replaced, differing, missing
	}{
		"the first":               {nil, nil, hoursOf(0, time.Hour, "1", "2"), false, "0 1, 1 2, 2 ?", "2 0 0 0 0"},
		"the next day":            {hoursOf(0, time.Hour, "1", "2"), nil, hoursOf(2, time.Hour, "3"), false, "0 1, 1 2, 2 3, 3 ?", "1 0 0 0 0"},
		"again":                   {hoursOf(0, time.Hour, "1", "2"), nil, hoursOf(0, time.Hour, "1", "2"), false, "0 1, 1 2, 2 ?", "0 2 0 0 0"},
		"a gap between":           {hoursOf(0, time.Hour, "1"), nil, hoursOf(2, time.Hour, "3"), false, "0 1, 1 ?, 2 3, 3 ?", "1 0 0 0 1"},
		"the gap filled":          {hoursOf(0, time.Hour, "1", "", "3"), nil, hoursOf(1, time.Hour, "2"), false, "0 1, 1 2, 2 3, 3 ?", "1 0 0 0 0"},
		"other prices":            {hoursOf(0, time.Hour, "1", "2"), nil, hoursOf(1, time.Hour, "5", "6"), false, "0 1, 1 2, 2 6, 3 ?", "1 0 0 1 0"},
		"other prices in place":   {hoursOf(0, time.Hour, "1", "2"), nil, hoursOf(1, time.Hour, "5", "6"), true, "0 1, 1 5, 2 6, 3 ?", "1 0 1 0 0"},
		"halves of an hour":       {hoursOf(0, time.Hour, "1", "2"), nil, hoursOf(0, half, "1", "5"), false, "0 1, 1 2, 2 ?", "0 1 0 1 0"},
		"halves in place":         {hoursOf(0, time.Hour, "1", "2"), nil, hoursOf(0, half, "1", "5"), true, "0 1, 0.5 5, 1 2, 2 ?", "0 1 1 0 0"},
		"an hour of halves":       {hoursOf(0, half, "1", "1", "2", "3"), nil, hoursOf(0, time.Hour, "1", "2"), true, "0 1, 0.5 1, 1 2, 2 ?", "0 1 1 0 0"},
		"a half beside a half":    {hoursOf(0, half, "", "2"), nil, hoursOf(0, half, "1"), false, "0 1, 0.5 2, 1 ?", "1 0 0 0 0"},
		"after one by hand":       {nil, []energy.Price{{At: t0, Rate: num("1")}}, hoursOf(1, time.Hour, "2"), false, "0 1, 1 2, 2 ?", "1 0 0 0 0"},
		"within three hours":      {hoursOf(0, 3*time.Hour, "1", "2"), nil, hoursOf(4, time.Hour, "3"), true, "0 1, 3 2, 4 3, 5 2, 6 ?", "0 0 1 0 0"},
		"beside three hours' one": {nil, []energy.Price{{At: t0, Rate: num("1")}}, hoursOf(5, time.Hour, "2"), false, "0 1, 5 2, 6 ?", "1 0 0 0 1"},
	} {
		rows := c.raw
		if c.have != nil {
			rows = MergeHourly(nil, c.have, false).Prices
		}
		prices := must(energy.NewPrices(rows))
		m := MergeHourly(prices, c.file, c.replace)
		got := fmt.Sprint(m.Added, m.There, m.Replaced, len(m.Differ), len(m.Missing))
		if said(m.Prices) != c.rows || got != c.said {
			t.Errorf("%s: %s (%s)\nwant %s (%s)", name, said(m.Prices), got, c.rows, c.said)
		}
	}
}

// Whatever a ledger has: with --replace each of a file's times has its price
// afterwards, all others have what they had; a second import changes nothing;
// without it nothing that had a price changes.
func TestMergeHourlyLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) *HourlyPrices {
			step := rapid.SampledFrom([]time.Duration{15 * time.Minute, 30 * time.Minute, time.Hour}).Draw(t, name+" step")
			var rates []string
			for range rapid.IntRange(1, 20).Draw(t, name) {
				rates = append(rates, rapid.SampledFrom([]string{"", "1", "1", "2", "-3"}).Draw(t, "rate"))
			}
			return hoursOf(rapid.IntRange(0, 12).Draw(t, name+" after"), step, rates...)
		}
		before := must(energy.NewPrices(MergeHourly(nil, draw("have"), false).Prices))
		file, replace := draw("file"), rapid.Bool().Draw(t, "replace")
		m := MergeHourly(before, file, replace)
		after := must(energy.NewPrices(m.Prices))
		if again := MergeHourly(after, file, replace); replace && (again.Added+again.Replaced+len(again.Differ) > 0 || said(again.Prices) != said(m.Prices)) {
			t.Fatalf("again: %+v after %s", again, said(m.Prices))
		}
		rateAt := func(p *energy.Prices, at time.Time) string {
			for h := range p.Between(at, at.Add(time.Second)) {
				if !h.From.After(at) {
					return h.Rate.String()
				}
			}
			return ""
		}
		for minutes := 0; minutes < 80*60; minutes += 15 {
			at := t0.Add(time.Duration(minutes) * time.Minute)
			had, has, want := rateAt(before, at), rateAt(after, at), ""
			for _, p := range file.List {
				if !at.Before(p.From) && at.Before(p.Until) {
					want = p.Rate.String()
				}
			}
			switch {
			case replace && want != "" && has != want, want == "" && has != had, !replace && had != "" && has != had:
				t.Fatalf("at %v: had %q, file %q, has %q\n%s", at, had, want, has, said(m.Prices))
			}
		}
	})
}
