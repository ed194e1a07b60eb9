package report_test

import (
	"errors"
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing"
	"putby/pricing/exact"
)

// quinces is a food with a year of prices at two shops: per kg, edible, of
// which a fifth is peel and core.
const quinces = `-- foods.csv --
food,name,basis,refuse
quinces,Quinces,mass,20
-- shelf.csv --
date,shop,item,size,price,terms,form,makes,note
2024-03-01,Brook,quinces,1 kg,3.20,,,,
2024-10-01,Brook,quinces,500 g,1.60,,,,
2024-10-05,Brook,quinces,500 g,0.80,offer,,,
2024-10-11,Brook,quinces,500 g,0.84,offer,,,
2024-11-20,Mill,quinces,2 kg,3.84,offer,,,
2025-01-10,Brook,quinces,1 kg,2.00,offer,,,
2025-01-15,Brook,quinces,1 kg,3.36,,,,
2025-01-02,Mill,quinces,50 g,2.00,,preserved,400 g,
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price,discount,tax,on,note
q1,2025-01-11,Brook,1,food,quinces,3,1 kg,2.00,0.60,0.12,,
q2,2025-01-12,garden,1,food,quinces,1,5 kg,0.00,,,,windfalls
q3,2025-02-20,Mill,1,food,quinces,2,1 kg,3.00,,,,
`

func offersOf(t *testing.T, q figures.OffersQuery, more string) report.Doc {
	t.Helper()
	d, err := question.Offers(join(t, write(t, quinces+more), q.AsOf), q)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Error(err)
	}
	return d
}

func quinceQuery(asOf string) figures.OffersQuery {
	q := figures.OffersQuery{}
	q.Item, q.AsOf = "quinces", date(asOf)
	return q
}

// The history by hand: 4.00 in October, offers at 2.00 and 2.10, 2.40, 2.50;
// paid (6.00 - 0.60 + 0.12) / 2.4 kg = 2.30; 4.20 regular. Windfalls have no price.
func TestOffers(t *testing.T) {
	d := offersOf(t, quinceQuery("2025-01-20"), "")
	tab := table(t, d, "prices")
	if len(tab.Rows) != 8 {
		t.Fatalf("%d prices, want 8", len(tab.Rows))
	}
	wants(t, tab, 6, map[string]string{"date": "2025-01-11", "shop": "Brook", "kind": "paid", "per_unit": "2.300000000000"})
	wants(t, tab, 2, map[string]string{"date": "2024-10-05", "kind": "offer", "per_unit": "2.000000000000"})
	// Directive 98/6/EC, article 6a: the lowest of the last 30 days.
	worthFigures(t, d, map[string]string{"lowest_30_days.per_unit": "2.300000000000", "lowest_30_days.shop": "Brook", "lowest_30_days.date": "2025-01-11",
		"lowest_30_days.presumed": "no"})
	// The year from 21 January 2024: 2.00 2.10 2.30 2.40 2.50 4.00 4.00 4.20. By type 7 of
	// Hyndman and Fan (1996) the quartiles stand at 1.75, 3.5 and 5.25 from the lowest.
	worthFigures(t, d, map[string]string{"year.prices": "8", "year.lowest": "2.000000000000", "year.lower_quartile": "2.250000000000",
		"year.median": "2.450000000000", "year.upper_quartile": "4.000000000000", "year.highest": "4.200000000000"})
	// On offer from 5 October (seen again on the 11th), 20 November, 10 January: 46 and 51 days apart.
	worthFigures(t, d, map[string]string{"rhythm.times": "3", "rhythm.median_days": "48.500000000000", "rhythm.shortest_days": "46", "rhythm.longest_days": "51"})
	wants(t, table(t, d, "spells"), 0, map[string]string{"shop": "Brook", "from": "2024-10-05", "to": "2024-10-11", "lowest": "2.000000000000"})
	wants(t, table(t, d, "shops"), 0, map[string]string{"shop": "Brook", "prices": "7", "lowest": "2.000000000000", "median": "2.500000000000",
		"latest": "4.200000000000", "latest_date": "2025-01-15", "times_on_offer": "2"})
	if !noted(d.Words, "It was on offer 3 times in the year, 49 days apart at the median.") {
		t.Error(d.Words)
	}
	regular := part[*report.Series](t, d, "regular")
	if len(regular.Points) != 3 || !regular.Steps || regular.Points[2].Value.Exact(euro) != "4.200000000000" {
		t.Error(regular)
	}
}

