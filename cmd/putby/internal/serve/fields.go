package serve

import (
	"strings"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// fieldsOf makes a field of each column of a kind, but for those left out.
func (f *filling) fieldsOf(k ledger.Kind, prefix string, suggested map[string]string, without ...string) (list []page.Field) {
	for _, c := range k.Columns {
		if contains(without, c.Name) {
			continue
		}
		name := prefix + c.Name
		field := page.Field{
			Kind: "text", Name: name, Label: strings.ReplaceAll(c.Name, "_", " "), Help: c.Help,
			Value: f.text(name, suggested[c.Name]), Need: c.Need,
		}
		f.shape(&field, c.Name)
		list = append(list, field)
	}
	return list
}

// shape gives a field the form of what its column holds.
func (f *filling) shape(field *page.Field, column string) {
	switch column {
	case "date", "best_by":
		field.Kind = "date"
	case "start", "end":
		field.Kind, field.Value = "datetime", strings.Replace(field.Value, " ", "T", 1)
	case "outcome":
		field.Kind, field.Options = "select", options("good", "spoiled")
	case "reason":
		field.Kind, field.Options = "select", options("used", "given", "spoiled")
	case "machine":
		field.Kind, field.Options = "select", f.machines()
	case "tariff":
		field.Kind, field.Options = "select", f.tariffs()
	case "item":
		field.Options = f.foods()
	case "run":
		field.Options = f.runs()
	case "kwh", "count", "trays", "cost", "price":
		field.Kind = "number"
	}
}

func contains(list []string, s string) bool {
	for _, have := range list {
		if have == s {
			return true
		}
	}
	return false
}

// options are values that say what they are.
func options(values ...string) []page.Option {
	list := make([]page.Option, len(values))
	for i, v := range values {
		list[i] = page.Option{Value: v, Label: v}
	}
	return list
}

func (f *filling) foods() []page.Option {
	return optionsOf(f.rec.Foods, func(r *ledger.Food) (string, string) { return r.ID, r.Name })
}

func (f *filling) machines() []page.Option {
	return optionsOf(f.rec.Machines, func(r *ledger.Machine) (string, string) { return r.ID, r.Name })
}

func (f *filling) supplies() []page.Option {
	return optionsOf(f.rec.Supplies, func(r *ledger.Supply) (string, string) { return r.ID, r.Name })
}

// lastRuns is how many runs are offered for a pack.
const lastRuns = 12

// runs are the last runs, newest first.
func (f *filling) runs() (list []page.Option) {
	for i := len(f.rec.Runs) - 1; i >= 0 && len(list) < lastRuns; i-- {
		r := &f.rec.Runs[i]
		list = append(list, page.Option{Value: r.ID, Label: r.ID + ", " + r.Start.Format("2006-01-02")})
	}
	return list
}

func (f *filling) tariffs() []page.Option {
	list := []page.Option{{Value: "", Label: "the settings' own"}}
	seen := map[string]bool{}
	for i := range f.rec.Tariffs {
		if name := f.rec.Tariffs[i].Tariff; !seen[name] {
			seen[name] = true
			list = append(list, page.Option{Value: name, Label: name})
		}
	}
	return list
}

// optionsOf makes an option of each record.
func optionsOf[R any](records []R, of func(*R) (id, name string)) []page.Option {
	list := make([]page.Option, len(records))
	for i := range records {
		id, name := of(&records[i])
		list[i] = page.Option{Value: id, Label: id}
		if name != "" {
			list[i].Label = name + " (" + id + ")"
		}
	}
	return list
}
