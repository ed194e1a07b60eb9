package ledger_test

import (
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A thing is found by what people call it, and never one of two at random.
func TestMeant(t *testing.T) {
	list := []ledger.Named{{"squash-puree", "Squash purée"}, {"eggs", "Eggs in the shell"}, {"Egg", ""}, {"jar-1l", "1 L jar"},
		{"plums-a", "Plums"}, {"plums-b", "plums"}, {"same", "Same"}, {"tea", "Eggs"}}
	for text, want := range map[string]string{
		"squash-puree": "squash-puree", "SQUASH PUREE": "squash-puree", "squash purée": "squash-puree", "Squash_Puree": "squash-puree",
		"eggs in the shell": "eggs", "egg": "Egg", "eggs": "eggs", "1 l Jar": "jar-1l", "same": "same", "SAME": "same",
		"plums": "", "Eggs": "", "squash": "", "": "", "--": "",
	} {
		id, ok := ledger.Meant(text, list)
		if ok != (want != "") || ok && id != want || !ok && id != text {
			t.Errorf("%q: %q, %v, want %q", text, id, ok, want)
		}
	}
}

// Spellings of a name compare equal, and words do not run together.
func TestFold(t *testing.T) {
	for text, want := range map[string]string{
		"Squash  Purée": "squash puree", "squash_puree": "squash puree", " squash-puree, ": "squash puree", "1 L jar": "1 l jar", "1Ljar": "1ljar",
		"Grieß": "griess", "oat milk": "oat milk", "oatmilk": "oatmilk", "--": "", "": "",
	} {
		if have := ledger.Fold(text); have != want {
			t.Errorf("%q is folded to %q, want %q", text, have, want)
		}
	}
}

// Litres of what is weighed want a density, and the fault says where; pieces are written as a number.
func TestAmountOfAnotherKindSaysWhatToAdd(t *testing.T) {
	for _, c := range []struct{ basis, quantity, hint string }{
		{"mass", "2 L", "add its density (kg per litre) to foods.csv, or write the amount in a unit of mass"},
		{"mass", "2 ea", "write the amount in a unit of mass"},
		{"count", "2 kg", "write a number of pieces, such as 6"},
	} {
		rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC}}
		for _, r := range []struct {
			kind  string
			cells map[string]string
		}{
			{"food", map[string]string{"food": "leeks", "basis": c.basis}},
			{"pack", map[string]string{"pack": "p", "item": "leeks", "date": "2025-01-01", "count": "1", "each": c.quantity, "cost": "1"}},
		} {
			var faults ledger.Faults
			if rec, faults = rec.With(ledger.MustKind(r.kind), r.cells); faults != nil {
				t.Fatal(faults)
			}
		}
		_, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
		if len(faults) != 1 || faults[0].Hint != c.hint {
			t.Errorf("%s of what is counted by %s: %+v, want the hint %q", c.quantity, c.basis, faults, c.hint)
		}
	}
}
