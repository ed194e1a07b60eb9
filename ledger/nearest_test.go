package ledger

import "testing"

func TestNearest(t *testing.T) {
	names := []string{"strawberries", "carrots", "chicken-broth", "chicken-backs", "c46", "c47", "eggs", "old-1", "jar-1l"}
	for id, want := range map[string]string{
		"strawberies": "strawberries", "carrot": "carrots", "Carrots": "carrots", "chicken-borth": "chicken-broth",
		"egs": "eggs", "c74": "c47", "broth": "chicken-broth", "jar-l1": "jar-1l", "chicken": "chicken-backs", "old1": "old-1",
		"plums": "", "": "", "x": "", "zz": "",
	} {
		if got := Nearest(id, names); got != want {
			t.Errorf("%q: %q, want %q", id, got, want)
		}
	}
}

// The published examples of the measure: three slips from kitten to sitting
// (Levenshtein's own pair, common in textbooks), and one swap.
func TestSlips(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"ab", "ba", 1}, {"", "abc", 3}, {"same", "same", 0}, {"ca", "abc", 3}} {
		if got := slips(test.a, test.b, 10); got != test.want {
			t.Errorf("%s, %s: %d, want %d", test.a, test.b, got, test.want)
		}
		if got := slips(test.b, test.a, 10); got != test.want {
			t.Errorf("%s, %s: %d, want %d", test.b, test.a, got, test.want)
		}
	}
}
