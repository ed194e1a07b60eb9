package serve

import (
	"errors"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
)

// ticks are the boxes by which a form says that what was refused as a likely
// slip is meant, by option.
var ticks = []page.Option{
	{Value: "ahead", Label: "The date is meant: it is still to come"},
	{Value: "again", Label: "It was bought twice: record it again"},
}

// meant shows the boxes that were ticked, and the one that a refusal asks for.
func (f *filling) meant(refused error) []page.Group {
	var asks *entry.MeantError
	errors.As(refused, &asks)
	var fields []page.Field
	for _, tick := range ticks {
		if value := f.text(tick.Value, ""); value != "" || asks != nil && asks.Option == tick.Value {
			fields = append(fields, page.Field{Kind: "switch", Name: tick.Value, Label: tick.Label, Value: value})
		}
	}
	if fields == nil {
		return nil
	}
	return []page.Group{{Title: "Is it meant?", Fields: fields}}
}

// vet holds what a form would record against the calendar and the household's
// own records, and returns what to say of it.
func (f *filling) vet(d *entry.Draft) ([]string, error) {
	v, err := d.Vet(f.Base)
	switch {
	case err != nil:
		return nil, err
	case v.Twice != nil && f.text("again", "") == "":
		return nil, v.Twice
	}
	return append(v.Notes, v.Odd...), nil
}
