package figures_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

var num, amount = exact.MustNumber, exact.MustQuantity

func money(s string) exact.Money { return exact.MoneyOf(num(s)) }

func ratioOf(s string) exact.Ratio { return exact.RatioOf(num(s)) }

// sauces is a ledger with nothing but a food, on a day.
func sauces(t testing.TB) *ledger.Ledger {
	t.Helper()
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC}}
	k, _ := ledger.KindOf("food")
	rec, faults := rec.With(k, map[string]string{"food": "plum-sauce", "basis": "volume"})
	if faults != nil {
		t.Fatal(faults)
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.MustDate("2025-06-02"), PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	return g
}

// plumSauce is a question that gives every fact.
func plumSauce() figures.WorthQuery {
	return figures.WorthQuery{
		Item: "plum-sauce", AsOf: exact.MustDate("2025-06-02"),
		Price: exact.Some(num("1.49")), Size: amount("700 mL"), Limit: exact.Some(10), Shelf: exact.Some(num("5.90")),
		Load: amount("4 L"), CycleTime: exact.Some(30 * time.Hour), Turnaround: 3 * time.Hour, FreshDays: exact.Some(5),
		KWh: exact.Some(num("14.5")), Rate: exact.Some(num("0.31")), Wear: exact.Some(money("2.10")),
		Each: amount("700 mL"), PackCost: exact.Some(money("0.35")), Yield: exact.Some(num("0.95")),
		Fresh: amount("1.4 L"), Use: amount("3 L"), KeepMonths: exact.Some(18), Stock: amount("5 L"),
	}
}

// By hand. 7 packages are 4.9 L: 1.4 fresh, 3.5 in 1 cycle to 3.325 L in 5
// containers. Cost 7 x 1.49 + 14.5 x 0.31 + 2.10 + 5 x 0.35 = 18.775, value 4.725 x
// 5.90 = 27.8775. Nothing is saved at (27.8775 - 8.345) / 7 a package, drying pays
// below (3.325 x 5.90 - 8.345) x 0.7 / 3.5. The machine allows floor(123 h / 33 h)
// = 3 cycles, so floor((12 + 1.4) / 0.7) = 19 packages; use (3 x 18 - 5) / 0.95 L and
// 1.4 fresh, so 75. Half the use leaves 1.5 x 18 - 5 = 22 L. The last cycle has room
// for 0.5 L, and a cycle of its own costs 4.495 + 2.10.
func TestWorthByHand(t *testing.T) {
	w, err := figures.Worth(sauces(t), plumSauce())
	if err != nil {
		t.Fatal(err)
	}
	if w.Best.Packages != 7 || w.Best.Cycles != 1 || w.Best.Containers != 5 || !w.Best.Cost.Total().Equal(money("18.775")) || !w.Best.Saving.Equal(ratioOf("9.1025")) {
		t.Errorf("the answer is %+v", w.Best)
	}
	even, _ := w.BreakEven.Get()
	if !even.Price.Equal(num("19.5325").Over(num("7"))) || even.Packages != 7 || !w.Drying.Or(exact.Ratio{}).Equal(ratioOf("2.2545")) {
		t.Errorf("it saves nothing at %v, and drying at %v", even, w.Drying)
	}
	bounds := []pricing.Bound{{Limit: pricing.ShopLimit, Packages: 10}, {Limit: pricing.MachineLimit, Packages: 19}, {Limit: pricing.UseLimit, Packages: 75}}
	if !slices.Equal(w.Bounds, bounds) {
		t.Errorf("the bounds are %v, want %v", w.Bounds, bounds)
	}
	if n := len(w.Cases); n != 3 || w.Cases[2].Of != figures.HalfUse || !w.Cases[2].At.Equal(ratioOf("1.5")) {
		t.Errorf("the cases are %+v", w.Cases)
	}
	if f, ok := w.Filling.Get(); !ok || f.Food != -1 || !f.Spare.Equal(num("0.5")) || !f.Saves.Equal(money("6.595")) {
		t.Errorf("the room is %+v", w.Filling)
	}
	if w.Energy.Basis != figures.Given || w.Guessed(w.Best) || w.Queue.Free != time.Date(2025, 6, 2, 0, 0, 0, 0, time.UTC) {
		t.Errorf("energy %+v, free %v", w.Energy, w.Queue.Free)
	}
}

