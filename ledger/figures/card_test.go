package figures_test

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// household is a made-up one: a food that a machine dries, what was bought of it,
// what shops ask, and how it was used; all drawn.
func household(t *rapid.T) *ledger.Ledger {
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC, Tariff: "flat"}}
	add := func(kind string, cells ...string) {
		row := map[string]string{}
		for i := 0; i < len(cells); i += 2 {
			row[cells[i]] = cells[i+1]
		}
		k, _ := ledger.KindOf(kind)
		var faults ledger.Faults
		if rec, faults = rec.With(k, row); faults != nil {
			t.Fatal(faults)
		}
	}
	cents := func(label string, least, most int) string {
		n := rapid.IntRange(least, most).Draw(t, label)
		return fmt.Sprintf("%d.%02d", n/100, n%100)
	}
	whole := func(label string, least, most int) string {
		return fmt.Sprint(rapid.IntRange(least, most).Draw(t, label))
	}
	refuse := whole("refuse", 0, 30)
	used := rapid.IntRange(0, 3).Draw(t, "used") > 0
	days := []string{"4", "9", "1", ""}
	if !used {
		days = days[:3] // else nothing would limit how many
	}
	fresh := rapid.SampledFrom(days).Draw(t, "fresh days")
	add("food", "food", "peas", "name", "Peas", "basis", "mass", "refuse", refuse, "fresh_days", fresh, "keep_months", whole("months", 1, 40))
	add("machine", "machine", "kiln", "load_mass", cents("load", 150, 700)+" kg", "cycles", "200")
	bands := rapid.SampledFrom([]string{"day", "flat", "blocks"}).Draw(t, "bands")
	if bands == "day" {
		add("tariff", "tariff", "flat", "start", "07:00", "end", "20:00", "rate", "0."+whole("day", 10, 60))
	}
	if bands == "blocks" {
		add("tariff", "tariff", "flat", "above_kwh", "20", "rate", "0."+whole("above", 10, 60))
	}
	add("tariff", "tariff", "flat", "rate", "0."+whole("rate", 10, 60))
	add("supply", "supply", "jar", "kind", "jar", "uses", "10", "price", cents("jar", 50, 300))
	size := cents("package", 50, 400)
	for i := range rapid.IntRange(1, 3).Draw(t, "receipts") {
		id := fmt.Sprint("b", i)
		add("receipt", "receipt", id, "date", fmt.Sprintf("2025-01-%02d", 2+i), "line", "1", "kind", "food", "item", "peas",
			"count", "12", "size", size+" kg", "price", cents("paid", 0, 900))
	}
	if rapid.Bool().Draw(t, "machine bought") {
		add("receipt", "receipt", "m", "date", "2025-01-01", "line", "1", "kind", "machine", "item", "kiln", "price", cents("machine", 10000, 90000))
	}
	add("price", "shop", "Brook", "date", "2025-01-02", "item", "peas", "size", "1 kg", "price", cents("shelf", 100, 2500))
	if rapid.Bool().Draw(t, "asked in another size") {
		add("price", "shop", "Brook", "date", "2025-01-03", "item", "peas", "size", cents("other size", 20, 400)+" kg", "price", cents("offer", 50, 900), "terms", "offer")
	}
	loaded := rapid.IntRange(1, 4).Draw(t, "runs")
	for i := range loaded {
		id := fmt.Sprint("r", i)
		add("run", "run", id, "machine", "kiln", "start", fmt.Sprintf("2025-01-%02d 08:00", 5+2*i), "end", fmt.Sprintf("2025-01-%02d %02d:00", 6+2*i, 2+i), "kwh", cents("kWh", 400, 2400))
		add("load", "run", id, "item", "peas", "quantity", fmt.Sprintf("0.%d kg", 3+2*i%5))
		add("pack", "pack", id, "run", id, "item", "peas", "date", fmt.Sprintf("2025-01-%02d", 6+2*i), "count", "2", "each", "100 g", "with", "1 jar")
	}
	if used {
		add("draw", "date", "2025-01-20", "pack", "r0", "quantity", "2", "reason", "used")
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.MustDate("2025-01-28"), PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	return g
}

