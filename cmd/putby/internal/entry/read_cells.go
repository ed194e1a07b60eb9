package entry

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
)

// ParseCells reads COLUMN=VALUE, as a command takes them.
func ParseCells(k ledger.Kind, args []string) (map[string]string, error) {
	cells := map[string]string{}
	for _, arg := range args {
		column, value, found := strings.Cut(arg, "=")
		if !found || !k.Has(column) {
			return nil, &ledger.Fault{Kind: ErrTyped, What: fmt.Sprintf("%q is not COLUMN=VALUE with a column of %s", arg, k.File), Hint: ColumnHint(k, column)}
		}
		cells[column] = value
	}
	return cells, nil
}

// ColumnHint says which column was probably meant, or which there are.
func ColumnHint(k ledger.Kind, column string) string {
	if near := ledger.Nearest(column, k.Header()); near != "" {
		return near + "=VALUE"
	}
	return "its columns are " + strings.Join(k.Header(), " ")
}

// typedCells reads cells of a record as a person types them.
func (m Moment) typedCells(rec *ledger.Records, k ledger.Kind, cells map[string]string) map[string]string {
	read := map[string]string{}
	for name, text := range cells {
		read[name] = m.Typed(rec, k.Column(name), text)
	}
	return read
}

// ReadCells is typedCells for cells that nobody was asked about yet: it refuses
// those that can be read in two ways.
func (m Moment) ReadCells(rec *ledger.Records, k ledger.Kind, cells map[string]string) (map[string]string, error) {
	for _, name := range slices.Sorted(maps.Keys(cells)) {
		if err := AskedOf(rec, k.Column(name), cells[name]); err != nil {
			return nil, typed("", name+": "+err.Error())
		}
	}
	return m.typedCells(rec, k, cells), nil
}

// AskedOf is [TwoWays] for a cell of a column, which may hold words alone.
func AskedOf(rec *ledger.Records, c *ledger.Column, text string) error {
	if !Figures(c) {
		return nil
	}
	return TwoWays(rec.Settings.Locale, text)
}

// SettingColumn is what a setting holds, if there is one of that name.
func SettingColumn(name string) (*ledger.Column, bool) {
	columns := ledger.SettingColumns()
	at := slices.IndexFunc(columns, func(c ledger.Column) bool { return c.Name == name })
	if at < 0 {
		return nil, false
	}
	return &columns[at], true
}

// ReadSetting reads the value of a setting as a person types it, and refuses one
// that can be read in two ways.
func (m Moment) ReadSetting(rec *ledger.Records, name, value string) (string, error) {
	c, known := SettingColumn(name)
	if !known {
		return value, nil
	}
	if c.Cell == ledger.ListCell { // numbers, one or twelve
		return Native(rec.Settings.Locale, value), TwoWays(rec.Settings.Locale, value)
	}
	return m.Typed(rec, c, value), AskedOf(rec, c, value)
}
