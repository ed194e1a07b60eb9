package pricing_test

import (
	"fmt"
	"slices"
	"testing"

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

// A price paid tells of an offer where it is below the regular price of that day:
// the shop's last one, before its first that one, and of a shop without any the
// last one of any shop. Without a regular price nothing tells.
func TestSpellsFromPricesPaid(t *testing.T) {
	const reg, off, paid = pricing.AskedRegular, pricing.AskedOffer, pricing.Paid
	prices := []pricing.Price{
		price("2025-01-01", "Corner", paid, "2.00"), // 3.00 from the 10th stands in
		price("2025-01-10", "Corner", reg, "3.00"),
		price("2025-01-12", "Corner", paid, "3.00"),
		price("2025-01-20", "Corner", paid, "2.50"),
		price("2025-01-22", "Corner", off, "2.40"),
		price("2025-02-01", "Corner", reg, "2.00"),
		price("2025-02-10", "Corner", paid, "2.50"),
		price("2025-03-01", "Stall", paid, "1.90"), // below the Corner's 2.00
		price("2025-03-20", "Stall", paid, "2.10"),
	}
	var have []string
	for _, s := range pricing.NewHistory(prices).Spells(7) {
		have = append(have, fmt.Sprintf("%s %v %v %s", s.Shop, s.From, s.To, s.Lowest.Round(2, exact.HalfAway).Fixed(2)))
	}
	want := []string{"Corner 2025-01-01 2025-01-01 2.00", "Corner 2025-01-20 2025-01-22 2.40", "Stall 2025-03-01 2025-03-01 1.90"}
	if !slices.Equal(have, want) {
		t.Errorf("spells %q, want %q", have, want)
	}
	// What a narrower history holds was judged by all that is known.
	if n := len(pricing.NewHistory(prices).At("Stall").Between(day("2025-03-01"), day("2025-03-31")).Spells(7)); n != 1 {
		t.Errorf("%d spells at the stall, want 1", n)
	}
	unknown := pricing.NewHistory([]pricing.Price{price("2025-01-01", "Corner", paid, "2.00"), price("2025-03-01", "Corner", paid, "1.00")})
	if n := len(unknown.Spells(7)); n != 0 {
		t.Errorf("%d spells where no regular price is known", n)
	}
}

// Is 1.50 at the Corner in April a real offer? The month before asked 3.00, so
// it is half price; of the seven prices of the year, asked or paid, only 1.40 was
// lower and one equal.
func TestStanding(t *testing.T) {
	s := leeks().Standing(day("2025-03-20"), ratio("1.50", "1"))
	ref, _ := s.Reference.Get()
	reduction, _ := s.Reduction.Get()
	median, _ := s.Median.Get()
	if !ref.PerUnit.Equal(ratio("3", "1")) || !reduction.Equal(ratio("1", "2")) || !median.Equal(ratio("1.60", "1")) {
		t.Errorf("reference %v, reduction %v, median %v", ref, reduction, median)
	}
	if want := (pricing.Rank{Lower: 1, Equal: 1, Higher: 5}); s.Year != want || s.Year.Among() != 7 {
		t.Errorf("rank %+v, want %+v", s.Year, want)
	}
	if lowest, _ := s.Lowest.Get(); !lowest.PerUnit.Equal(ratio("1.40", "1")) {
		t.Errorf("lowest %+v", lowest)
	}
	// What was paid counts: 1.55 is lower than an offer of 1.58.
	if s := leeks().At("Market").Of(pricing.Paid).Standing(day("2025-02-01"), ratio("1.58", "1")); s.Year.Lower != 1 {
		t.Errorf("a lower price paid that day does not count: %+v", s.Year)
	}
	unknown := pricing.NewHistory(nil).Standing(day("2025-03-20"), ratio("1.50", "1"))
	if unknown.Reference.Given() || unknown.Reduction.Given() || unknown.Median.Given() || unknown.Lowest.Given() || unknown.Year.Among() != 0 {
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
	fmt.Printf("%v %% under the last 30 days; %d of %d prices of the year are lower\n",
		percent, s.Year.Lower, s.Year.Among())
	// Output: 46.7 % under the last 30 days; 3 of 8 prices of the year are lower
}
