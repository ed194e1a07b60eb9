package entry

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
)

func TestParseRef(t *testing.T) {
	for _, test := range []struct{ args, want string }{
		{"receipt|last|shop=Marrow", "receipt [last] [shop=Marrow]"},
		{"the last receipt|shop=Marrow", "receipt [last] [shop=Marrow]"},
		{"the|last|receipt", "receipt [last] []"},
		{"last|draw|yogurt", "draw [yogurt last] []"},
		{"food|chicken broth|keep_months=18", "food [chicken broth] [keep_months=18]"},
		{"pack|c01-a|place=cellar, left = shelf", "pack [c01-a] [place=cellar, left = shelf]"},
		{"", " [] []"},
	} {
		kind, words, sets := splitRecordRef(strings.Split(test.args, "|"))
		if got := fmt.Sprintf("%s %v %v", kind, words, sets); got != test.want {
			t.Errorf("%q is %q, want %q", test.args, got, test.want)
		}
	}
}

// Of these draws, by hand: which lines each wording tells.
func TestPick(t *testing.T) {
	rec, _ := larder(t)
	rec = with(t, rec, "pack", map[string]string{"pack": "c7-a", "item": "strawberries", "date": "2025-01-01", "count": "9", "each": "1 kg"})
	rec = with(t, rec, "pack", map[string]string{"pack": "c8-a", "item": "oat-milk", "date": "2025-01-01", "count": "9", "each": "1 L"})
	draws := []Record{
		{2, 0, map[string]string{"date": "2025-03-01", "pack": "c7-a", "reason": "used"}},
		{3, 1, map[string]string{"date": "2025-03-05", "pack": "c8-a", "reason": "given"}},
		{4, 2, map[string]string{"date": "2025-03-03", "pack": "c7-a", "reason": "given"}},
		{5, 3, map[string]string{"date": "2025-03-04", "item": "eggs", "reason": "used", "note": "cake"}},
	}
	packs := []Record{{2, 0, map[string]string{"pack": "c7-a"}}, {3, 1, map[string]string{"pack": "c7"}}, {4, 2, map[string]string{"pack": "d07"}}}
	for _, test := range []struct {
		kind  string
		list  []Record
		words string
		want  string
	}{
		{"draw", draws, "last", "[3]"},               // the last day, not the last line
		{"draw", draws, "strawberries", "[2 4]"},     // by the pack's food
		{"draw", draws, "Oat MILK", "[3]"},           // by its name
		{"draw", draws, "strawberries given", "[4]"}, // each word narrows
		{"draw", draws, "strawberries|last", "[4]"},  //
		{"draw", draws, "2025-03-01", "[2]"},         //
		{"draw", draws, "cake", "[5]"},               // a note
		{"draw", draws, "egg", "[5]"},                // in the singular
		{"draw", draws, "butter", "[]"},              //
		{"draw", draws, "strawberries butter", "[]"}, // not a part of what was said
		{"draw", draws, "2025-03-01|butter", "[]"},   //
		{"pack", packs, "c7", "[3]"},                 // an identifier before all else
		{"pack", packs, "C7-A", "[2]"},               //
		{"pack", packs, "7", "[3 4]"},                // the number in it
		{"pack", packs, "07", "[3 4]"},               //
		{"pack", packs, "8", "[]"},                   //
	} {
		lines := []int{}
		left, saved := FindRecords(rec, Moment{}, ledger.MustKind(test.kind), test.list, strings.Split(test.words, "|"), nil)
		if saved != nil {
			t.Errorf("%s %q: %v was saved last", test.kind, test.words, saved)
		}
		for _, r := range left {
			lines = append(lines, r.Line)
		}
		if got := fmt.Sprint(lines); got != test.want {
			t.Errorf("%s %q: %s, want %s", test.kind, test.words, got, test.want)
		}
	}
}

// Several are listed, the last first, each by the shortest name that tells it.
func TestAmbiguous(t *testing.T) {
	line := func(file int, receipt, part string) Record {
		return Record{file, file - 2, map[string]string{"receipt": receipt, "line": part}}
	}
	say := func(r Record) string { return r.Cells["receipt"] + "/" + r.Cells["line"] }
	ref := &RecordRef{Kind: ledger.MustKind("receipt")}
	e := ref.ambiguous([]Record{line(2, "a", "1"), line(3, "a", "2"), line(4, "a", "")}, say)
	if got := fmt.Sprint(e.Choices); got != "[{a/ @4} {a/2 a:2} {a/1 a:1}]" || !strings.HasPrefix(e.Error(), "3 lines of it") {
		t.Error(got, e)
	}
	e = ref.ambiguous([]Record{line(2, "a", "1"), line(3, "b", "1"), line(4, "b", "2")}, say)
	if got := fmt.Sprint(e.Choices); got != "[{b/1 b} {a/1 a}]" || !strings.HasPrefix(e.Error(), "2 receipts") {
		t.Error(got, e)
	}
}