// By hand: what was used, over the months of the last 12 in which it could be. The ledger is
// older than the food, of which 1 of 6 packs of 600 g was used in June and 2 in August.
func TestUseIsOfTheMonthsInStore(t *testing.T) {
	files := map[string]string{
		"receipts.csv": kitchen["receipts.csv"] + "old,2025-01-09,Mill Lane,other,soap,1,,3\n",
		"draws.csv":    "date,pack,quantity,reason\n2025-06-20,p1,1,used\n2025-08-05,p1,2,used\n2025-08-06,p1,1,given\n",
	}
	for _, c := range []struct {
		day, used string
		over      int
	}{
		{"2025-06-30", "0.6", 1}, // the month of the first pack, 3 June, counts whole
		{"2025-07-01", "0.6", 2},
		{"2025-08-31", "1.8", 3},
		{"2026-05-31", "1.8", 12},
		{"2026-06-30", "1.2", 12}, // that of 20 June 2025 is over a year ago
	} {
		g := kitchenWith(t, c.day, files)
		q := plumsOffer()
		q.AsOf, q.Use = exact.MustDate(c.day), exact.Quantity{}
		f, _, err := figures.Answer(g, q)
		if err != nil {
			t.Fatal(c.day, err)
		}
		if month, _ := f.Use.Month.Get(); f.Use.Over != c.over || !f.Use.Used.Equal(num(c.used)) || !month.Equal(num(c.used).Over(exact.Int(int64(c.over)))) {
			t.Errorf("%s: %v a month, %v over %d, want %s over %d", c.day, month, f.Use.Used, f.Use.Over, c.used, c.over)
		}
	}
}

// What a question lacks comes all at once, as facts and without words.
func TestWorthLacks(t *testing.T) {
	_, err := figures.Worth(sauces(t), figures.WorthQuery{Item: "plum-sauce"})
	var missing *figures.FactError
	if !errors.As(err, &missing) || missing.Missing == nil {
		t.Fatal(err)
	}
	var facts []figures.Fact
	for _, m := range missing.Missing {
		facts = append(facts, m.Fact)
	}
	want := []figures.Fact{figures.PriceFact, figures.SizeFact, figures.ShelfFact, figures.LoadFact, figures.EachFact, figures.WithFact, figures.KWhFact, figures.RateFact}
	if !slices.Equal(facts, want) {
		t.Errorf("missing are %v, want %v", facts, want)
	}
}

// What cannot be used is said by its fact and why; the most that can be is used.
func TestWorthCannotUse(t *testing.T) {
	g := sauces(t)
	for _, c := range []struct {
		change func(*figures.WorthQuery)
		fact   figures.Fact
		fault  figures.Fault
	}{
		{func(q *figures.WorthQuery) { q.Machine = "kiln" }, figures.MachineFact, figures.Unknown},
		{func(q *figures.WorthQuery) { q.As = "jam" }, figures.AsFact, figures.Unknown},
		{func(q *figures.WorthQuery) { q.Rate, q.Tariff = exact.Opt[exact.Number]{}, "day" }, figures.TariffFact, figures.Unknown},
		{func(q *figures.WorthQuery) { q.Size = amount("2 ea") }, figures.SizeFact, figures.WrongUnit},
		{func(q *figures.WorthQuery) { q.Size = amount("0 mL") }, figures.SizeFact, figures.TooLittle},
		{func(q *figures.WorthQuery) { q.Fresh = amount("2 ea") }, figures.FreshFact, figures.WrongUnit},
		{func(q *figures.WorthQuery) { q.FreshDays = exact.Some(figures.MostDays + 1) }, figures.FreshDaysFact, figures.TooLong},
		{func(q *figures.WorthQuery) {
			q.Limit, q.Cycles = exact.Some(30_000), exact.Some(10_000)
			q.Use, q.KeepMonths = amount("99 L"), exact.Some(900)
		}, figures.LimitFact, figures.TooMany},
		{func(q *figures.WorthQuery) {
			q.Limit, q.FreshDays, q.KeepMonths = exact.Opt[int]{}, exact.Opt[int]{}, exact.Opt[int]{}
		}, figures.LimitFact, figures.Unbounded},
	} {
		q := plumSauce()
		c.change(&q)
		_, err := figures.Worth(g, q)
		var wrong *figures.FactError
		if !errors.As(err, &wrong) || wrong.Fact != c.fact || wrong.Fault != c.fault {
			t.Errorf("fact %d, fault %d: %v", c.fact, c.fault, err)
		}
	}
	q := plumSauce()
	q.Item = "jam"
	var unknown *figures.UnknownError
	if _, err := figures.Worth(g, q); !errors.As(err, &unknown) || unknown.Name != "jam" {
		t.Error(err)
	}
	q = plumSauce()
	q.FreshDays = exact.Some(figures.MostDays)
	if _, err := figures.Worth(g, q); err != nil {
		t.Errorf("food that keeps %d days: %v", figures.MostDays, err)
	}
}

