package serve

import (
	"errors"
	"net/http"
	"slices"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// addForm adds a record of a kind that has no form of its own, by its columns.
func addForm(_ *server, r *http.Request) (recording, bool) {
	k, ok := recordKind(r)
	return addFormOf(k), ok && ownForms[k.Name] == ""
}

func addFormOf(k ledger.Kind) recording {
	var beside []page.Link
	if k.Name == "tariff" {
		beside = []page.Link{{To: "/" + hoursForm.path, Name: hoursForm.title}}
	}
	return recording{
		path: "add/" + k.Name, title: "Record " + k.Long, buttons: []page.Button{asLast}, beside: beside,
		groups: func(f *filling) []page.Group { return f.addGroups(k) },
		draft:  func(f *filling) (*entry.Draft, error) { return f.addDraft(k) },
	}
}

// addGroups are the columns of a kind, first those that a person is asked for.
func (f *filling) addGroups(k ledger.Kind) []page.Group {
	f.fillAsLast(k)
	likely, _ := f.Suggest(k, f.cells(k, ""))
	var asked, rest []page.Field
	for i := range k.Columns {
		c := &k.Columns[i]
		if c.Default == ledger.Next { // as what else is filled in has it
			field := f.field(k, c, c.Name, "")
			field.Need, field.Help = false, c.Help+"; empty: the next"
			rest = append(rest, field)
			continue
		}
		field := f.field(k, c, c.Name, likely[c.Name])
		if field.Kind == "select" && c.Need && field.Value == "" {
			field.Options = slices.Insert(field.Options, 0, page.Option{Label: "choose"})
		}
		// Where the record may be said in words, browsers must not insist on a field of it.
		if field.Need = c.Need && k.InWords == nil; c.Need || c.Ask > 0 {
			asked = append(asked, field)
		} else {
			rest = append(rest, field)
		}
	}
	groups := []page.Group{{Title: "What it is", Fields: asked}}
	if len(rest) > 0 {
		groups = append(groups, folded("More", rest...))
	}
	if w := k.InWords; w != nil {
		words := f.textField(w.Name, w.Label+", in words", w.Help+"; with its name, first day and tax below", "")
		groups = slices.Insert(groups, 0, page.Group{Title: "In words", Fields: []page.Field{words}})
		groups[1].Title = "Or one band of it"
	}
	return groups
}

func (f *filling) addDraft(k ledger.Kind) (*entry.Draft, error) {
	cells := f.cells(k, "")
	if words := f.text("words", ""); words != "" && k.InWords != nil {
		for column := range cells {
			if !k.Column(column).Beside {
				return nil, entry.Wrongs{{Part: column, Err: errors.New("the words say that: leave it blank, or the words")}}
			}
		}
		d, err := entry.AddTariff(f.Base, entry.TariffIn{Words: words, Tariff: cells["tariff"], From: cells["from"], Tax: cells["tax"]})
		if err != nil {
			return nil, entry.Wrongs{{Part: "words", Err: err}}
		}
		return d, nil
	}
	return entry.Add(f.Base, k, cells)
}
