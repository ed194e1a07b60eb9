package entry

import (
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
	"putby/testdata"
)

// sample reads the sample ledger.
func sample(t *testing.T) *ledger.Records {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "l")
	files := map[string][]byte{}
	err := fs.WalkDir(testdata.Ledgers, "sample", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files[strings.TrimPrefix(name, "sample/")], err = fs.ReadFile(testdata.Ledgers, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.Create(t.Context(), dir, "sample", files); err != nil {
		t.Fatal(err)
	}
	rec, faults, err := folder.Read(dir)
	if err != nil || len(faults) > 0 {
		t.Fatal(faults, err)
	}
	return rec
}

var evening = time.Date(2025, 11, 20, 23, 30, 0, 0, time.UTC) // 19:30 in Halifax

func TestSuggest(t *testing.T) {
	rec := sample(t)
	rec.Settings.AsOf = exact.Opt[exact.Date]{} // as if it were a household's own
	at := At(rec, evening)
	for _, test := range []struct {
		kind  string
		cells map[string]string
		want  map[string]string
		why   string
	}{
		{"price", map[string]string{"item": "carrots", "shop": "Muddleby Foods"},
			map[string]string{"size": "5 kg", "price": "5.99", "date": "2025-11-20"}, "as Muddleby Foods on 2025-11-12"},
		{"price", map[string]string{"item": "carrots", "shop": "New shop"}, map[string]string{"size": "5 kg"}, "as Muddleby Foods on 2025-11-12"},
		{"run", nil, map[string]string{"run": "c48", "machine": "rimewell", "start": "2025-11-20 19:30"}, ""},
		{"batch", map[string]string{"item": "chicken-broth"},
			map[string]string{"batch": "stock-13", "quantity": "6.5 L", "from": "10 lb chicken-backs, 0.5 kg onions", "cost": "1.00"}, "as batch stock-12"},
		{"pack", nil, map[string]string{"run": "c47", "item": "chicken-broth", "each": "1 L", "count": "6", "dry": "82 g", "place": "cellar", "pack": "c47-a"}, "as pack c44-a"},
		{"pack", map[string]string{"run": "c46", "item": "apples"}, map[string]string{"each": "500 g", "dry": "74 g", "pack": "c46-c"}, "as pack c46-b"},
		{"pack", map[string]string{"run": ""}, map[string]string{"pack": "old-3", "each": ""}, ""},
		{"pack", map[string]string{"item": "chicken-broth", "cost": "3.00"}, map[string]string{"run": "", "pack": "old-3"}, "as pack c44-a"},
		{"pack", map[string]string{"item": "carrots"}, map[string]string{"run": "", "pack": "old-3"}, "as pack c19-a"},
		{"phase", nil, map[string]string{"run": "c47", "step": "5"}, ""},
		{"draw", map[string]string{"pack": "c46-a"}, map[string]string{"quantity": "1", "reason": "used"}, ""},
		{"draw", map[string]string{"item": "onions"}, map[string]string{"quantity": ""}, ""},
		{"tariff", nil, map[string]string{"tariff": "harbour", "date": ""}, ""},
		{"holiday", nil, map[string]string{"tariff": "harbour", "date": ""}, ""},
		{"wattage", nil, map[string]string{"machine": "rimewell"}, ""},
	} {
		k, _ := ledger.KindOf(test.kind)
		got, why := NewBase(rec, at).Suggest(k, test.cells)
		for column, want := range test.want {
			if got[column] != want {
				t.Errorf("%s %v: %s %q, want %q", test.kind, test.cells, column, got[column], want)
			}
		}
		if why != test.why {
			t.Errorf("%s %v: %q, want %q", test.kind, test.cells, why, test.why)
		}
	}
}

// Whatever is offered for the cells of a new record can be read as such.
func TestOffersCanBeRead(t *testing.T) {
	rec := sample(t)
	for _, k := range ledger.Kinds() {
		for _, item := range ledger.Foods.In(rec) {
			offers, _ := NewBase(rec, At(rec, evening)).Suggest(k, map[string]string{"item": item})
			for column, text := range offers {
				if !k.Has(column) {
					continue // the date of a kind that has none
				}
				if f := k.CellFault(rec.Settings.Zone, column, text); f != nil && text != "" {
					t.Errorf("%s of %s: %v", k.Name, item, f)
				}
				if near, unknown := Unknown(rec, k.Column(column), text); unknown {
					t.Errorf("%s of %s offers an unknown %s %q, near %q", k.Name, item, column, text, near)
				}
			}
		}
	}
}

func TestLastBought(t *testing.T) {
	rec := sample(t)
	for _, test := range []struct{ shop, item, size, price, why string }{
		{"Muddleby Foods", "carrots", "2 kg", "3.29", "as Muddleby Foods on 2025-07-10"},
		{"Ossock Hill Farm", "squash", "1 kg", "1.20", "as Ossock Hill Farm on 2025-11-01"},
		{"Corner shop", "squash", "1 kg", "1.20", "as Ossock Hill Farm on 2025-11-01"},       // another's
		{"Muddleby Foods", "leek-soup", "650 mL", "6.29", "as Muddleby Foods on 2025-11-12"}, // from the shelf
		{"Muddleby Foods", "plums", "", "", ""},
	} {
		size, price, why := LastBought(rec, test.shop, test.item)
		if size != test.size || price != test.price || why != test.why {
			t.Errorf("%s at %s: %s at %s, %s", test.item, test.shop, size, price, why)
		}
	}
}

func TestUsualLoad(t *testing.T) {
	rec := sample(t)
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	now := exact.MustDate("2025-11-16").Midnight(g.Settings.Zone)
	if got := UsualLoad(g, "rimewell", now); got != "1.4 kg apples" {
		t.Errorf("in hand to be dried: %s", got)
	}
	if got := UsualLoad(g, "other", now); got != "1.4 kg apples" {
		t.Errorf("for a machine that nobody knows: %s", got)
	}
	batches := ledger.MustKind("batch")
	rec, _ = rec.With(batches, map[string]string{"batch": "stock-13", "date": "2025-11-16", "item": "chicken-broth", "quantity": "9 L", "from": "0.1 kg onions"})
	if g, faults = ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate}); faults != nil {
		t.Fatal(faults)
	}
	if got := UsualLoad(g, "rimewell", now); got != "7 L chicken-broth" { // of 9 L, which is more than it takes
		t.Errorf("in hand to be dried: %s", got)
	}
}

