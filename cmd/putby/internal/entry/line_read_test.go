package entry

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// larder is a household's things, and what its shops call some of them.
func larder(t testing.TB) (*ledger.Records, []intake.Name) {
	t.Helper()
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("CAD")}}
	for _, cells := range []map[string]string{
		{"food": "strawberries", "name": "Strawberries", "basis": "mass"}, {"food": "oat-milk", "name": "Oat milk", "basis": "volume"},
		{"food": "milk", "basis": "volume"}, {"food": "eggs", "name": "Eggs", "basis": "count"}, {"food": "beans", "name": "3 bean salad", "basis": "mass"},
		{"food": "seven", "name": "Milk 2", "basis": "volume"},
	} {
		rec = with(t, rec, "food", cells)
	}
	for _, cells := range []map[string]string{
		{"supply": "jar-1l", "name": "1 L jar", "kind": "jar"}, {"supply": "jar-05l", "name": "0.5 L jar", "kind": "jar"}, {"supply": "lids", "name": "Lid, wide", "kind": "lid"},
	} {
		rec = with(t, rec, "supply", cells)
	}
	rec = with(t, rec, "machine", map[string]string{"machine": "shed", "name": "Shed dryer", "cycles": "900"})
	return rec, []intake.Name{
		{Name: "ERDB. FRISCH*", Item: "strawberries", Size: "500 g"}, {Name: "soap", Kind: "other"}, {Name: "card points", Kind: "discount"},
		{Map: "till", Name: "frais", Item: "strawberries"}, {Name: "ghost", Item: "gone"},
	}
}

func with(t testing.TB, rec *ledger.Records, kind string, cells map[string]string) *ledger.Records {
	t.Helper()
	more, faults := rec.With(ledger.MustKind(kind), cells)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return more
}

