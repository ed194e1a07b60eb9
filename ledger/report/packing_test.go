package report

import (
	"maps"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// carrots are the food that is packed, of which little is known.
func carrots() map[string]string {
	return map[string]string{"food": "carrots", "basis": "mass", "caution": "Blanch them."}
}

// packed are the records of one run of 6 kg of carrots and a pack of it; weighed
// are the load's weights.
func packed(t *testing.T, food, weighed, pack map[string]string) *ledger.Ledger {
	t.Helper()
	load := map[string]string{"run": "c1", "item": "carrots", "quantity": "6 kg", "lost": "1 kg"}
	maps.Copy(load, weighed)
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC}}
	for _, r := range []struct {
		kind  string
		cells map[string]string
	}{
		{"food", food},
		{"machine", map[string]string{"machine": "m", "cycles": "100"}},
		{"tariff", map[string]string{"tariff": "flat", "rate": "0.20"}},
		{"supply", map[string]string{"supply": "jar", "kind": "jar", "capacity": "1 L", "price": "2"}},
		{"supply", map[string]string{"supply": "gallon", "kind": "jar", "capacity": "1 gal", "price": "6"}},
		{"supply", map[string]string{"supply": "lid", "kind": "lid", "price": "0.5"}},
		{"supply", map[string]string{"supply": "abs", "kind": "absorber", "capacity": "300 cc", "price": "0.50"}},
		{"supply", map[string]string{"supply": "abs-50", "kind": "absorber", "capacity": "50 cc", "price": "0.10"}},
		{"receipt", map[string]string{"receipt": "r1", "date": "2025-03-01", "shop": "s", "line": "1", "kind": "food", "item": "carrots", "size": "6 kg", "price": "12"}},
		// 10 absorbers for 3.00; what goes beyond them is at list price.
		{"receipt", map[string]string{"receipt": "r1", "date": "2025-03-01", "shop": "s", "line": "2", "kind": "supply", "item": "abs", "size": "10 ea", "price": "3"}},
		{"run", map[string]string{"run": "c1", "machine": "m", "start": "2025-03-02 18:00", "kwh": "15", "tariff": "flat"}},
		{"load", load},
		{"pack", pack},
	} {
		k, _ := ledger.KindOf(r.kind)
		var faults ledger.Faults
		if rec, faults = rec.With(k, r.cells); faults != nil {
			t.Fatal(faults)
		}
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	return g
}

func TestPackAdvice(t *testing.T) {
	for _, test := range []struct {
		count, each, dry, with string
		want                   []string
	}{
		{"10", "500 g", "120 g", "1 jar, 1 lid, 1 abs", []string{
			"Whether it is dry is not known without the water of fresh carrots in foods.csv. Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only.",
			"jar, 120 g of dry food: 920 mL of gas, 20.9 % of it oxygen, 192.28 cc. It needs 1 of abs (300 cc); 1 used, which takes up that oxygen.",
			"Caution, carrots: Blanch them."}},
		// Two too many in each of 10: 30 absorbers, 10 for 3.00 and 20 at 0.50;
		// two thirds of that are too many.
		{"10", "500 g", "120 g", "1 jar, 3 abs", []string{
			"Whether it is dry is not known without the water of fresh carrots in foods.csv. Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only.",
			"jar, 120 g of dry food: 920 mL of gas, 20.9 % of it oxygen, 192.28 cc. It needs 1 of abs (300 cc); 3 used, 2 more than needed, which costs 8.67 EUR.",
			"Caution, carrots: Blanch them."}},
		// 192.28 cc less 2 x 50 cc.
		{"10", "500 g", "120 g", "1 jar, 2 abs-50", []string{
			"Whether it is dry is not known without the water of fresh carrots in foods.csv. Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only.",
			"jar, 120 g of dry food: 920 mL of gas, 20.9 % of it oxygen, 192.28 cc. It needs 4 of abs-50 (50 cc); 2 used, 2 too few: 92.28 cc of oxygen stay in each.",
			"Caution, carrots: Blanch them."}},
		{"10", "500 g", "", "1 jar", []string{
			"Whether it is dry is not known without the water of fresh carrots in foods.csv. Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only.",
			"jar, dry weight not known: 1000 mL of gas, 20.9 % of it oxygen, 209 cc. It needs 1 of abs (300 cc); none is used.",
			"Caution, carrots: Blanch them."}},
		// 3785.411784 mL x 0.209 = 791.15 cc, so three. (Utah State University
		// Extension, Oxygen Removal, has one of 300 cc for a gallon or less, of
		// food that is packed dense.)
		{"5", "1 kg", "", "1 gallon, 1 abs", []string{
			"Whether it is dry is not known without the water of fresh carrots in foods.csv. Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only.",
			"gallon, dry weight not known: 3785.41 mL of gas, 20.9 % of it oxygen, 791.15 cc. It needs 3 of abs (300 cc); 1 used, 2 too few: 491.15 cc of oxygen stay in each.",
			"Caution, carrots: Blanch them."}},
		// 5 kg were loaded less what was lost: 4.5 kg and 5.5 kg are 10 % off, and
		// pass; more does not.
		{"9", "500 g", "", "1 lid", []string{"Caution, carrots: Blanch them."}},
		{"11", "500 g", "", "1 lid", []string{"Caution, carrots: Blanch them."}},
		{"8", "500 g", "", "1 lid", []string{
			"The packs of carrots from run c1 give 4 kg together; 5 kg was loaded less what was lost.", "Caution, carrots: Blanch them."}},
		{"12", "500 g", "", "1 lid", []string{
			"The packs of carrots from run c1 give 6 kg together; 5 kg was loaded less what was lost.", "Caution, carrots: Blanch them."}},
	} {
		test.want = append(test.want, SafetyLine)
		g := packed(t, carrots(), nil, map[string]string{"pack": "c1-a", "run": "c1", "item": "carrots", "date": "2025-03-04",
			"count": test.count, "each": test.each, "dry": test.dry, "with": test.with})
		if got := Lines(PackAdvice(g, 0)); strings.Join(got, "\n") != strings.Join(test.want, "\n") {
			t.Errorf("%s x %s with %s:\n%s\nwant\n%s", test.count, test.each, test.with, strings.Join(got, "\n"), strings.Join(test.want, "\n"))
		}
	}
}