// How often an offer comes, by hand (own numbers). Offers begin on 1 and 31 January,
// 12 March (two days later at the other shop, for less: one occasion), 21 April. As good
// as the last, at 3.00 a kg: all but that of 1 June before. Gaps of 30, 40 and 40 days: mean
// 36.67, deviation 5.7735; Student's t of 2 degrees is 4.303 (NIST/SEMATECH
// e-Handbook, 1.3.6.7.2, from memory), so 4.303 x 5.7735 x sqrt(4/3) = 28.69 days to
// each side: 7.98 to 65.35 days after 21 April.
func TestOffersPace(t *testing.T) {
	const shelf = `-- foods.csv --
food,name,basis,refuse
quinces,Quinces,mass,
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price
-- shelf.csv --
date,shop,item,size,price,terms
2024-05-01,Brook,quinces,1 kg,5.00,
2024-06-01,Brook,quinces,1 kg,3.50,offer
2025-01-01,Brook,quinces,1 kg,2.00,offer
2025-01-31,Brook,quinces,1 kg,3.00,offer
2025-03-12,Brook,quinces,1 kg,3.20,offer
2025-03-14,Mill,quinces,1 kg,2.90,offer
`
	const last = "2025-04-21,Brook,quinces,1 kg,3.00,offer\n"
	d := offersOf(t, quinceQuery("2025-04-25"), shelf+last)
	worthFigures(t, d, map[string]string{"as_good.per_unit": "3.000000000000", "as_good.times": "4", "as_good.offers": "5", "as_good.since": "2024-05-01",
		"as_good.gaps": "3", "as_good.next": "2025-05-28", "as_good.next_earliest": "2025-04-28", "as_good.next_latest": "2025-06-26"})
	if !noted(d.Words, "as good as the last, 3.0000 EUR per kg at Brook on 2025-04-21, was seen 4 times since 2024-05-01, of 5 offers in all (those that begin within 7 days of one another are one), ~37 days apart.") ||
		!noted(d.Words, "The next is likely to begin about ~2025-05-28, between 2025-04-28 and 2025-06-26 (an estimate from 3 gaps") {
		t.Error(d.Words)
	}
	d = offersOf(t, quinceQuery("2025-06-10"), shelf+last)
	if !noted(d.Words, "about ~2025-06-11, between 2025-06-11 and 2025-06-26") { // never in the past
		t.Error(d.Words)
	}
	d = offersOf(t, quinceQuery("2025-07-10"), shelf+last)
	if !noted(d.Words, "The next was to begin by ~2025-06-26") || !noted(d.Words, "and none is recorded.") {
		t.Error(d.Words)
	}
	// On the day before, the last was that of March, at 2.90: one in January is as good.
	d = offersOf(t, quinceQuery("2025-04-20"), shelf+last)
	worthFigures(t, d, map[string]string{"as_good.per_unit": "2.900000000000", "as_good.shop": "Mill", "as_good.times": "2", "as_good.next": "", "as_good.gaps": "1"})
	// The lowest price is named with its own day, not that on which the offer began elsewhere.
	worthFigures(t, d, map[string]string{"as_good.from": "2025-03-12", "as_good.on": "2025-03-14"})
	if !noted(d.Words, "the last, which began on 2025-03-12 and came down to 2.9000 EUR per kg at Mill on 2025-03-14, was seen 2 times") {
		t.Error(d.Words)
	}
	if !noted(d.Words, "too little is known to say when the next comes: that takes 4 of them.") {
		t.Error(d.Words)
	}
}

