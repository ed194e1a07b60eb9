package pricing_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

func price(date, shop string, kind pricing.Kind, perUnit string) pricing.Price {
	return pricing.Price{Date: day(date), Shop: shop, Kind: kind, PerUnit: exact.RatioOf(num(perUnit))}
}

// leeks are two shops' prices over fourteen months, out of order.
func leeks() *pricing.History {
	const reg, off, paid = pricing.AskedRegular, pricing.AskedOffer, pricing.Paid
	return pricing.NewHistory([]pricing.Price{
		price("2025-03-01", "Corner", reg, "3.00"),
		price("2024-02-10", "Corner", reg, "2.60"),
		price("2024-06-01", "Market", reg, "2.80"),
		price("2024-09-07", "Market", off, "1.50"),
		price("2024-09-10", "Market", off, "1.40"),
		price("2024-11-16", "Corner", off, "1.80"),
		price("2025-02-01", "Market", off, "1.60"),
		price("2025-02-01", "Market", paid, "1.55"),
		price("2025-04-05", "Corner", off, "1.60"),
	})
}

func TestReference(t *testing.T) {
	h := leeks()
	tests := []struct {
		what, shop, day, want string
		presumed              bool
	}{
		{"within 30 days", "", "2025-03-03", "1.55", false},
		{"30 days before counts", "Market", "2025-03-03", "1.55", false},
		{"31 days before does not", "Market", "2025-03-04", "2.80", true},
		{"the day itself does not", "Corner", "2025-03-01", "2.60", true},
		{"the day after does", "Corner", "2025-03-02", "3.00", false},
		{"offers of earlier days are not presumed", "Corner", "2025-01-31", "2.60", true},
	}
	for _, test := range tests {
		of := h
		if test.shop != "" {
			of = h.At(test.shop)
		}
		ref, ok := of.Reference(day(test.day))
		if !ok || ref.Presumed != test.presumed || !ref.PerUnit.Equal(ratio(test.want, "1")) {
			t.Errorf("%s: %+v (%v), want %s", test.what, ref, ok, test.want)
		}
	}
	if ref, ok := h.Reference(day("2024-02-10")); ok {
		t.Errorf("before any price: %+v", ref)
	}
}

func TestNarrowing(t *testing.T) {
	h := leeks()
	if got := h.Shops(); !slices.Equal(got, []string{"Corner", "Market"}) {
		t.Errorf("shops %v", got)
	}
	if got := len(h.YearTo(day("2025-02-10")).Prices()); got != 6 {
		t.Errorf("the year to 10 February has %d prices, want 6: the same day a year before is out", got)
	}
	if latest, ok := h.Latest(); !ok || latest.Date != day("2025-04-05") {
		t.Errorf("latest %+v", latest)
	}
	lowest, _ := h.Of(pricing.AskedOffer, pricing.Paid).Lowest()
	if lowest.Date != day("2024-09-10") {
		t.Errorf("lowest %+v", lowest)
	}
	none := h.At("Nowhere")
	if _, ok := none.Lowest(); ok {
		t.Error("an unknown shop has a lowest price")
	}
	if _, ok := none.Summary(); ok {
		t.Error("an unknown shop has a summary")
	}
}

func TestSummary(t *testing.T) {
	s, ok := leeks().At("Market").Of(pricing.AskedRegular, pricing.AskedOffer).Summary()
	if !ok || s.Count != 4 || s.Latest.Date != day("2025-02-01") {
		t.Errorf("summary %+v", s)
	}
	// 1.40 1.50 1.60 2.80
	for what, pair := range map[string][2]exact.Ratio{
		"lowest":         {s.Lowest, ratio("1.40", "1")},
		"lower quartile": {s.LowerQuartile, ratio("1.475", "1")},
		"median":         {s.Median, ratio("1.55", "1")},
		"upper quartile": {s.UpperQuartile, ratio("1.90", "1")},
		"highest":        {s.Highest, ratio("2.80", "1")},
	} {
		wantRatio(t, what, pair[0], pair[1])
	}
}

// Type 7 on 1 to 10, as the R manual's default quantile gives it: 1, 3.25, 5.5,
// 7.75, 10 (memory); and the twelve gauge readings of the NIST/SEMATECH e-Handbook
// 7.2.6.2, whose 90th percentile by this rule is given as 95.1957 (memory).
func TestQuantile(t *testing.T) {
	var ten []exact.Ratio
	for i := range int64(10) {
		ten = append(ten, exact.RatioOf(exact.Int(i+1)))
	}
	for q, want := range map[string]string{"0": "1", "0.25": "3.25", "0.5": "5.5", "0.75": "7.75", "1": "10"} {
		got, ok := pricing.Quantile(ten, exact.RatioOf(num(q)))
		if !ok {
			t.Fatalf("no quantile at %s", q)
		}
		wantRatio(t, "quantile "+q, got, exact.RatioOf(num(want)))
	}
	var gauges []exact.Ratio
	for _, s := range []string{
		"95.0610", "95.0925", "95.1065", "95.1195", "95.1442", "95.1567",
		"95.1591", "95.1682", "95.1772", "95.1937", "95.1959", "95.1990",
	} {
		gauges = append(gauges, exact.RatioOf(num(s)))
	}
	got, _ := pricing.Quantile(gauges, exact.RatioOf(num("0.9")))
	if rounded := got.Round(4, exact.HalfEven); !rounded.Equal(num("95.1957")) {
		t.Errorf("90th percentile of the gauges: %v, want 95.1957", rounded)
	}
	for _, q := range []string{"-0.1", "1.1"} {
		if _, ok := pricing.Quantile(ten, exact.RatioOf(num(q))); ok {
			t.Errorf("a quantile at %s", q)
		}
	}
	if _, ok := pricing.Quantile(nil, exact.Ratio{}); ok {
		t.Error("a quantile of nothing")
	}
}

