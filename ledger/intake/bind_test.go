package intake

import (
	"errors"
	"strings"
	"testing"

	"putby/ledger"
)

func TestHeaderIsMissing(t *testing.T) {
	table, err := Read(strings.NewReader("Day,Text,Sum\n2025-02-03,tea,1\n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	_, err = mustMap(t, "b,receipts,date,Tag,,\nb,receipts,item,Text,,\n").Plan(table, PlanOptions{})
	var e *ledger.Fault
	if !errors.As(err, &e) || !errors.Is(err, ErrHeader) || !strings.Contains(e.What, `"Tag"`) || !strings.Contains(e.Hint, `"Day"`) || e.Line != 1 {
		t.Errorf("%v", err)
	}
	if _, err := Propose(table, Prices, "b", nil); !errors.Is(err, ErrHeader) || !strings.Contains(err.Error(), "shop") {
		t.Errorf("%v", err)
	}
}

// TestHeadersAlikeButForMarks: the one spelled alike is meant.
func TestHeadersAlikeButForMarks(t *testing.T) {
	header := []string{"Total (%)", "Total ($)", "Note", " note! "}
	for name, want := range map[string]int{"Total ($)": 1, "Total (%)": 0, "total $": -1, "NOTE": -1, "Note": 2, "note!": 3, "x": -1, "": -1} {
		if got := findColumn(header, name); got != want {
			t.Errorf("%q is column %d, want %d", name, got, want)
		}
	}
}