// What was paid below the regular price was on offer, though nobody noted the
// shelf; without a regular price nothing tells.
func TestOffersSeenOnReceipts(t *testing.T) {
	const receipts = `-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price,discount,tax,on,note
q1,2024-11-04,Brook,1,food,quinces,3,1 kg,2.00,,,,
q2,2025-01-12,Brook,1,food,quinces,1,1 kg,3.20,,,,
q3,2025-02-20,Brook,1,food,quinces,2,1 kg,3.20,2.00,,,
`
	const regular = "-- shelf.csv --\ndate,shop,item,size,price,terms,form,makes,note\n2024-10-01,Brook,quinces,1 kg,3.20,,,,\n"
	d := offersOf(t, quinceQuery("2025-03-31"), receipts+regular)
	// 2.50 and (6.40 - 2.00) / 1.6 kg = 2.75 were paid, 108 days apart, where 4.00 is asked.
	worthFigures(t, d, map[string]string{"rhythm.times": "2", "rhythm.median_days": "108.000000000000"})
	wants(t, table(t, d, "spells"), 1, map[string]string{"shop": "Brook", "from": "2025-02-20", "to": "2025-02-20", "lowest": "2.750000000000"})
	wants(t, table(t, d, "shops"), 0, map[string]string{"times_on_offer": "2"})
	if !noted(d.Words, "It was on offer 2 times in the year, 108 days apart at the median.") {
		t.Error(d.Words)
	}
	d = offersOf(t, quinceQuery("2025-03-31"), receipts+"-- shelf.csv --\ndate,shop,item,size,price,terms,form,makes,note\n")
	if !noted(d.Words, "Whether it was on offer nobody can tell") {
		t.Error(d.Words)
	}
	d = offersOf(t, quinceQuery("2025-03-31"), regular+strings.NewReplacer("2.00,,", "3.20,,", "3.20,2.00", "3.20,").Replace(receipts))
	if worthFigures(t, d, map[string]string{"rhythm.times": "0"}); !noted(d.Words, "It was never seen on offer in the year.") {
		t.Error(d.Words)
	}
}

// A price that was noted and paid at one shop on one day is one price, by hand: 1.50 a
// kg of what is left to eat as noted; 1.234 kg at that come to 1.85, which the till
// rounds; the small package costs more, so that the large one is no offer. Another day,
// another shop and what comes off make another price: 1.50, 1.50 and 1.40. The same noted
// again, as with a note, makes none.
func TestOffersCountOnePurchaseOnce(t *testing.T) {
	const ledger = `-- foods.csv --
food,name,basis,refuse
quinces,Quinces,mass,
-- shelf.csv --
date,shop,item,size,price,terms
2025-02-01,Brook,quinces,1 kg,1.50,
2025-02-01,Brook,quinces,100 g,0.50,
2025-02-01,Mill,quinces,1 kg,1.20,offer
2025-02-01,Brook,quinces,1 kg,1.50,
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price,discount,tax,on,note
q1,2025-02-01,Brook,1,food,quinces,1.234,1 kg,1.50,,,,
q2,2025-02-01,Mill,1,food,quinces,3,1 kg,1.20,,,,
q3,2025-02-09,Brook,1,food,quinces,1,1 kg,1.50,,,,
q4,2025-02-01,Tarn,1,food,quinces,1,1 kg,1.50,,,,
q5,2025-02-01,Brook,2,food,quinces,1,1 kg,1.50,0.10,,,
`
	d := offersOf(t, quinceQuery("2025-03-31"), ledger)
	worthFigures(t, d, map[string]string{"year.prices": "6", "rhythm.times": "1"})
	tab := table(t, d, "prices")
	wants(t, tab, 0, map[string]string{"shop": "Brook", "kind": "regular, paid", "per_unit": "1.500000000000"})
	wants(t, tab, 1, map[string]string{"shop": "Brook", "kind": "regular", "per_unit": "5.000000000000"})
	wants(t, tab, 2, map[string]string{"shop": "Mill", "kind": "offer, paid", "per_unit": "1.200000000000"})
	for key, want := range map[string]int{"regular": 1, "offered": 1, "paid": 2} { // the lowest of each day
		if n := len(part[*report.Series](t, d, key).Points); n != want {
			t.Errorf("%d prices %s, want %d", n, key, want)
		}
	}
	wants(t, table(t, d, "spells"), 0, map[string]string{"shop": "Mill", "lowest": "1.200000000000"})
	wants(t, table(t, d, "spells"), 1, map[string]string{"shop": "Brook", "lowest": "1.400000000000"}) // with 0.10 off
}