// Law: the quantile of type 7 is where the graph through the points
// (i / (count-1), value i) stands at q; against big.Rat.
func TestQuantileTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := make([]exact.Ratio, rapid.IntRange(1, 12).Draw(t, "count"))
		for i := range values {
			values[i] = number(t, "n", 0, 999, 2).Over(number(t, "d", 1, 30, 0))
		}
		slices.SortFunc(values, exact.Ratio.Cmp)
		den := number(t, "of", 1, 40, 0)
		q := number(t, "part", 0, 40, 0).Min(den).Over(den)
		got, ok := pricing.Quantile(values, q)
		if !ok {
			t.Fatal("no quantile")
		}
		want := ratOf(values[0])
		for i := range len(values) - 1 {
			left, right := big.NewRat(int64(i), int64(len(values)-1)), big.NewRat(int64(i+1), int64(len(values)-1))
			if x := ratOf(q); x.Cmp(left) >= 0 && x.Cmp(right) <= 0 {
				slope := new(big.Rat).Quo(new(big.Rat).Sub(ratOf(values[i+1]), ratOf(values[i])), new(big.Rat).Sub(right, left))
				want = slope.Mul(slope, x.Sub(x, left)).Add(slope, ratOf(values[i]))
			}
		}
		if ratOf(got).Cmp(want) != 0 {
			t.Fatalf("quantile %v of %v is %v, want %v", q, values, got, want)
		}
	})
}

func TestSpells(t *testing.T) {
	spells := leeks().Spells(7)
	if len(spells) != 4 {
		t.Fatalf("spells %+v", spells)
	}
	first := spells[0]
	if first.From != day("2024-09-07") || first.To != day("2024-09-10") || !first.Lowest.Equal(ratio("1.40", "1")) {
		t.Errorf("first spell %+v", first)
	}
	if n := len(leeks().Spells(2)); n != 5 {
		t.Errorf("%d spells when three days apart is two offers, want 5", n)
	}
	// 7 September, 16 November, 1 February, 5 April: 70, 77 and 63 days.
	slices.Reverse(spells)
	r, ok := pricing.RhythmOf(spells)
	if !ok || r.Shortest != 63 || r.Longest != 77 || !r.Median.Equal(ratio("70", "1")) {
		t.Errorf("rhythm %+v", r)
	}
	if _, ok := pricing.RhythmOf(spells[:1]); ok {
		t.Error("one spell has a rhythm")
	}
}

// Is 1.50 at the Corner in April a real offer? The month before asked 3.00, so
// it is half price; of the year's four offers only one was lower and one equal.
func TestStanding(t *testing.T) {
	s := leeks().Standing(day("2025-03-20"), ratio("1.50", "1"))
	ref, _ := s.Reference.Get()
	reduction, _ := s.Reduction.Get()
	median, _ := s.Median.Get()
	if !ref.PerUnit.Equal(ratio("3", "1")) || !reduction.Equal(ratio("1", "2")) || !median.Equal(ratio("1.60", "1")) {
		t.Errorf("reference %v, reduction %v, median %v", ref, reduction, median)
	}
	if want := (pricing.Rank{Lower: 1, Equal: 1, Higher: 2}); s.Offers != want || s.Offers.Place() != 2 || s.Offers.Among() != 4 {
		t.Errorf("rank %+v, want %+v", s.Offers, want)
	}
	unknown := pricing.NewHistory(nil).Standing(day("2025-03-20"), ratio("1.50", "1"))
	if unknown.Reference.Given() || unknown.Reduction.Given() || unknown.Median.Given() || unknown.Offers.Among() != 0 {
		t.Errorf("with nothing known: %+v", unknown)
	}
	free := pricing.NewHistory([]pricing.Price{price("2025-03-19", "Corner", pricing.AskedOffer, "0")})
	if free.Standing(day("2025-03-20"), ratio("1", "1")).Reduction.Given() {
		t.Error("a part of nothing")
	}
}

func TestAsked(t *testing.T) {
	shelf := pricing.NewShelf([]pricing.Ask{
		ask("2025-01-10", "1.90", pricing.Regular, pricing.Fresh, 2),
		ask("2025-01-11", "9.00", pricing.Regular, pricing.Preserved, 3),
		ask("2025-01-12", "1.20", pricing.OnOffer, pricing.Fresh, 4),
	})
	got := slices.Collect(shelf.Asked(pricing.Fresh))
	if len(got) != 2 || got[0].Kind != pricing.AskedRegular || got[1].Kind != pricing.AskedOffer {
		t.Errorf("asked: %+v", got)
	}
	for range shelf.Asked(pricing.Preserved) {
		break
	}
}

func ExampleHistory_Standing() {
	s := leeks().Standing(day("2025-04-05"), ratio("1.60", "1"))
	reduction, _ := s.Reduction.Get()
	percent := reduction.Times(exact.Int(100)).Round(1, exact.HalfAway)
	fmt.Printf("%v %% under the last 30 days; place %d among %d offers of the year\n",
		percent, s.Offers.Place(), s.Offers.Among()+1)
	// Output: 46.7 % under the last 30 days; place 3 among 5 offers of the year
}
