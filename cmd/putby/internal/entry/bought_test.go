package entry

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// household is a base with a shelf: oat milk at 2.79 a litre at Brine, 2.49 at
// Marrow, strawberries at 4.49 for 454 g at Brine.
func household(t testing.TB) (*Base, []intake.Name) {
	t.Helper()
	rec, names := larder(t)
	for _, cells := range []map[string]string{
		{"date": "2025-03-01", "shop": "Brine", "item": "oat-milk", "size": "1 L", "price": "2.79"},
		{"date": "2025-03-01", "shop": "Marrow", "item": "oat-milk", "size": "1 L", "price": "2.49"},
		{"date": "2025-03-01", "shop": "Brine", "item": "strawberries", "size": "454 g", "price": "4.49"},
		{"date": "2025-06-01", "shop": "Marrow", "item": "oat-milk", "size": "1 L", "price": "0.99"}, // still to come
	} {
		rec = with(t, rec, "price", cells)
	}
	rec.Settings.Zone = time.UTC
	return NewBase(rec, At(rec, time.Date(2025, 3, 9, 12, 0, 0, 0, time.UTC))), names
}

// Which lines tell of a shelf price, by hand.
func TestSeen(t *testing.T) {
	b, names := household(t)
	for _, test := range []struct{ lines, want string }{
		{"oat milk 1 L 2.49", "oat-milk 1 L 2.49"},                // seen anew on that day
		{"oat milk 1 L 2.59", "oat-milk 1 L 2.59"},                // dearer
		{"2 oat milk 5.18", "oat-milk 1 L 2.59"},                  // of which one cost 2.59
		{"oat milk 1 L 2.39", ""},                                 // under Marrow's own 2.49
		{"oat milk 1 L 2.39 regular", "oat-milk 1 L 2.39"},        // which is meant
		{"oat milk 2 L 4.90", ""},                                 // 2.45 a litre
		{"strawberries 1 kg 9.00", ""},                            // under Brine's 9.89 a kg, of which alone is known
		{"strawberries 1 kg 9.95", "strawberries 1 kg 9.95"},      //
		{"12 eggs 3.49", "eggs 12 ea 3.49"},                       // of which nothing is known
		{"eggs 12 ea 3.49|coupon eggs 1.00", ""},                  // something came off
		{"eggs 12 ea 3.49|coupon 1.00", "eggs 12 ea 3.49"},        // off the whole receipt
		{"eggs 12 ea 3.49 less 0.10", ""},                         //
		{"eggs 12 ea 3.49 20% off", ""},                           //
		{"eggs 12 ea 3.49 on offer", ""},                          //
		{"eggs 12 ea 0", ""},                                      // a gift
		{"3 oat milk 10.00", ""},                                  // nobody knows what one cost
		{"3.5 kg strawberries 9.99/kg", "strawberries 1 kg 9.99"}, // by weight
		{"6 x 1 L jar 2.10|soap 1.99", ""},                        // foods alone
		{"eggs 12 ea 3.49|eggs 12 ea 3.49", "eggs 12 ea 3.49"},    // once
		{"eggs 12 ea 3.49 tax 0.20", "eggs 12 ea 3.49"},           // without the tax on top
	} {
		in := ReceiptIn{Shop: "marrow", Names: names}
		for _, text := range strings.Split(test.lines, "|") {
			in.Lines = append(in.Lines, TypedLine{Text: text})
		}
		d, err := AddReceipt(b, in)
		if err != nil {
			t.Errorf("%q: %v", test.lines, err)
			continue
		}
		var got []string
		for _, row := range d.Rows {
			if row.Kind.Name == "price" {
				got = append(got, strings.Join([]string{row.Cells["item"], row.Cells["size"], row.Cells["price"]}, " "))
				if row.Cells["shop"] != "Marrow" || row.Cells["date"] != "2025-03-09" || row.Cells["terms"] != "regular" {
					t.Errorf("%q: %v", test.lines, row.Cells)
				}
			}
		}
		if strings.Join(got, ", ") != test.want {
			t.Errorf("%q tells of %q, want %q", test.lines, got, test.want)
		}
		if in.NoShelf = true; err == nil {
			if d, err = AddReceipt(b, in); err != nil || len(d.Rows) != len(in.Lines) {
				t.Errorf("%q without: %v, %v", test.lines, d, err)
			}
		}
	}
}