// What a person says, and the cells of receipts.csv that it becomes: of each where
// N x stands in front, of the whole line otherwise.
func TestRead(t *testing.T) {
	x := NewItemNames(larder(t))
	for _, test := range []struct{ text, want string }{
		{"2 lb strawberries 5.98", "food strawberries size=2 lb price=5.98"},
		{"3 x 454 g strawberries 3.99", "food strawberries count=3 size=454 g price=3.99"},
		{"3x 454g STRAWBERRIES $3.99", "food strawberries count=3 size=454 g price=3.99"},
		{"3 × 454 g strawberries for 11.97", "food strawberries count=3 size=454 g price=3.99"},
		{"3 x 454 g strawberries 11.97 in all", "food strawberries count=3 size=454 g price=3.99"},
		{"2 lbs of strawberries 5,98", "food strawberries size=2 lb price=5.98"},
		// The count behind the name.
		{"strawberries 12 x 1 lb at 1.99", "food strawberries count=12 size=1 lb price=1.99"},
		{"strawberries 12x 1 lb 1.99", "food strawberries count=12 size=1 lb price=1.99"},
		{"strawberries 1 lb 1.99 x 12", "food strawberries count=12 size=1 lb price=1.99"},
		{"strawberries 1 lb x 12 for 23.88", "food strawberries count=12 size=1 lb price=1.99"},
		{"eggs x 2 3.49", "food eggs count=2 price=3.49"},
		{"tin opener 2 x 3.99", "other tin opener count=2 price=3.99 ?"},
		{"screws 4 x 40 mm 3.00", "other screws 4 x 40 mm price=3.00 ?"},
		{"strawberries 454 g 3.99", "food strawberries size=454 g price=3.99"},
		{"strawberries 3.99 454 g", "food strawberries size=454 g price=3.99"},
		{"strawberries 5.98 for 2 lb", "food strawberries size=2 lb price=5.98"},
		{"1.234 kg strawberries 2.49/kg", "food strawberries count=1.234 size=1 kg price=2.49"},
		{"1.234 kg strawberries at CAD 2.49 per kilo", "food strawberries count=1.234 size=1 kg price=2.49"},
		{"250 g strawberries $ 12 a kg", "food strawberries count=0.25 size=1 kg price=12"},
		{"erdb. frisch 1a 3.99", "food strawberries size=500 g price=3.99"},
		{"frais 1 kg 3.99", "food strawberries size=1 kg price=3.99"},
		// 2 for 5.00 are 2.50 each; 3 for 5.00 are 1.667 each, the price with the fewest places that comes to 5.00.
		{"oat milk 2 for 5.00", "food oat-milk count=2 price=2.50 note=offer 2 for 5.00"},
		{"oat milk 3 for $5", "food oat-milk count=3 price=1.667 note=offer 3 for 5.00"},
		{"4 x 1 L oat milk 2 for 5.00", "food oat-milk count=4 size=1 L price=2.50 note=offer 2 for 5.00"},
		{"3 x 1 L oat milk 2.79 2 for 5.00", "food oat-milk count=3 size=1 L price=2.79 discount=0.58 note=offer 2 for 5.00"},
		{"2 oat milk 4.98", "food oat-milk count=2 price=2.49"},
		{"2 oat milk at 2.49", "food oat-milk count=2 price=2.49"},
		{"2 oat milk 2.49 each", "food oat-milk count=2 price=2.49"},
		{"3 x oat milk 2.79 buy 2 get 1 free", "food oat-milk count=3 price=2.79 discount=2.79 note=offer buy 2 get 1 free"},
		{"3 x oat milk 2.00 3rd half price less 0.10", "food oat-milk count=3 price=2.00 discount=1.10 note=offer 3rd half price"},
		{"oat milk 20% off 2.50", "food oat-milk price=2.50 discount=0.50 note=offer 20% off"},
		{"oat milk 1.99 on offer", "food oat-milk price=1.99 note=on offer"},
		{"oat milk 1 L 1.99 regular tax 0.10 note by the door", "food oat-milk size=1 L price=1.99 tax=0.10 note=by the door"},
		// The longest name: oat milk is not milk, Milk 2 is not two of milk.
		{"milk 2.49", "food milk price=2.49"},
		{"milk 2 for 5.00", "food seven price=5.00"},
		{"3 bean salad 2.49", "food beans price=2.49"},
		// Eggs are counted in pieces.
		{"12 eggs 3.49", "food eggs size=12 ea price=3.49"},
		{"12 eggs at 0.29", "food eggs count=12 size=1 ea price=0.29"},
		{"12 eggs 0.29 ea", "food eggs count=12 size=1 ea price=0.29"},
		{"2 x 12 eggs 3.49", "food eggs count=2 size=12 ea price=3.49"},
		{"an egg 0.40", "other an egg price=0.40 ?"},
		{"egg 0.40", "food eggs price=0.40"},
		{"1 dozen eggs 3.49", "food eggs size=1 doz price=3.49"},
		// Supplies: by name with a size in it, in the plural, as the only ones of a kind.
		{"6 x 1 L jars 2.10", "supply jar-1l count=6 price=2.10"},
		{"6 jar-1l 12.60", "supply jar-1l count=6 price=2.10"},
		{"jar-05l 12 ea 24.00", "supply jar-05l size=12 ea price=24.00"},
		{"10 lids 4.00", "supply lids count=10 price=0.40"},
		{"6 jars 12.60", "other 6 jars price=12.60 ?"}, // of which size?
		{"-3 x jar-1l at 1.55", "supply jar-1l count=-3 price=1.55"},
		{"machine shed dryer 2400", "machine shed price=2400"},
		{"machine oil 9.00", "other machine oil price=9.00 ?"},
		// Anything else is spending alone, known by name or not.
		{"soap 1.99", "other soap price=1.99"},
		{"3 in 1 oil 5", "other 3 in 1 oil price=5 ?"},
		{"ghost 5", "other ghost price=5 ?"},
		{"other strawberries 5.98", "other strawberries price=5.98"},
		{"bus fare home 2.40", "other bus fare home price=2.40 ?"},
		{"service call 40.00", "service call price=40.00"},
		{"batteries 99¢", "other batteries price=0.99 ?"},
		{"road tax 120", "other road tax price=120 ?"},
		{"delivery box 2.00", "other delivery box price=2.00 ?"},
		// Amounts.
		{"coupon 2.00", "discount price=2.00"},
		{"Coupon -2.00 on 1, 2", "discount price=2.00 on=1,2"},
		{"voucher strawberries 1.00", "discount price=1.00 on=strawberries"},
		{"discount $1.00 on strawberries", "discount price=1.00 on=strawberries"},
		{"card points 0.50", "discount price=0.50"},
		{"sales tax 1.20", "tax price=1.20"},
		{"VAT 1.20 on 1", "other VAT 1.20 on price=1 ?"},
		{"delivery 4.90", "charge price=4.90"},
		{"deposit 8 x 0.10", "deposit count=8 price=0.10"},
		{"bottle return 0.80", "deposit price=-0.80"},
		{"bottle return 8 x 0.10", "deposit count=-8 price=0.10"},
		{"bottles back -0.80", "deposit price=-0.80"},
		{"total 22.94", "total price=22.94"},
	} {
		l, known, err := x.Read(test.text)
		if err != nil {
			t.Errorf("%q: %v", test.text, err)
			continue
		}
		cells, err := l.Cells(2)
		got := said(cells)
		if !known {
			got += " ?"
		}
		if err != nil || got != test.want {
			t.Errorf("%q: %s (%v), want %s", test.text, got, err, test.want)
		}
	}
}