// Strawberries bought on the 16th turn on the 19th, and lemons behind them in the records on 7
// December: the strawberries go in first, as the day's screen says, though the lemons came last. On the
// 25th the strawberries have turned.
func TestUsualLoadIsWhatTurnsFirst(t *testing.T) {
	rec, receipts := sample(t), ledger.MustKind("receipt")
	rec, _ = rec.With(receipts, map[string]string{"receipt": "a", "date": "2025-11-16", "line": "1", "kind": "food", "item": "strawberries", "count": "1", "size": "2 kg", "price": "9.00"})
	rec, _ = rec.With(receipts, map[string]string{"receipt": "b", "date": "2025-11-16", "line": "1", "kind": "food", "item": "lemons", "count": "12", "size": "1 ea", "price": "0.50"})
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	for day, want := range map[string]string{"2025-11-16": "1.88 kg strawberries", "2025-11-25": "12 ea lemons"} {
		if got := UsualLoad(g, "rimewell", exact.MustDate(day).Midnight(g.Settings.Zone)); got != want {
			t.Errorf("on %s: %s, want %s", day, got, want)
		}
	}
}

func TestUsualPhases(t *testing.T) {
	rec := sample(t)
	last := UsualPhases(rec, "rimewell", nil)
	if len(last) != 4 || last[0] != "freezing 6h30m" || last[2] != "primary 24h10m" {
		t.Errorf("of the last run: %v", last)
	}
	if apples := UsualPhases(rec, "rimewell", []string{"apples"}); len(apples) != 4 || apples[0] != "freezing 6h20m" {
		t.Errorf("of the last run with apples: %v", apples)
	}
	if none := UsualPhases(rec, "other", nil); none != nil {
		t.Errorf("of a machine without runs: %v", none)
	}
}

// The words that a column names are those that its cells are read by, and all of
// them.
func TestWordsAreTheLedgers(t *testing.T) {
	for _, k := range ledger.Kinds() {
		for _, c := range k.Columns {
			for _, word := range c.Words {
				if f := k.CellFault(time.UTC, c.Name, word); f != nil {
					t.Errorf("%s: %v", k.Name, f)
				}
			}
			f := k.CellFault(time.UTC, c.Name, "no such word")
			if c.Words != nil && (f == nil || f.Hint != "one of: "+strings.Join(c.Words, ", ")) {
				t.Errorf("%s.%s: the ledger's words differ: %v", k.Name, c.Name, f)
			}
		}
	}
}

func TestNames(t *testing.T) {
	rec := sample(t)
	for _, test := range []struct {
		kind, column, name string
		closed             bool
	}{
		{"pack", "item", "apples", true}, {"pack", "run", "c47", true}, {"draw", "pack", "c46-a", true}, {"draw", "item", "jar-1l", true},
		{"load", "receipt", "stock-12", true}, {"load", "receipt", "mb-251112", true}, {"receipt", "item", "rimewell", false},
		{"receipt", "shop", "Muddleby Foods", false}, {"run", "tariff", "standard", true}, {"tariff", "tariff", "standard", false}, {"run", "machine", "rimewell", true},
	} {
		names, closed := Names(rec, ledger.MustKind(test.kind).Column(test.column))
		if !slices.Contains(names, test.name) || closed != test.closed {
			t.Errorf("%s.%s: %v, %v lacks %s", test.kind, test.column, names, closed, test.name)
		}
	}
	if names, closed := Names(rec, ledger.MustKind("pack").Column("pack")); names != nil || closed {
		t.Errorf("a new pack may have any name, not %v", names)
	}
	if near, unknown := Unknown(rec, ledger.MustKind("pack").Column("item"), "aples"); !unknown || near != "apples" {
		t.Errorf("aples: %q, %v", near, unknown)
	}
	if _, unknown := Unknown(rec, ledger.MustKind("receipt").Column("shop"), "New shop"); unknown {
		t.Error("a shop may be new")
	}
}

func TestDated(t *testing.T) {
	at := Moment{Today: exact.MustDate("2025-03-01")}
	for text, want := range map[string]string{
		"today": "2025-03-01", "Yesterday": "2025-02-28", "yesterday 18:05": "2025-02-28 18:05", "today 8:05": "2025-03-01 08:05",
		"2025-11-20 8:05": "2025-11-20 08:05", "2025-11-20 18:05": "2025-11-20 18:05", "2025-11-20": "2025-11-20", "": "", "soon": "soon",
		"2025-11-20T18:05+01:00": "2025-11-20T18:05+01:00",
	} {
		if got := at.Dated(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