// Law: the card agrees with worth. At the price that it names no package loses: so
// many of them save, or save nothing; one minor step above it no number saves; and
// any price drawn is worth it when it is below, and not when it is above. The most
// is what worth allows, and at the lowest price paid the answer is worth's.
func TestCardAgreesWithWorth(t *testing.T) {
	pays, never, lowest := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		g := household(t)
		card, err := figures.Card(g, figures.CardQuery{})
		if err != nil {
			t.Fatal(err)
		}
		if len(card.Rows) == 0 {
			t.Fatalf("the card has no row: %+v", card.Left)
		}
		for i := range card.Rows {
			r := &card.Rows[i]
			at := func(price exact.Number) pricing.Decision {
				_, w, err := figures.Answer(g, figures.WorthQuery{Item: "peas", Size: r.Size, Price: exact.Some(price)})
				if err != nil {
					t.Fatal(err)
				}
				return w
			}
			below, ok := r.Below.Get()
			if w := at(exact.Number{}); w.Most != r.Most {
				t.Errorf("the most is %d, worth allows %d", r.Most, w.Most)
			} else if !ok && w.Best.Packages > 0 {
				t.Errorf("no price is named, and as a gift %d are worth it", w.Best.Packages)
			}
			if !ok {
				never++
				continue
			}
			pays++
			w := at(below.Number())
			if w.Row(r.Packages).Saving.Sign() < 0 || w.Best.Saving.Sign() < 0 {
				t.Errorf("%d at %v lose: %v", r.Packages, below, w.Row(r.Packages).Saving)
			}
			highest, _ := w.Row(r.Packages).BreakEven()
			for n := 1; n < r.Packages; n++ {
				if fewer, _ := w.Row(n).BreakEven(); fewer.Cmp(highest) >= 0 {
					t.Errorf("%d packages pay up to as much as %d", n, r.Packages)
				}
			}
			step := exact.New(1, 2)
			above := at(below.Number().Add(step))
			for row := range above.Rows() {
				if row.Packages > 0 && row.Saving.Sign() >= 0 {
					t.Errorf("%d at %v, a step above, save %v", row.Packages, below.Number().Add(step), row.Saving)
				}
			}
			drawn := exact.New(int64(rapid.IntRange(0, 3000).Draw(t, "offer")), 2)
			if w := at(drawn); w.Best.Packages > 0 && below.Number().Less(drawn) || w.Best.Packages == 0 && drawn.Less(below.Number()) {
				t.Errorf("at %v worth buys %d, and the card says %v", drawn, w.Best.Packages, below)
			}
			if p, ok := r.Lowest.Get(); ok {
				lowest++
				answer, _ := r.AtLowest.Get()
				if w := at(r.PackageAt(p.PerUnit).Round(9, exact.HalfEven)); w.Best.Packages != answer.Packages || !w.Best.Saving.Equal(answer.Saving) {
					t.Errorf("at the lowest price paid worth buys %d, the card %d", w.Best.Packages, answer.Packages)
				}
			}
		}
	})
	if pays == 0 || never == 0 || lowest == 0 {
		t.Errorf("%d rows pay, %d never, %d have a lowest price: the households are too alike", pays, never, lowest)
	}
}

// peasAt is a household that dried peas, 2 kg in a cycle, and never figs, of which it bought
// packages of another size; the shelf asks so much a kg of peas.
func peasAt(t *testing.T, shelf string) *ledger.Ledger {
	t.Helper()
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC, Tariff: "flat"}}
	for _, r := range []struct {
		kind  string
		cells map[string]string
	}{
		{"food", map[string]string{"food": "peas", "basis": "mass", "fresh_days": "30"}},
		{"food", map[string]string{"food": "figs", "basis": "mass"}},
		{"machine", map[string]string{"machine": "kiln", "load_mass": "2 kg", "cycles": "100"}},
		{"tariff", map[string]string{"tariff": "flat", "rate": "0.30"}},
		{"supply", map[string]string{"supply": "bag", "kind": "bag", "price": "0.50"}},
		{"receipt", map[string]string{"receipt": "b1", "date": "2025-01-02", "line": "1", "kind": "food", "item": "peas", "count": "2", "size": "1 kg", "price": "3.20"}},
		{"receipt", map[string]string{"receipt": "b1", "date": "2025-01-02", "line": "2", "kind": "food", "item": "figs", "count": "2", "size": "3 kg", "price": "3.20"}},
		{"price", map[string]string{"shop": "Brook", "date": "2025-01-02", "item": "peas", "size": "1 kg", "price": shelf}},
		{"price", map[string]string{"shop": "Brook", "date": "2025-01-02", "item": "figs", "size": "3 kg", "price": "6.00"}},
		{"run", map[string]string{"run": "r1", "machine": "kiln", "start": "2025-01-05 08:00", "end": "2025-01-06 08:00", "kwh": "10"}},
		{"load", map[string]string{"run": "r1", "item": "peas", "quantity": "2 kg"}},
		{"pack", map[string]string{"pack": "p1", "run": "r1", "item": "peas", "date": "2025-01-06", "count": "2", "each": "1 kg", "with": "1 bag"}},
	} {
		k, _ := ledger.KindOf(r.kind)
		var faults ledger.Faults
		if rec, faults = rec.With(k, r.cells); faults != nil {
			t.Fatal(faults)
		}
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.MustDate("2025-01-08"), PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	return g
}