// Carrots are 88.29 % water (USDA SR28, 11124), so 500 g of them hold 58.55 g of
// solids: 1 - 58.55 / 234.2 = 75 % of 234.2 g is water, of 65.06 g just over 10 %
// is, of 65.05 g just under, and 60 g hold 2.4 %. That 10 % is the most for food
// stored with oxygen absorbers is extension guidance (memory).
func TestPackAdviceOnWater(t *testing.T) {
	watery := carrots()
	watery["water"] = "88.29"
	unknown := func(what string) string {
		return "Whether it is dry is not known without " + what + ". Moist food sealed without oxygen can grow botulism: break the thickest piece and look, or weigh it, before you seal it. Absorbers are for dry food only."
	}
	moist := func(percent, more string) string {
		return "Caution, carrots: Not dry. By its weights " + percent + " % of pack c1-a is still water (10 % is the most). Moist food sealed without oxygen can grow botulism, which has no smell or taste: use no absorber" + more + ". Dry it on and weigh again, until it loses no more weight."
	}
	dry := func(percent string) string {
		return "Water left: about " + percent + " %, by its weights and the 88.29 % of fresh carrots; 10 % is the most."
	}
	weighed := func(dry string) map[string]string { return map[string]string{"wet": "5 kg", "dry": dry} }
	const takeOut, none = ", and take out those that are in", ""
	for name, test := range map[string]struct {
		food, load  map[string]string
		dry, with   string
		first       string // line, empty for one about absorbers
		recommended bool   // an absorber, in a line of its own
	}{
		"75 %":                   {watery, nil, "234.2 g", "1 jar, 1 abs", moist("75", takeOut), false},
		"75 % without absorbers": {watery, nil, "234.2 g", "1 jar", moist("75", none), false},
		"just over 10 %":         {watery, nil, "65.06 g", "1 jar, 1 abs", moist("11", takeOut), false},
		"just under 10 %":        {watery, nil, "65.05 g", "1 jar, 1 abs", dry("10"), true},
		"dry":                    {watery, nil, "60 g", "1 jar, 1 abs", dry("2"), true},
		"dry without absorbers":  {watery, nil, "60 g", "1 lid", dry("2"), false},
		"less than its solids": {watery, nil, "50 g", "1 jar, 1 abs",
			"Water left: none. By its weights it holds less than its solids should: is the dry weight right, and is fresh carrots 88.29 % water?", true},
		// 5 kg wet hold 585.5 g of solids: 2342 g are 75 % water, 600 g 2.4 %.
		"moist by its load":        {watery, weighed("2342 g"), "", "1 jar, 1 abs", moist("75", takeOut), false},
		"dry by its load":          {watery, weighed("600 g"), "", "1 jar, 1 abs", dry("2"), true},
		"dried on after the load":  {watery, weighed("2342 g"), "60 g", "1 jar, 1 abs", dry("2"), true},
		"no weights":               {watery, nil, "", "1 jar, 1 abs", unknown("its dry weight"), true},
		"no water":                 {carrots(), weighed("2342 g"), "234.2 g", "1 jar, 1 abs", unknown("the water of fresh carrots in foods.csv"), true},
		"neither asks nor answers": {carrots(), nil, "", "1 lid", "Caution, carrots: Blanch them.", false},
	} {
		g := packed(t, test.food, test.load, map[string]string{"pack": "c1-a", "run": "c1", "item": "carrots", "date": "2025-03-04",
			"count": "10", "each": "500 g", "dry": test.dry, "with": test.with})
		got := Lines(PackAdvice(g, 0))
		recommended := strings.Contains(strings.Join(got[1:], "\n"), "It needs 1 of abs (300 cc);")
		if got[0] != test.first || recommended != test.recommended || got[len(got)-1] != SafetyLine {
			t.Errorf("%s:\n%s\nwant first\n%s\nand an absorber recommended: %v", name, strings.Join(got, "\n"), test.first, test.recommended)
		}
		noted := strings.Contains(strings.Join(Stated(g, g.Packs[0].Notes()), "|"), "of it was still water")
		if moist := strings.Contains(test.first, "Not dry"); noted != moist {
			t.Errorf("%s: noted on its cost: %q, moist: %v", name, Stated(g, g.Packs[0].Notes()), moist)
		}
	}
}