// What is not known is named once, and known once it was said.
func TestUnknownItems(t *testing.T) {
	b, names := household(t)
	in := ReceiptIn{Shop: "Marrow", Names: names, Lines: []TypedLine{{Text: "butter 250 g 2.89"}, {Text: "soap 1.99"}, {Text: "butter 2"}, {Text: "fragole 3.99 500 g"}, {Kind: "food", Text: "leeks 1 kg 2"}}}
	if got := fmt.Sprint(UnknownItems(b, in)); got != "[butter fragole]" {
		t.Error(got)
	}
	in.Lines = in.Lines[:4]
	for _, a := range []Answer{{Name: "butter", Kind: "food", As: "mass"}, {Name: "fragole", Item: "strawberries"}, {Name: "pens", Kind: "other"}} {
		in.AddAnswer(a)
	}
	if got := fmt.Sprint(in.New); got != "[{ fragole  strawberries } { pens other  }]" {
		t.Error(got)
	}
	in.Lines[2].Text = "butter 250 g 2"
	d, err := AddReceipt(b, in)
	if err != nil {
		t.Fatal(err)
	}
	if d.Rows[0].Kind.Name != "food" || d.Rows[4].Cells["item"] != "strawberries" || len(d.Names) != 2 {
		t.Errorf("%+v", d)
	}
}

// Of a receipt whose one line was read as of each and not of all, or the other way
// round, the likely line says so, and as it is said it adds up.
func TestLikely(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "count")
		price := exact.New(rapid.Int64Range(1, 999).Draw(t, "price"), 2)
		word := rapid.SampledFrom([]string{"at", "in all"}).Draw(t, "word")
		other := map[string]string{"at": "in all", "in all": "at"}[word]
		r := &Receipt{ID: "r", Date: "2025-03-04", Shop: "s", Currency: exact.MustCurrency("EUR")}
		add(t, r, ledger.OtherLine, "tea at 2.35")
		add(t, r, ledger.OtherLine, fmt.Sprintf("%d x soap %s %v", n, other, price))
		right, err := r.Sum()
		if err != nil {
			t.Fatal(err)
		}
		r.Lines = r.Lines[:1]
		add(t, r, ledger.OtherLine, fmt.Sprintf("%d x soap %s %v", n, word, price))
		add(t, r, ledger.TotalLine, right.Total.Fixed(2))
		var off *ledger.Fault
		if err := r.Adds(); !errors.As(err, &off) || off.Kind != ErrTotal {
			t.Fatalf("%v", err)
		}
		if !strings.Contains(off.Hint, fmt.Sprintf("as in %q", r.Lines[1].otherWay())) {
			t.Fatalf("%v: %q", off, off.Hint)
		}
	})
}

func (l Line) otherWay() string {
	l.Whole = !l.Whole
	return l.String()
}

// A line of a kind that is given names a thing of that kind, by its name or identifier; of a
// thing that is known nothing is noted, and what is called by nothing is refused.
func TestReceiptOfGivenKinds(t *testing.T) {
	b, names := household(t)
	d, err := AddReceipt(b, ReceiptIn{Shop: "Brine", Names: names, NoShelf: true, Lines: []TypedLine{{Kind: "food", Text: "1 kg Strawberries 9.00"}, {Kind: "supply", Text: "6 lids 2.10"}}})
	if err != nil || len(d.Notes) != 0 || d.Rows[0].Cells["item"] != "strawberries" || d.Rows[0].Cells["kind"] != "food" {
		t.Errorf("%v (%v)", d.Notes, err)
	}
	_, err = AddReceipt(b, ReceiptIn{Shop: "Brine", Names: names, Lines: []TypedLine{{Kind: "food", Text: "1 kg marzipan 9.00"}}})
	if !errors.Is(err, ErrItem) {
		t.Errorf("a food that there is none of: %v", err)
	}
}

// The rows of a change are those at the end of their files: a receipt with all its lines.
func TestWrittenNamesAllRows(t *testing.T) {
	rows := receiptOf("x1", "2025-11-15", "Brine", "food|apples|1|1 kg|2.00|", "food|onions|1|1 kg|1.00|")
	b := bench(t, rows...)
	if list := Written(b.Records, rows); len(list) != 1 || list[0].Kind != "receipt" || list[0].More != 1 {
		t.Errorf("%+v, want a receipt of two lines", list)
	}
}
