package intake

import (
	"cmp"
	"slices"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// An HourlyMerge is what a ledger's prices and those of a file come to.
type HourlyMerge struct {
	Prices   []energy.Price // all, to be written
	Added    int            // of the file
	There    int            // of the file, already in the ledger
	Replaced int            // of the ledger, by the file's
	Differ   []HourlyDiffer // left as the ledger has them
	Missing  []HourlyPrice  // times beside what was added that have no price
}

// An HourlyDiffer is a price for a time that the ledger has another for, or
// prices for other parts of.
type HourlyDiffer struct {
	HourlyPrice
	Has   exact.Number // that the ledger has first in its time
	Parts bool         // the ledger's begin or end at other times
}

// a heldPrice is a time with a price, of the ledger or the file.
type heldPrice struct {
	from, until time.Time    // half-open
	ends        time.Time    // as far as it was meant to hold, where only the next price was to end it
	rate        exact.Number // money per kWh before grid fee and tax; may be below 0
	taken       bool         // from the file
}

// MergeHourly puts a file's prices to those that a ledger has, which may be
// nil. Prices that are there change nothing; other ones for the same time are
// left, or replace the ledger's. Where no price follows, a row says that none is
// known.
func MergeHourly(have *energy.Prices, file *HourlyPrices, replace bool) HourlyMerge {
	var m HourlyMerge
	old := heldPrices(have)
	// Both lists are in order of time and neither overlaps itself, so one pass finds what meets
	// (TestMergeHourlyLaws).
	var take []heldPrice
	at := 0
	for _, p := range file.List {
		for at < len(old) && !old[at].ends.After(p.From) {
			at++
		}
		over := old[at:]
		if end := slices.IndexFunc(over, func(o heldPrice) bool { return !o.from.Before(p.Until) }); end >= 0 {
			over = over[:end]
		}
		switch {
		case len(over) == 0:
			m.Added++
		case covers(over, p):
			m.There++
			continue
		case !replace:
			parts := len(over) > 1 || !over[0].from.Equal(p.From) || !over[0].ends.Equal(p.Until)
			m.Differ = append(m.Differ, HourlyDiffer{p, over[0].rate, parts})
			continue
		default:
			m.Replaced++
		}
		take = append(take, heldPrice{p.From, p.Until, p.Until, p.Rate, true})
	}
	m.write(append(without(old, take), take...))
	return m
}

// heldPrices are the prices of a ledger.
func heldPrices(have *energy.Prices) (list []heldPrice) {
	first, end, any := have.Span()
	if !any {
		return nil
	}
	for h := range have.Between(first, end) {
		list = append(list, heldPrice{from: h.From, until: h.Until, ends: h.Until, rate: h.Rate})
	}
	for i := range list {
		p := &list[i]
		if p.until.Sub(p.from) < energy.LongestPrice || i+1 < len(list) && list[i+1].from.Equal(p.until) {
			continue
		}
		usual := time.Hour // nothing says that it was meant to hold so long
		if i > 0 && list[i-1].until.Equal(p.from) {
			usual = p.from.Sub(list[i-1].from)
		}
		p.ends = p.from.Add(usual)
	}
	return list
}

// covers reports whether prices hold for all of a time, and are its price.
func covers(over []heldPrice, p HourlyPrice) bool {
	at := p.From
	for _, o := range over {
		if o.from.After(at) || !o.rate.Equal(p.Rate) {
			return false
		}
		at = o.ends
	}
	return !at.Before(p.Until)
}

// without cuts times out of prices.
func without(old, take []heldPrice) (left []heldPrice) {
	at := 0
	for _, o := range old {
		for at < len(take) && !take[at].until.After(o.from) {
			at++
		}
		for i := at; i < len(take) && take[i].from.Before(o.until); i++ {
			if o.from.Before(take[i].from) {
				before := o
				before.until = take[i].from
				left = append(left, before)
			}
			o.from = take[i].until
		}
		if o.ends.After(o.from) && o.until.After(o.from) { // some of it is left that was meant
			left = append(left, o)
		}
	}
	return left
}

// write lists the prices as rows, and what is missing between them.
func (m *HourlyMerge) write(all []heldPrice) {
	slices.SortFunc(all, func(a, b heldPrice) int { return cmp.Compare(a.from.Unix(), b.from.Unix()) })
	for i, p := range all {
		m.Prices = append(m.Prices, energy.Price{At: p.from, Rate: exact.Some(p.rate)})
		follows := i+1 < len(all)
		if follows && !p.until.Before(all[i+1].from) {
			continue
		}
		// A row without a rate ends the price; one that holds as long as any can ends by itself.
		if p.until.Sub(p.from) < energy.LongestPrice {
			m.Prices = append(m.Prices, energy.Price{At: p.until})
		}
		if follows && (p.taken || all[i+1].taken) {
			m.Missing = append(m.Missing, HourlyPrice{From: p.until, Until: all[i+1].from})
		}
	}
}
