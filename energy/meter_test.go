package energy

import (
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// Whatever the tariff, the zone and the shape of the draw, the biller agrees
// with the minute-by-minute twin, and so do its pieces.
func TestBillIsTwin(t *testing.T) { rapid.Check(t, billIsTwin) }

// The same law, with cases that a fuzzer finds.
func FuzzBillIsTwin(f *testing.F) { f.Fuzz(rapid.MakeFuzz(billIsTwin)) }

func billIsTwin(t *rapid.T) {
	blocks := rapid.Bool().Draw(t, "blocks")
	w := drawWorld(t, blocks, rapid.Bool().Draw(t, "gaps"))
	household := drawHousehold(t)
	var runs [][]Span
	solar := rapid.Bool().Draw(t, "solar")
	for range rapid.IntRange(1, 2).Draw(t, "runs") {
		spans := drawSpans(t, w, rapid.Bool().Draw(t, "curves"))
		if solar {
			drawSolar(t, &w, spans)
		}
		runs = append(runs, spans)
	}
	tariff, tw := w.tariff(t), twinOf(w, household)
	bill, itemize, cost := NewMeter(household), NewMeter(household), NewMeter(household)
	for _, spans := range runs {
		checkRun(t, tw, bill, itemize, cost, tariff, spans)
	}
}

func checkRun(t *rapid.T, tw *twin, bill, itemize, cost *Meter, tariff *Tariff, spans []Span) {
	before := map[string]*big.Rat{}
	for k, v := range tw.used {
		before[k] = new(big.Rat).Set(v)
	}
	costs, err := bill.Bill(tariff, spans, 6)
	bills, err2 := itemize.Itemize(tariff, spans, 6)
	all, err3 := cost.Cost(tariff, spans)
	sum := new(big.Rat)
	for i, s := range spans {
		want, ok := tw.cost(s)
		if !ok {
			tw.used = before
			if !isGap(err) || !isGap(err2) || !isGap(err3) {
				t.Fatalf("the twin finds a gap in span %d, the biller %v, %v and %v", i, err, err2, err3)
			}
			return
		}
		sum.Add(sum, want)
		if err != nil || err2 != nil {
			continue // a gap in a later span, else found below
		}
		if got := costs[i].String(); got != roundTwin(want, 6) {
			t.Fatalf("span %d costs %s, by the twin %v", i, got, want.FloatString(9))
		}
		if !bills[i].Cost.Equal(costs[i]) {
			t.Fatalf("span %d: itemized %v, billed %v", i, bills[i].Cost, costs[i])
		}
		checkPieces(t, s, bills[i], want)
	}
	if err != nil || err2 != nil || err3 != nil {
		t.Fatalf("no gap by the twin, but %v, %v and %v", err, err2, err3)
	}
	if rat(all).Cmp(sum) != 0 {
		t.Fatalf("all spans cost %v, by the twin %v", all, sum)
	}
}

// isGap reports whether a time has no band or no price.
func isGap(err error) bool {
	return errors.As(err, new(*GapError))
}

// checkPieces checks that the pieces of a bill are the span and its cost.
func checkPieces(t *rapid.T, s Span, b Bill, want *big.Rat) {
	var kwh, cost exact.Ratio
	at, solar := s.Start, false
	for _, p := range b.Pieces {
		if p.Solar && !solar { // the roof's come after the grid's
			at, solar = s.Start, true
		}
		kwh, cost = kwh.Add(p.Energy), cost.Add(p.Cost)
		if p.From.Before(at) && !p.To.Equal(at) {
			t.Fatalf("piece from %v after one to %v", p.From, at)
		}
		at = p.To
		if p.Energy.Sign() < 0 {
			t.Fatalf("negative piece %v", p)
		}
	}
	if !at.Equal(s.Start.Add(s.Length)) || !kwh.Equal(s.Energy) || rat(cost).Cmp(want) != 0 {
		t.Fatalf("pieces end at %v with %v kWh for %v, span %v, cost %v", at, kwh, cost, s, want)
	}
}
