package ledger_test

import (
	"testing"

	"putby/ledger"
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