// Identities on the sample: a saving is value less cost, which is the sum of its
// parts; the answer at its break-even price saves exactly nothing, when that price
// is asked; and each change is one: at its value the other number is best.
func TestWorthIdentities(t *testing.T) {
	g := whole(t, "sample")
	asked, changes := 0, 0
	for _, item := range []string{"strawberries", "chicken-broth", "chives"} {
		for _, price := range []string{"0.40", "1.10", "2.49", "7"} {
			size := amount("500 g")
			if food, _ := g.FindFood(item); g.Foods[food].Basis == exact.L {
				size = amount("1 L")
			}
			q := figures.WorthQuery{Item: item, Price: exact.Some(num(price)), Size: size, Limit: exact.Some(4)}
			w, err := figures.Worth(g, q)
			if err != nil {
				t.Fatal(item, err)
			}
			asked++
			for r := range w.Rows() {
				c := r.Cost
				sum := c.Food.Add(c.Electricity).Add(c.Supplies).Add(c.Wear).Add(c.Labour).Add(c.Packing)
				if !r.Saving.Equal(r.Value.Sub(sum.Ratio())) {
					t.Errorf("%s at %s: %d packages save %v", item, price, r.Packages, r.Saving)
				}
			}
			if !w.Cases[0].Decision.Best.Saving.Equal(w.Best.Saving) {
				t.Errorf("%s at %s: as expected it saves %v, the answer %v", item, price, w.Cases[0].Decision.Best.Saving, w.Best.Saving)
			}
			even, _ := w.BreakEven.Get()
			if at := w.Row(even.Packages).SavingAt(even.Price); !at.IsZero() {
				t.Errorf("%s at %s: at its break-even price it saves %v", item, price, at)
			}
			for _, c := range w.Changes {
				if above, ok := c.Above.Get(); ok && c.Of == figures.ShopPackages {
					changes++
					more := q
					n, _ := above.At.Ceil().Int64()
					more.Limit = exact.Some(int(n))
					if other, err := figures.Worth(g, more); err != nil || other.Best.Packages != above.Packages {
						t.Errorf("%s at %s: with %d sold the answer is %d, want %d (%v)", item, price, n, other.Best.Packages, above.Packages, err)
					}
				}
			}
		}
	}
	if asked != 12 || changes == 0 {
		t.Errorf("%d were asked, %d changes checked", asked, changes)
	}
}

