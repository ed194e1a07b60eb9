package serve

import (
	"slices"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
)

// ticks are the boxes by which a form says that what was refused as a likely
// slip is meant, by option.
var ticks = []page.Option{
	{Value: "ahead", Label: "The date is meant: it is still to come"},
	{Value: "again", Label: "It was bought twice: record it again"},
}

// dateFields are the fields of days behind which the box for one ahead stands.
var dateFields = []string{"at", "start", "date"}

// withTicks adds to a form the boxes that were ticked, and those that a refusal
// asks for.
func (f *filling) withTicks(groups []page.Group, asked ...string) []page.Group {
	for _, tick := range ticks {
		value := f.text(tick.Value, "")
		if value == "" && !slices.Contains(asked, tick.Value) {
			continue
		}
		box := page.Field{Kind: "switch", Name: tick.Value, Label: tick.Label, Value: value}
		if tick.Value != "ahead" || !behind(groups, box) {
			groups = append(groups, page.Group{Title: "Is it meant?", Fields: []page.Field{box}})
		}
	}
	return groups
}

// behind puts a box behind the day that it is about.
func behind(groups []page.Group, box page.Field) bool {
	for i := range groups {
		g := &groups[i]
		at := slices.IndexFunc(g.Fields, func(f page.Field) bool { return slices.Contains(dateFields, f.Name) })
		if at >= 0 {
			g.Fields, g.Folded = slices.Insert(slices.Clone(g.Fields), at+1, box), false
			return true
		}
	}
	return false
}

// vet holds what a form would record against the calendar and the household's
// own records, and returns what to say of it.
func (f *filling) vet(d *entry.Draft) (entry.Verdict, error) {
	v, err := d.Vet(f.Base)
	if err == nil && v.Twice != nil && f.text("again", "") == "" {
		err = v.Twice
	}
	return v, err
}
