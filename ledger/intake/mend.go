package intake

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// ErrMend is the kind of a [ledger.Fault] of what a person says of a map: its Hint is what
// was probably meant, or what there is.
var ErrMend = errors.New("a map cannot be mended so")

// A Mend is what a person says of a map. What is empty stays as it is.
type Mend struct {
	Columns []string // COLUMN=HEADER that fills a column of the ledger; no header leaves it out
	Values  []string // COLUMN=VALUE that no column of the file has
	Hows    []string // COLUMN=WORDS that [ParseHow] reads
	Dates   string   // as [ParseOrder] reads it
	Decimal string   // as [ParseDecimal] reads it
}

// Mend changes the map as a person says, and reports whether anything was said.
func (m *Map) Mend(said Mend) (mended bool, err error) {
	for _, part := range []struct {
		texts []string
		set   func(f *Fill, text string) error
	}{
		{said.Columns, func(f *Fill, text string) error { f.From = text; return nil }},
		{said.Values, func(f *Fill, text string) error { f.Value = text; return nil }},
		{said.Hows, func(f *Fill, text string) (err error) { f.How, err = ParseHow(text); return err }},
	} {
		for _, text := range part.texts {
			column, value, found := strings.Cut(text, "=")
			if !found || !slices.Contains(m.Target.Columns(), column) {
				return false, &ledger.Fault{Kind: ErrMend, What: fmt.Sprintf("%q does not begin with a column of the ledger and =", text), Hint: m.Target.hint(column)}
			}
			if err := part.set(m.fill(column), value); err != nil {
				return false, err
			}
			mended = true
		}
	}
	// A column that nothing fills is left out.
	m.Fills = slices.DeleteFunc(m.Fills, func(f Fill) bool { return f.From == "" && f.Value == "" })
	if said.Dates != "" {
		mended = true
		if m.Dates, err = ParseOrder(said.Dates); err != nil {
			return false, err
		}
	}
	if said.Decimal != "" {
		mended = true
		m.Decimal, err = ParseDecimal(said.Decimal)
	}
	return mended, err
}

// fill finds the fill of a column, or adds one.
func (m *Map) fill(column string) *Fill {
	if !m.fills(column) {
		m.Fills = append(m.Fills, Fill{Column: column})
	}
	return m.fillOf(column)
}

// hint says which column was probably meant, or which there are.
func (t Target) hint(column string) string {
	if near := ledger.Nearest(column, t.Columns()); near != "" {
		return near + "="
	}
	return "the columns are " + strings.Join(t.Columns(), " ")
}

// ParseName reads TEXT=ITEM or TEXT=ITEM SIZE, what the ledger calls a thing of the files
// that a map is for; the item [Omit] leaves its rows out.
func ParseName(text, mapName string) (Name, error) {
	name, item, found := strings.Cut(text, "=")
	if !found || name == "" || item == "" {
		return Name{}, fmt.Errorf("%q is not TEXT=ITEM", text)
	}
	n := Name{Map: mapName, Name: name}
	if n.Item, n.Size, _ = strings.Cut(item, " "); n.Item == Omit || n.Item == "skip" { // the second from before
		n.Kind, n.Item = Omit, ""
	}
	if _, what, _ := checkName(n); what != "" {
		return Name{}, fmt.Errorf("%s: %s", exact.Quote(text), what)
	}
	return n, nil
}