func said(cells map[string]string) string {
	words := []string{cells["kind"]}
	if cells["item"] != "" && cells["kind"] != "service" {
		words = append(words, cells["item"])
	}
	if cells["kind"] == "service" {
		words = append(words, cells["item"])
	}
	for _, c := range []string{"count", "size", "price", "discount", "tax", "on", "note"} {
		if cells[c] != "" {
			words = append(words, c+"="+cells[c])
		}
	}
	return strings.Join(words, " ")
}

func TestReadRefuses(t *testing.T) {
	x := NewItemNames(larder(t))
	for text, why := range map[string]string{
		"":                                "it does not say of what",
		"strawberries 1,990":              `the price "1,990" is not a number`,
		"soap 1,990":                      `the price "1,990" is not a number`,
		"3 x oat milk 2 for 5.00":         "3 are not whole groups of 2: say what one costs alone",
		"oat milk 1.99 on offer regular":  "on offer and regular",
		"2 x 1 kg strawberries 2.00/kg":   "leave the count out",
		"strawberries 2.00/kg":            "needs the amount bought",
		"1 L strawberries 2.00/kg":        "1 L is not sold by the kg",
		"-3 x jar-1l in all 4.65":         "cannot be shared among -3",
		"coupon 10%":                      "write the amount that came off",
		"coupon":                          "it has no amount",
		"coupon book of meals":            "is not a number such as 2.00",
		"deposit 8 y 0.10":                "is not a number such as 2.00",
		"total 2 on 1":                    "a total is for no line",
		"discount 2 on":                   "after on stand the lines",
		strings.Repeat("very ", 70) + "1": "too long",
	} {
		if l, _, err := x.Read(text); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%q: %+v, %v, want %s", text, l, err, why)
		}
	}
}

// A line that is read prints what reads as the same line, whatever is known by
// name.
func FuzzRead(f *testing.F) {
	x := NewItemNames(larder(f))
	for _, text := range []string{"2 lb strawberries 5.98", "3 x 454 g strawberries 3.99 buy 2 get 1 free", "milk 2 for 5.00", "12 eggs at 0.29", "6 1 L jars 2",
		"x offer 2 offer 3 for 5", "coupon strawberries 1.00", "bottle return 8 x 1", "soap 2 in all", "a 3 for 2 2 limit 3 regular", "2 x y EUR 5.00 in all", "2 milk 2 5.00"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, _, err := x.Read(text)
		if err != nil {
			return
		}
		again, err := x.ParseLine(l.Kind, l.String())
		if err != nil || again != l {
			t.Errorf("%q is %+v, which prints as %q, which is %+v, %v", text, l, l.String(), again, err)
		}
		if l.Lacks() == nil {
			cells, err := l.Cells(2)
			if err != nil && !strings.Contains(err.Error(), "negative") {
				t.Errorf("%q has no cells: %v", text, err)
			}
			_ = fmt.Sprint(maps.Keys(cells))
		}
	})
}

// grammarWords are what lines are made of.
var grammarWords = strings.Fields(`1 2 3 12 0.5 1.99 5.00 -3 $2 2,50 3x x lb 454g kg 1kg L ea dozen of at @ for in all each ea apiece /kg 2/kg 1.5/ea per a
	less tax limit offer on sale regular reduced note buy get free off 20% 50% half price 2nd every save from strawberries oat milk eggs jar jar-1l lids soap
	shed other food supply service coupon deposit bottle return total CAD y`)

// Any words: what is read prints what reads as the same line.
func TestReadLaw(t *testing.T) {
	x := NewItemNames(larder(t))
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(grammarWords), 1, 10).Draw(t, "words"), " ")
		l, _, err := x.Read(text)
		if err != nil {
			return
		}
		read++
		again, err := x.ParseLine(l.Kind, l.String())
		if err != nil || again != l {
			t.Fatalf("%q is %+v, which prints as %q, which is %+v, %v", text, l, l.String(), again, err)
		}
	})
	if read == 0 {
		t.Error("nothing could be read")
	}
}
