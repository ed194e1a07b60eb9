package entry

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// What was typed without quotes is joined where it belongs together.
func TestThings(t *testing.T) {
	for _, test := range []struct{ words, want string }{
		{"yogurt", "yogurt"},
		{"2 rice", "2 rice"},
		{"0.5 kg onions chives", "0.5 kg onions|chives"},
		{"500g onions", "500g onions"},
		{"pack c46-a 2 pack c46-b", "pack c46-a|2 pack c46-b"},
		{"2 x rice 3 peas", "2 x rice|3 peas"},
		{"2", "2"},
		{"rice 2", "rice|2"},
	} {
		if have := strings.Join(Things(strings.Fields(test.words)), "|"); have != test.want {
			t.Errorf("%s: %s, want %s", test.words, have, test.want)
		}
	}
	if have := Things([]string{"2 rice", "0,5 kg onions"}); !slices.Equal(have, []string{"2 rice", "0,5 kg onions"}) {
		t.Errorf("quoted: %q", have)
	}
}

// A thing is read by what the ledger calls it, whatever stands before its name.
func TestParseThing(t *testing.T) {
	rec, at := noon(t, "2025-11-20")
	b := NewBase(rec, at)
	for _, test := range []struct{ text, count, amount, name string }{
		{"chicken-broth", "", "", "chicken-broth"},
		{"Chicken  Broth", "", "", "chicken-broth"},
		{"2 x apple slices", "2", "", "apples"},
		{"3 jars of sweetcorn", "3", "", "sweetcorn"},
		{"0,5 kg onions", "", "0.5 kg", "onions"},
		{"500g onions", "", "500 g", "onions"},
		{"1 L jar", "", "", "jar-1l"},
		{"2 1 L jar", "2", "", "jar-1l"},
		{"c46-a", "", "", "c46-a"},
		{"2 of pack C46-A", "2", "", "c46-a"},
	} {
		thing, err := b.parseThing(test.text)
		name := thing.pack
		if thing.food >= 0 {
			name = rec.Foods[thing.food].ID
		} else if thing.supply >= 0 {
			name = rec.Supplies[thing.supply].ID
		}
		amount := ""
		if thing.amount.Given() {
			amount = thing.amount.String()
		}
		if err != nil || thing.count != test.count || amount != test.amount || name != test.name {
			t.Errorf("%s: count %q, amount %q, %q (%v)", test.text, thing.count, amount, name, err)
		}
	}
	var none *ledger.Fault
	if _, err := b.parseThing("2 sweetcron"); !errors.Is(err, ErrNone) || !errors.As(err, &none) || none.Hint != `"2 sweetcorn"` {
		t.Errorf("%v", err)
	}
	for _, wrong := range []string{"", " ", "2 x 1 kg onions"} {
		if _, err := b.parseThing(wrong); !errors.Is(err, ErrTyped) {
			t.Errorf("%q: %v", wrong, err)
		}
	}
}

// Numbers are read as the household writes them, with their marks of thousands.
func TestParseThingByLocale(t *testing.T) {
	for tag, text := range map[string]string{"de-AT": "12.500,5 g onions", "en-CA": "12,500.5 g onions", "de-CH": "12’500.5 g onions"} {
		rec, at := noon(t, "2025-11-20")
		rec.Settings.Locale = locale.Must(tag)
		thing, err := NewBase(rec, at).parseThing(text)
		if err != nil || thing.amount.String() != "12500.5 g" || thing.food < 0 || rec.Foods[thing.food].ID != "onions" {
			t.Errorf("%s %s: %+v (%v)", tag, text, thing, err)
		}
	}
}

// A number counted is in what people are shown; what agrees with the books as they
// are shown is what the books have.
func TestReadCount(t *testing.T) {
	rec, at := noon(t, "2025-11-20")
	rec.Settings.ShowMass = exact.Lb
	list, g, err := ToCount(NewBase(rec, at), "", figures.CountQuery{Fresh: true, Supplies: true})
	if err != nil {
		t.Fatal(err)
	}
	of := func(id string) figures.Countable {
		return list[slices.IndexFunc(list, func(c figures.Countable) bool { return c.ID(g) == id })]
	}
	for _, test := range []struct {
		id, text, found string
		agrees          bool
	}{
		{"onions", "", "", true}, {"onions", "1.984 lb", "", true}, {"onions", "1.984", "", true},
		{"onions", "1", "0.45359237", false}, {"onions", "0,5 kg", "0.5", false}, {"onions", "0.9 kg", "0.9", true}, {"onions", "0", "0", false},
		{"c46-a", "5", "", true}, {"c46-a", "4", "4", false}, {"pump-oil", "0.1", "0.1", false}, {"eggs", "2 doz", "24", true},
	} {
		found, agrees, err := ReadCount(g, of(test.id), test.text)
		if err != nil || agrees != test.agrees || test.found != "" && !found.Equal(exact.MustNumber(test.found)) {
			t.Errorf("%s %q: %v, %v (%v)", test.id, test.text, found, agrees, err)
		}
	}
	for _, wrong := range [][2]string{{"c46-a", "6"}, {"c46-a", "2.5"}, {"c46-a", "-1"}, {"onions", "1 L"}, {"onions", "2"}, {"jar-1l", "x"}, {"pump-oil", "0.161"}} {
		if found, _, err := ReadCount(g, of(wrong[0]), wrong[1]); err == nil {
			t.Errorf("%v is read as %v", wrong, found)
		}
	}
}