// What a kitchen batch cost was paid at no shop.
func TestOffersLeaveBatchesOut(t *testing.T) {
	d := offersOf(t, quinceQuery("2025-03-31"), `-- foods.csv --
food,name,basis,refuse
quinces,Quinces,mass,
windfalls,Windfalls,mass,
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price
w1,2025-01-11,Brook,1,food,windfalls,3,1 kg,2.00
-- batches.csv --
batch,date,item,quantity,from,cost
b1,2025-01-12,quinces,2 kg,2 kg windfalls,1.00
-- shelf.csv --
date,shop,item,size,price,terms,form,makes,note
2025-01-01,Brook,quinces,1 kg,3.20,,,,
`)
	if n := len(table(t, d, "prices").Rows); n != 1 {
		t.Errorf("%d prices, want only that of the shelf", n)
	}
	worthFigures(t, d, map[string]string{"year.prices": "1", "rhythm.times": "0"})
}

// The report narrows to a shop, a form, a stretch of time; later records do not
// count.
func TestOffersNarrowed(t *testing.T) {
	q := quinceQuery("2025-03-31")
	q.Shop = "Mill"
	d := offersOf(t, q, "")
	worthFigures(t, d, map[string]string{"year.prices": "2", "lowest_30_days.per_unit": "", "year.highest": "3.750000000000"})
	if d.Title != "Prices of Quinces at Mill" {
		t.Error(d.Title)
	}
	q = quinceQuery("2025-03-31")
	q.Form = pricing.Preserved
	d = offersOf(t, q, "")
	worthFigures(t, d, map[string]string{"year.prices": "1", "year.median": "5.000000000000"}) // 2.00 for what makes 400 g
	q = quinceQuery("2024-10-31")
	q.From = date("2024-10-02")
	d = offersOf(t, q, "")
	if n := len(table(t, d, "prices").Rows); n != 2 {
		t.Errorf("%d prices in October from the 2nd, want 2", n)
	}
	worthFigures(t, d, map[string]string{"year.prices": "4", "lowest_30_days.date": "2024-10-05"}) // those before count for the year
	q = quinceQuery("2024-02-01")
	d = offersOf(t, q, "")
	if !noted(d.Words, "No price is recorded in the year up to") {
		t.Error(d.Words)
	}
	// Without a price in 30 days it is presumed to be the last regular one.
	d = offersOf(t, quinceQuery("2024-09-01"), "")
	worthFigures(t, d, map[string]string{"lowest_30_days.per_unit": "4.000000000000", "lowest_30_days.presumed": "yes", "rhythm.times": "0", "rhythm.median_days": ""})
}

func TestOffersRefuses(t *testing.T) {
	g := join(t, write(t, quinces), exact.NoDate)
	for _, c := range []struct {
		change func(*figures.OffersQuery)
		says   string
	}{
		{func(q *figures.OffersQuery) { q.Shop = "Tarn" }, `--shop: no price of quinces at "Tarn" is recorded`},
		{func(q *figures.OffersQuery) { q.From, q.To = date("2025-01-02"), date("2025-01-01") }, "is before --from"},
	} {
		q := quinceQuery("2025-03-31")
		c.change(&q)
		_, err := question.Offers(g, q)
		if !errors.Is(err, question.ErrOption) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
	q := quinceQuery("2024-01-01") // before all prices no shop can be named in their place
	q.Shop = "Brook"
	if _, err := question.Offers(join(t, write(t, quinces), q.AsOf), q); question.OptionOf(err).Hint != "price add notes the first price of it" {
		t.Errorf("a shop where no price is known: %v", err)
	}
	q = quinceQuery("2025-03-31")
	q.Item = "quince"
	var unknown *figures.UnknownError
	if _, err := question.Offers(g, q); !errors.As(err, &unknown) || unknown.Name != "quince" {
		t.Error(err)
	}
}
