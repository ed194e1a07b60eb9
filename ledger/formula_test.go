package ledger

import (
	"testing"

	"pgregory.net/rapid"
)

func TestGuarded(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "leeks": "leeks", "2 lb": "2 lb", "-0.50": "-0.50", "-5": "-5", "'n Topf": "'n Topf", "'": "'",
		"=1+2": "'=1+2", "+49 30": "'+49 30", "@home": "'@home", "-1 kg": "'-1 kg", "＝A1": "'＝A1", "-": "'-",
		"'=1": "''=1", "''-5": "'''-5", "'-5": "''-5", "é=": "é=", "\tx": "'\tx",
	} {
		got := EscapeFormula(text)
		if got != want {
			t.Errorf("%q is kept as %q, want %q", text, got, want)
		}
		if back := UnescapeFormula(got); back != text {
			t.Errorf("%q comes back as %q", text, back)
		}
	}
}

// Whatever is kept comes back, and nothing but a number begins as a formula
// does.
func TestGuardedComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`'{0,3}[=+@＝-]?[0-9a.]{0,4}`)).Draw(t, "text")
		kept := EscapeFormula(text)
		if back := UnescapeFormula(kept); back != text {
			t.Fatalf("%q is kept as %q and comes back as %q", text, kept, back)
		}
		if kept != text && kept[0] != '\'' {
			t.Fatalf("%q is kept as %q", text, kept)
		}
	})
}
