package entry

import (
	"maps"
	"strings"
	"testing"

	"putby/ledger"
)

func TestParseLoad(t *testing.T) {
	for text, want := range map[string]map[string]string{
		"5.5 kg apples": {"run": "c1", "item": "apples", "quantity": "5.5 kg"},
		"30 eggs":       {"run": "c1", "item": "eggs", "quantity": "30"},
		"6.2L broth from r12:3 trays 5 wet 6.3 kg dry 509 g lost 0.2 L": {"run": "c1", "item": "broth", "quantity": "6.2L",
			"receipt": "r12", "line": "3", "trays": "5", "wet": "6.3 kg", "dry": "509 g", "lost": "0.2 L"},
		"6 L broth from stock-12": {"run": "c1", "item": "broth", "quantity": "6 L", "receipt": "stock-12", "line": ""},
	} {
		if row, err := ParseLoad(&ledger.Records{}, "c1", text); err != nil || !maps.Equal(row.Cells, want) {
			t.Errorf("%q: %v, %v", text, row.Cells, err)
		}
	}
	for text, why := range map[string]string{
		"": "write an amount and a food", "apples": "write an amount and a food", "5 kg": "write an amount and a food",
		"5 kg apples wet": "an amount must stand after wet", "5 kg apples trays": "nothing stands after trays", "5 kg red apples": `"apples" is not from, trays`,
	} {
		if row, err := ParseLoad(&ledger.Records{}, "c1", text); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%q: %v, %v", text, row.Cells, err)
		}
	}
}

func TestParsePhase(t *testing.T) {
	for text, want := range map[string]map[string]string{
		"primary 22h30m":                {"run": "c1", "step": "2", "phase": "primary", "duration": "22h30m"},
		"primary 22h30m 640 W":          {"run": "c1", "step": "2", "phase": "primary", "duration": "22h30m", "watts": "640"},
		"primary 22:30 0.64kW 14.4 kWh": {"run": "c1", "step": "2", "phase": "primary", "duration": "22:30", "watts": "640", "kwh": "14.4"},
		"primary 22 hours 30 min 640 W": {"run": "c1", "step": "2", "phase": "primary", "duration": "22h30m", "watts": "640"},
		"freezing 8 h 450 W":            {"run": "c1", "step": "2", "phase": "freezing", "duration": "8h", "watts": "450"},
		"hold 40m 900 Wh":               {"run": "c1", "step": "2", "phase": "hold", "duration": "40m", "kwh": "0.9"},
	} {
		if row, err := ParsePhase(new(ledger.Records), "c1", 2, text); err != nil || !maps.Equal(row.Cells, want) {
			t.Errorf("%q: %v, %v", text, row.Cells, err)
		}
	}
	for _, text := range []string{"", "primary", "primary 8h 640", "primary 8h 640 V", "primary 8h 2 kg", "primary 8h watts"} {
		if row, err := ParsePhase(new(ledger.Records), "c1", 2, text); err == nil {
			t.Errorf("%q: %v", text, row.Cells)
		}
	}
}

// Whatever is typed is read or refused, and what is read keeps to the columns.
func FuzzLoadAndPhase(f *testing.F) {
	for _, text := range []string{"5.5 kg apples wet 1 kg", "primary 22h30m 640 W", "30 eggs from a:b:c", "from from from"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		load, loadErr := ParseLoad(&ledger.Records{}, "c1", text)
		phase, phaseErr := ParsePhase(new(ledger.Records), "c1", 1, text)
		for _, got := range []struct {
			row Row
			err error
		}{{load, loadErr}, {phase, phaseErr}} {
			if got.err != nil {
				continue
			}
			columns := map[string]bool{}
			for _, c := range got.row.Kind.Columns {
				columns[c.Name] = true
			}
			for column := range got.row.Cells {
				if !columns[column] {
					t.Errorf("%q fills %q", text, column)
				}
			}
		}
	})
}
