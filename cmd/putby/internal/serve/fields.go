package serve

import (
	"cmp"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// fieldsOf makes a field of each column of a kind, but for those left out.
func (f *filling) fieldsOf(k ledger.Kind, prefix string, suggested map[string]string, without ...string) (list []page.Field) {
	for i := range k.Columns {
		if c := &k.Columns[i]; !slices.Contains(without, c.Name) {
			list = append(list, f.field(k, c, prefix+c.Name, suggested[c.Name]))
		}
	}
	return list
}

// field makes the field of a column, in the form of what its cells hold.
func (f *filling) field(k ledger.Kind, c *ledger.Column, name, suggested string) page.Field {
	if _, there := f.columns[name]; !there {
		f.columns[name], f.order = columnOf{k, c}, append(f.order, name)
	}
	return f.fieldOf(c, name, suggested)
}

// fieldOf is a field of what a column holds, which nobody checks before the draft.
func (f *filling) fieldOf(c *ledger.Column, name, suggested string) page.Field {
	field := page.Field{
		Kind: "text", Name: name, Label: c.Label, Help: c.Help,
		Value: f.text(name, entry.CellAsTyped(f.Records, c, suggested)), Need: c.Need, Options: f.optionsOf(c),
	}
	switch c.Cell {
	case ledger.DateCell:
		field.Kind = "date"
	case ledger.MomentCell:
		if day := strings.Replace(field.Value, " ", "T", 1); len(day) <= len("2006-01-02T15:04") { // browsers know no offsets
			field.Kind, field.Value = "datetime", day
		}
	case ledger.NumberCell, ledger.PercentCell, ledger.MoneyCell, ledger.WholeCell:
		field.Kind = "number"
	}
	if !chosen(c) {
		return field
	}
	field.Kind = "select"
	switch {
	case slices.Contains(c.Words, c.Blank): // a blank cell means one of the words: that one is shown as chosen
		field.Value = cmp.Or(field.Value, c.Blank)
	case !c.Need:
		field.Options = slices.Insert(field.Options, 0, page.Option{Label: c.Blank})
	}
	return field
}

// chosen reports whether a column is chosen from few: a closed list of words,
// machines or tariffs. What is of many is typed, and offered.
func chosen(c *ledger.Column) bool {
	return c.Words != nil || len(c.Names) == 1 && !c.Own && !c.Open && (c.Names[0] == ledger.Machines || c.Names[0] == ledger.Tariffs)
}

// optionsOf are what a column may hold, or is likely to.
func (f *filling) optionsOf(c *ledger.Column) (list []page.Option) {
	if c.Own || c.Cell != ledger.NameCell && c.Cell != ledger.TextCell {
		return options(c.Words...)
	}
	for _, thing := range c.Names {
		list = append(list, f.things(thing)...)
	}
	return list
}

// lastOffered is how many are offered of things recorded one by one.
const lastOffered = 12

// things are those that the ledger has: foods, supplies, machines and tariffs in
// file order, of all else the last ones, the newest first.
func (f *filling) things(thing ledger.Thing) []page.Option {
	switch thing {
	case ledger.Foods:
		return byName(f.Records.NamedFoods())
	case ledger.Supplies:
		return byName(f.Records.NamedSupplies())
	case ledger.Machines:
		return byID(f.Records.NamedMachines())
	case ledger.Tariffs:
		return options(thing.In(f.Records)...)
	case ledger.Runs:
		return f.runs()
	case ledger.Packs:
		return f.packs()
	}
	names := thing.In(f.Records)
	slices.Reverse(names)
	return options(names[:min(lastOffered, len(names))]...)
}

// runs are the last runs, newest first.
func (f *filling) runs() (list []page.Option) {
	for i := len(f.Records.Runs) - 1; i >= 0 && len(list) < lastOffered; i-- {
		r := &f.Records.Runs[i]
		list = append(list, page.Option{Value: r.ID, Label: r.ID + ", " + r.Start.Format("2006-01-02")})
	}
	return list
}

// packs are the last packs, newest first.
func (f *filling) packs() (list []page.Option) {
	packs := &f.Records.Packs
	for i := packs.Len() - 1; i >= 0 && len(list) < lastOffered; i-- {
		list = append(list, options(packs.At(i).ID)...)
	}
	return list
}

// options are values that say what they are.
func options(values ...string) []page.Option {
	list := make([]page.Option, len(values))
	for i, v := range values {
		list[i] = page.Option{Value: v, Label: v}
	}
	return list
}

// byName offers each thing by the name by which it is found again.
func byName(things []ledger.Named) []page.Option {
	list := make([]page.Option, len(things))
	for i, n := range things {
		list[i].Value = entry.NameFor(n.ID, things)
	}
	return list
}

// byID makes an option of each thing to choose from.
func byID(things []ledger.Named) []page.Option {
	list := byName(things)
	for i, n := range things {
		list[i] = page.Option{Value: n.ID, Label: list[i].Value}
	}
	return list
}