// A plan of one offer is that offer's answer; the sums of a plan are those of its
// rows; each begins after the one before.
func TestPlanIdentities(t *testing.T) {
	g := whole(t, "sample")
	offer := func(item, price, size string) figures.WorthQuery {
		return figures.WorthQuery{Item: item, Price: exact.Some(num(price)), Size: amount(size), Limit: exact.Some(12), Turnaround: 2 * time.Hour}
	}
	offers := []figures.WorthQuery{offer("strawberries", "1.99", "454 g"), offer("chicken-broth", "0.60", "1 L"), offer("chives", "2.50", "500 g")}
	for _, q := range offers {
		w, err := figures.Worth(g, q)
		if err != nil {
			t.Fatal(err)
		}
		p, err := figures.Plan(g, []figures.WorthQuery{q}, exact.Opt[exact.Money]{})
		if err != nil {
			t.Fatal(err)
		}
		bought := 0
		for _, r := range p.Rows {
			bought = r.Row.Packages
		}
		if bought != w.Best.Packages || !p.Saving.Equal(w.Best.Saving) || p.Moved {
			t.Errorf("%s: the plan buys %d and saves %v, alone it is %d and %v", q.Item, bought, p.Saving, w.Best.Packages, w.Best.Saving)
		}
	}
	p, err := figures.Plan(g, offers, exact.Opt[exact.Money]{})
	if err != nil || len(p.Rows)+len(p.Left) != len(offers) {
		t.Fatalf("%d rows and %d left (%v)", len(p.Rows), len(p.Left), err)
	}
	var saving exact.Ratio
	last := p.Free
	for _, r := range p.Rows {
		saving = saving.Add(r.Saving)
		if !r.Saving.Equal(r.Row.Value.Sub(r.Cost.Ratio())) {
			t.Errorf("%s saves %v", r.Query.Item, r.Saving)
		}
		if r.Row.Cycles > 0 {
			if r.Start.Before(last) {
				t.Errorf("%s begins at %v, before %v", r.Query.Item, r.Start, last)
			}
			last = r.End.Add(2 * time.Hour)
		}
	}
	if !p.Saving.Equal(saving) {
		t.Errorf("the plan saves %v, its rows %v", p.Saving, saving)
	}
}

// What is wrong with offers comes at once, by their positions.
func TestPlanSaysWhichOffer(t *testing.T) {
	good := plumSauce()
	bad := good
	bad.Item = "jam"
	_, err := figures.Plan(sauces(t), []figures.WorthQuery{good, bad, {Item: "plum-sauce"}}, exact.Opt[exact.Money]{})
	var offers figures.OfferErrors
	if !errors.As(err, &offers) || len(offers) != 2 || offers[1] == nil || offers[2] == nil {
		t.Error(err)
	}
}

func ExampleWorth() {
	g := sauces(&testing.T{})
	w, err := figures.Worth(g, plumSauce())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("buy", w.Best.Packages, "and save", w.Best.Saving.Round(2, exact.HalfAway).Fixed(2))
	// Output: buy 7 and save 9.10
}

// A way that the records do not tell of is named with what is lacking: of the shop's preserved
// form that is its price.
func TestWaysThatLackAPrice(t *testing.T) {
	for shelf, lacks := range map[string]bool{"": true, "2025-06-01,Mill Lane,berries,50 g,9,preserved,500 g\n": false} {
		g := kitchenWith(t, "2025-06-11", map[string]string{"shelf.csv": "date,shop,item,size,price,form,makes\n" + shelf})
		w, err := figures.Worth(g, figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
			Start: exact.Some(moment(t, g, "2025-06-11 00:00")), FreshDays: exact.Some(5), Each: amount("1 kg"), PackCost: exact.Some(money("0"))})
		if err != nil {
			t.Fatal(err)
		}
		if has := slices.Contains(w.Ways.Lacks, figures.NoPreservedPrice); has != lacks {
			t.Errorf("with the shelf price %q the preserved form lacks one: %t", shelf, has)
		}
	}
}

// A cost of a container or a cycle that is given is posted at the ledger's places, six of euros.
func TestWorthPostsWhatIsGiven(t *testing.T) {
	q := plumSauce()
	q.PackCost, q.Wear = exact.Some(money("0.3500004")), exact.Some(money("2.1000004"))
	if w, err := figures.Worth(sauces(t), q); err != nil || !w.Best.Cost.Total().Equal(money("18.775")) {
		t.Errorf("it costs %v (%v), want 18.775", w.Best.Cost.Total(), err)
	}
}

// Where the answer is all that can be had it is still held to each case, as by hand above: of 7
// packages at most, at 5.31 per L on the shelf, 4.725 x 5.31 - 18.775 is saved.
func TestAllThatCanBeHadUnderACase(t *testing.T) {
	q := plumSauce()
	q.Limit = exact.Some(7)
	w, err := figures.Worth(sauces(t), q)
	if err != nil || w.Best.Packages != 7 || w.Best.Packages != w.Most {
		t.Fatalf("%+v (%v)", w, err)
	}
	for _, c := range w.Cases {
		if c.Of == figures.LowerShelf && !c.AsAnswered.Or(exact.Ratio{}).Equal(ratioOf("6.31475")) {
			t.Errorf("it saves %v", c.AsAnswered)
		}
	}
}

