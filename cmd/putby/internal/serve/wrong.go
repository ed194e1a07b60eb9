package serve

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

// mark says of a form what is wrong with it: on top all of it, and at each field
// what is wrong there, which it shows even where it was folded.
func (f *filling) mark(r recording, form *page.Form, err error) {
	form.Groups = f.withTicks(r.groups(f), asksFor(err)...)
	for _, w := range entry.WrongsOf(err) {
		for _, t := range f.placed(r, w) {
			tellAt(form, t)
		}
	}
	order := fieldOrder(form.Groups)
	slices.SortStableFunc(form.Trouble, func(a, b page.Trouble) int { return order[a.Field] - order[b.Field] })
}

// tellAt says one thing that is wrong on top of a form and at the field that it is
// of, where the form has that.
func tellAt(form *page.Form, t page.Trouble) {
	if field := find(form.Groups, t.Field); field != nil {
		t.Label = labelIn(form.Groups, field)
		words := t.What
		if t.Hint != "" {
			words += " (try: " + t.Hint + ")"
		}
		field.Wrong = append(field.Wrong, words)
	} else {
		t.Field = ""
	}
	form.Trouble = append(form.Trouble, t)
	for i := range form.Groups {
		g := &form.Groups[i]
		g.Folded = g.Folded && !slices.ContainsFunc(g.Fields, func(f page.Field) bool { return f.Wrong != nil })
	}
}

// fieldOrder is where each field stands; what is of none comes first.
func fieldOrder(groups []page.Group) map[string]int {
	order := map[string]int{}
	for _, g := range groups {
		for _, f := range g.Fields {
			order[f.Name] = len(order) + 1
		}
	}
	return order
}

// labelIn is what a field is called among all of a form: where others are called so
// too, with its group.
func labelIn(groups []page.Group, field *page.Field) string {
	among, called := "", 0
	for _, g := range groups {
		for _, f := range g.Fields {
			if f.Label == field.Label {
				called++
			}
			if f.Name == field.Name {
				among = g.Title
			}
		}
	}
	if called < 2 {
		return field.Label
	}
	return among + ", " + field.Label
}

// find finds a field of a form; nil where it has none of that name.
func find(groups []page.Group, name string) *page.Field {
	for i := range groups {
		for j := range groups[i].Fields {
			if field := &groups[i].Fields[j]; field.Name == name && name != "" && field.Kind != "hidden" {
				return field
			}
		}
	}
	return nil
}

// placed tells what is wrong, each with its field.
func (f *filling) placed(r recording, w entry.Wrong) []page.Trouble {
	var refusal *folder.Refusal
	if errors.As(w.Err, &refusal) && !refusal.Already {
		return f.faults(r, refusal.Faults)
	}
	list := troubles(w.Err)
	for i := range list {
		list[i].Field = r.field(w.Part)
		if c, ok := f.columns[list[i].Field]; ok {
			list[i].What = strings.TrimPrefix(list[i].What, c.column.Name+": ")
		}
		if list[i].Field == "" && errors.Is(w.Err, entry.ErrAhead) {
			list[i].Field = f.dated()
		}
	}
	return list
}

// dated is the field that holds the day that is refused.
func (f *filling) dated() string {
	for _, name := range dateFields {
		if f.in.Get(name) != "" {
			return name
		}
	}
	return ""
}

// faults tells the faults that the ledger would have, each at the field that its
// record was read from, as far as the form gave it.
func (f *filling) faults(r recording, faults ledger.Faults) (list []page.Trouble) {
	for i, fault := range faults {
		if i == mostTroubles {
			return append(list, page.Trouble{What: fmt.Sprintf("and %d more", len(faults)-i)})
		}
		t := page.Trouble{What: fault.What, Hint: tryOf(&fault)}
		if t.Field = f.fieldAt(r, &fault); t.Field == "" {
			t.What = fault.Error()
		} else {
			t.What = strings.TrimPrefix(t.What, fault.Field+": ")
		}
		list = append(list, t)
	}
	return list
}

// fieldAt is the field of a fault; "" where its record is none of the form's.
func (f *filling) fieldAt(r recording, fault *ledger.Fault) string {
	k, ok := ledger.KindOf(fault.File)
	// A record that the form changes is told by its line, a new one by how far it is behind the file's end.
	for i, h := range f.held() {
		if name := changedName(k, i+1, fault.Field); ok && h.Kind == k.Name && h.Line == fault.Line && f.columns[name].column != nil {
			return name
		}
	}
	first := f.begins[fault.File]
	if !ok || first == 0 || fault.Line < first {
		return ""
	}
	n := fault.Line - first // among those of its kind
	if f.place != nil {
		if name := f.place(k.Name, n, fault.Field); name != "" {
			return name
		}
	}
	for _, name := range []string{
		k.Name + "-" + strconv.Itoa(n+1) + "-" + fault.Field, fault.Field + "-" + strconv.Itoa(n+1), fault.Field,
	} {
		if _, ok := f.columns[name]; ok {
			return name
		}
	}
	if field := r.field(fault.Field); field != fault.Field {
		return field
	}
	return r.parts["rows"]
}

// asksFor are the boxes that a refusal asks for.
func asksFor(err error) (options []string) {
	for _, w := range entry.WrongsOf(err) {
		switch {
		case errors.Is(w.Err, entry.ErrAhead):
			options = append(options, "ahead")
		case errors.Is(w.Err, entry.ErrAgain):
			options = append(options, "again")
		}
	}
	return options
}