// By hand. A cycle takes 2 kg and costs 3.00 with its wear left out, a container of
// 1 kg 0.50, and the shelf asks 6.00 a kg. Two packages of 1 kg fill a cycle: (12 -
// 3 - 1) / 2 = 4.00 each; one alone comes to 6 - 3 - 0.50 = 2.50, and three to
// (18 - 6 - 1.50) / 3 = 3.50.
func TestCardByHand(t *testing.T) {
	g := peasAt(t, "6.00")
	card, err := figures.Card(g, figures.CardQuery{})
	if err != nil || len(card.Rows) != 1 { // figs were never dried
		t.Fatalf("%+v (%v)", card, err)
	}
	r := &card.Rows[0]
	if below, _ := r.Below.Get(); !below.Equal(money("4")) || r.Packages != 2 || r.Size.String() != "1 kg" {
		t.Errorf("below %v for %d of %v, want 4 for 2 of 1 kg", r.Below, r.Packages, r.Size)
	}
	// At 3.20, the price paid, 2 a cycle save 1.60 a cycle: as many as can be dried.
	if a, _ := r.AtLowest.Get(); a.Packages != r.Most || r.Most == 0 || !a.Saving.Equal(ratioOf("0.8").Mul(exact.RatioOf(exact.Int(int64(r.Most))))) {
		t.Errorf("at the lowest price the answer is %+v of at most %d", a, r.Most)
	}
	for size, want := range map[string]string{"2 kg": "8", "0.5 kg": "2", "3 kg": "12"} {
		card, err := figures.Card(g, figures.CardQuery{Item: "Peas", Size: amount(size)})
		if err != nil {
			t.Fatal(err)
		}
		if below, _ := card.Rows[0].Below.Get(); !below.Equal(money(want)) {
			t.Errorf("a package of %s pays up to %v, want %s", size, below, want)
		}
	}
	var unknown *figures.UnknownError
	if _, err := figures.Card(g, figures.CardQuery{Item: "jam"}); !errors.As(err, &unknown) || unknown.Name != "jam" {
		t.Errorf("a food that there is none of: %v", err)
	}
	var missing *figures.FactError
	if _, err := figures.Card(g, figures.CardQuery{Item: "figs"}); !errors.As(err, &missing) || missing.Missing == nil {
		t.Errorf("figs, of which no pack tells what goes into it: %v", err)
	}
}

// At 2.00 a kg two packages, 2 x 2.00 - 3 - 1, save nothing even as a gift, and nothing is the
// price below which they pay; at a cent less no price is.
func TestCardAtTheLeast(t *testing.T) {
	for shelf, pays := range map[string]bool{"2.00": true, "1.99": false} {
		card, err := figures.Card(peasAt(t, shelf), figures.CardQuery{})
		if err != nil || len(card.Rows) != 1 {
			t.Fatalf("%+v (%v)", card, err)
		}
		below, ok := card.Rows[0].Below.Get()
		if ok != pays || !below.IsZero() {
			t.Errorf("at %s on the shelf it pays below %v: %t, want %t", shelf, below, ok, pays)
		}
	}
}

// Of what was seen on one day, asked as an offer and paid below the regular price, the last offer is
// the lower one.
func TestCardLastOfferOfADay(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"shelf.csv": "date,shop,item,size,price,terms\n2025-06-01,Mill Lane,plums,1 kg,3,regular\n2025-06-08,Mill Lane,plums,1 kg,1.50,offer\n",
	})
	c, err := figures.Card(g, figures.CardQuery{Item: "plums"})
	if err != nil || len(c.Rows) == 0 {
		t.Fatalf("%+v (%v)", c, err)
	}
	if p, ok := c.Rows[0].Offer.Get(); !ok || p.PerUnit.Cmp(num("1.5").Over(num("1"))) != 0 || p.Date.String() != "2025-06-08" {
		t.Errorf("the last offer is %+v, want 1.50", p)
	}
}
