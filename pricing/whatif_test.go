package pricing_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

// By hand, from broth: ten cartons cost 17.60 and give 10 L, two cost 1.80 and
// give 2 L, six 9.70 and 6 L. Ten and two cross where 8 L cost 15.80, at 1.975;
// ten and six where 4 L cost 7.90, at 1.975 too. Below it, two lead.
func TestFlipsByHand(t *testing.T) {
	d := decideOn(t, broth())
	check := func(what string, got exact.Opt[pricing.Flip], at string, packages int) {
		t.Helper()
		f, ok := got.Get()
		if !ok || !f.At.Equal(ratio(at, "1")) || f.Packages != packages {
			t.Errorf("%s: %+v (%v), want %s with %d packages", what, f, ok, at, packages)
		}
	}
	shelf, price, electricity := d.ShelfFlips(), d.PriceFlips(), d.ElectricityFlips()
	check("shelf price", shelf.Below, "1.975", 2)
	check("price of a carton", price.Above, "0.925", 2)
	check("electricity", electricity.Above, "1.05", 2)
	if shelf.Above.Given() || price.Below.Given() || electricity.Below.Given() {
		t.Error("ten is the most: nothing can lead on the better side")
	}
}

func packagesOf(rows []pricing.Row) []int {
	var list []int
	for _, r := range rows {
		list = append(list, r.Packages)
	}
	return list
}

func TestWorth(t *testing.T) {
	d := decideOn(t, broth())
	for rows, want := range map[int]string{
		20: "[0 1 2 3 4 5 6 7 8 9 10]",
		11: "[0 1 2 3 4 5 6 7 8 9 10]",
		// None, the answer, the one before it, without drying; then the steps
		// of the second cycle (after 6) and the first (after 2).
		4: "[0 2 9 10]",
		6: "[0 2 6 7 9 10]",
		7: "[0 2 3 6 7 9 10]",
		1: "[0]",
		0: "[0]",
	} {
		if got := fmt.Sprint(packagesOf(d.Worth(rows))); got != want {
			t.Errorf("at most %d rows: %v, want %v", rows, got, want)
		}
	}
}

// Law: no more rows than asked for, in order, each once, the answer among them.
func TestWorthLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		q.limit = rapid.IntRange(0, 300).Draw(t, "many")
		q.cycles = -1
		d := mustDecide(t, q.sale())
		rows := rapid.IntRange(2, 60).Draw(t, "rows")
		worth := d.Worth(rows)
		if len(worth) > rows || len(worth) < min(rows, d.Most+1)/2 {
			t.Fatalf("%d rows of %d asked for, of %d", len(worth), rows, d.Most+1)
		}
		found := false
		for i, r := range worth {
			found = found || r.Packages == d.Best.Packages
			if i > 0 && r.Packages <= worth[i-1].Packages || r.Packages > d.Most {
				t.Fatalf("rows %v", packagesOf(worth))
			}
		}
		if !found {
			t.Fatalf("rows %v without the answer %d", packagesOf(worth), d.Best.Packages)
		}
	})
}

func TestWays(t *testing.T) {
	d := decideOn(t, broth())
	want := []struct {
		kind          pricing.WayKind
		cost, perUnit string
	}{
		{pricing.BuyFresh, "20", "2"},
		{pricing.BuyPreserved, "35", "3.5"},
		{pricing.BuyForFresh, "17.80", "1.78"}, // 2 at 0.90, 8 at 2.00
		{pricing.BuyAndDry, "17.60", "1.76"},
	}
	got := d.Ways(d.Best, exact.Some(ratio("3.5", "1")))
	if len(got) != len(want) {
		t.Fatalf("%d ways, want %d", len(got), len(want))
	}
	for i, w := range want {
		if got[i].Kind != w.kind {
			t.Errorf("way %d is %v, want %v", i, got[i].Kind, w.kind)
		}
		wantRatio(t, w.kind.String(), got[i].Cost, ratio(w.cost, "1"))
		wantRatio(t, w.kind.String()+" a litre", got[i].PerUnit, ratio(w.perUnit, "1"))
	}
	if len(d.Ways(d.Best, exact.Opt[exact.Ratio]{})) != 3 {
		t.Error("a preserved equivalent that no shop has")
	}
	if d.Ways(d.Row(0), exact.Opt[exact.Ratio]{}) != nil {
		t.Error("ways to come by nothing")
	}
	// One carton, for fresh use: the last two ways are one.
	one := d.Ways(d.Row(1), exact.Opt[exact.Ratio]{})
	wantRatio(t, "one carton for fresh use", one[1].Cost, ratio("0.90", "1"))
	wantRatio(t, "one carton", one[2].Cost, ratio("0.90", "1"))
}

// Seven cartons leave 5 L to dry: a full cycle and one litre in the second.
// Filling its other three litres adds 0.375 of electricity; a cycle of their
// own would cost 1.50 + 0.375 + 1.00 + 0.30.
func TestPartLoad(t *testing.T) {
	d := decideOn(t, broth())
	part, ok := d.PartLoad(d.Row(7))
	if !ok || part.Cycle != 1 || !part.Load.Equal(num("1")) || !part.Spare.Equal(num("3")) {
		t.Fatalf("part load %+v (%v)", part, ok)
	}
	wantMoney(t, "extra electricity", part.Extra, "0.375")
	alone, _ := d.CycleAlone(d.Row(7), part.Spare)
	wantMoney(t, "a run of its own", alone, "3.175")
	for _, n := range []int{0, 2, 6, 10} {
		if part, ok := d.PartLoad(d.Row(n)); ok {
			t.Errorf("%d cartons leave room: %+v", n, part)
		}
	}
}