// An hour that has no price is not free: a cycle that runs in it cannot be priced.
func TestWorthNeedsThePriceOfEveryHour(t *testing.T) {
	q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
		FreshDays: exact.Some(5), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	for bands, priced := range map[string]bool{"home,08:00,20:00,0.20\nhome,20:00,08:00,0.10\n": true, "home,08:00,20:00,0.20\nhome,20:00,07:00,0.10\n": false} {
		// The run of the records is priced by another tariff, so that they have no fault.
		g := kitchenWith(t, "2025-06-11", map[string]string{"tariffs.csv": "tariff,start,end,rate\n" + bands + "day,,,0.20\n",
			"runs.csv": "run,machine,start,tariff,kwh\nr1,box,2025-06-01 08:00,day,12\n"})
		q.Start = exact.Some(moment(t, g, "2025-06-11 10:00"))
		_, err := figures.Worth(g, q)
		var wrong *figures.FactError
		if priced != (err == nil) || !priced && (!errors.As(err, &wrong) || wrong.Fact != figures.TariffFact || wrong.Fault != figures.Unpriced) {
			t.Errorf("with the bands %q: %v", bands, err)
		}
	}
}

// A tariff that ends with July prices the single cycle of the answer. What is looked
// for beyond it ends before the cycles of August, which are not free: the
// shelf asks 0.30 more a kilogram, and 12 kWh for 4 kg cost twice that, however much is used.
func TestWorthLooksNoFurtherThanPricesGo(t *testing.T) {
	q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(3000), Shelf: exact.Some(num("1.30")),
		Wear: exact.Some(money("0")), FreshDays: exact.Some(5), Cycles: exact.Some(1000), Each: amount("1 kg"), PackCost: exact.Some(money("0")),
		Use: amount("0.1 kg"), Stock: amount("0 kg"), KeepMonths: exact.Some(24)}
	for tariff, ends := range map[string]bool{"tariff,months,rate\nhome,6-7,0.20\nday,,0.20\n": true, "tariff,months,rate\nhome,,0.20\nday,,0.20\n": false} {
		g := kitchenWith(t, "2025-06-11", map[string]string{"tariffs.csv": tariff, "runs.csv": "run,machine,start,tariff,kwh\nr1,box,2025-06-01 08:00,day,12\n"})
		w, err := figures.Worth(g, q)
		if err != nil || w.Best.Packages != 0 || (w.NotSought > 0 && w.NotSought < 1000) != ends {
			t.Fatalf("with %q: buy %d, looked for up to %d (%v)", tariff, w.Best.Packages, w.NotSought, err)
		}
		for _, c := range w.Changes {
			if c.Of == figures.UsedMonth && c.Above.Given() {
				t.Errorf("with %q: more used would change the answer: %+v", tariff, c.Above)
			}
		}
	}
}

// Where nothing is worth buying under an offer, what is asked is the price of a package: 1.49 for 0.7 L.
func TestAskedOfNone(t *testing.T) {
	q := plumSauce()
	offer, err := pricing.ParseOffer("3 for 2")
	if err != nil {
		t.Fatal(err)
	}
	q.Offer, q.Shelf = offer, exact.Some(num("0.10"))
	w, err := figures.Worth(sauces(t), q)
	if err != nil || w.Best.Packages != 0 || !w.Asked(0).Equal(num("1.49").Over(num("0.7"))) || !w.Asked(3).Equal(num("2.98").Over(num("2.1"))) {
		t.Errorf("%d are bought, asked are %v a litre, and %v of three (%v)", w.Best.Packages, w.Asked(0), w.Asked(3), err)
	}
	if q.Offer, err = pricing.ParseOffer("20% off"); err != nil { // of one too: 1.192, that is 1.19
		t.Fatal(err)
	}
	if w, err = figures.Worth(sauces(t), q); err != nil || !w.Asked(1).Equal(num("1.19").Over(num("0.7"))) {
		t.Errorf("asked are %v a litre of one (%v)", w.Asked(1), err)
	}
}
