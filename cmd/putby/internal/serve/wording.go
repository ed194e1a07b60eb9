package serve

import (
	"cmp"
	"net/url"
	"strings"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/advice"
)

// formWords words what is advised as forms and pages are called, and its parts as
// fields are.
type formWords struct {
	links bool // to the form, with what is advised filled in
}

// A door is the form or page of an act.
type door struct {
	to, label string
	button    string            // what a button says that leads there; "": the label
	of        string            // the field that what it is of fills in; "": none
	parts     map[string]string // fields by parts that they give, where they are called otherwise
}

// doorOf is the form or page of an act; none where a server has no such page.
func doorOf(d advice.Doing) (door, bool) {
	form := func(f recording, of string) (door, bool) {
		return door{f.path, cmp.Or(f.link, f.title), f.title, of, f.parts}, true
	}
	switch d.Act {
	case advice.Start:
		return form(startForm, "loads")
	case advice.Finish:
		return form(finishForm, "run")
	case advice.AddPack:
		to, _ := form(packForm, "packs")
		to.button = "Pack it"
		return to, true
	case advice.Take, advice.AddDraw:
		return form(takeForm, "things")
	case advice.Freeze:
		return form(freezeForm, "things")
	case advice.AddReceipt:
		return form(receiptForm, "said")
	case advice.Stocktake:
		return form(stocktakeForm, "")
	case advice.Labels:
		return door{to: "labels/" + strings.Join(d.Of, ","), label: "Print the labels"}, len(d.Of) > 0
	case advice.OnHand:
		return door{label: "the larder"}, true
	case advice.Undo, advice.Redo, advice.Changes:
		return door{to: "changes", label: "the list of changes"}, true
	case advice.Edit, advice.Remove:
		if d.Of[0] == ledger.SettingsKind().Name {
			return door{to: settingsForm.path, label: settingsForm.title}, true
		}
		page, label := "record/", "Correct"
		if d.Act == advice.Remove {
			page, label = "remove/", "Take out"
		}
		return door{to: page + d.Of[0], label: label, of: recordWanted}, true
	case advice.Worth:
		return door{to: "worth", label: "Worth it?"}, true
	}
	// All other acts are a kind of record and what is done with it: "price add", "pack list".
	kind, what, _ := strings.Cut(string(d.Act), " ")
	switch k, ok := ledger.KindOf(kind); {
	case !ok:
		return door{}, false
	case what == "add" && ownForms[kind] != "":
		f, _ := named(ownForms[kind])
		return form(f, "")
	case what == "add":
		return form(addFormOf(k), "")
	}
	return door{to: "records/" + kind, label: "Records", of: "find"}, true
}

// address leads there with what is advised filled in.
func (to *door) address(d advice.Doing) *url.URL {
	fields := url.Values{}
	of := d.Of
	if to.of == "find" || to.of == recordWanted {
		of = of[min(1, len(of)):]
	}
	if to.of != "" && len(of) > 0 {
		fields.Set(to.of, strings.Join(of, "\n"))
	}
	for _, p := range d.Parts {
		if p.Value != "" && !p.Example {
			fields.Set(cmp.Or(to.parts[p.Name], p.Name), p.Value)
		}
	}
	return &url.URL{Path: "/" + to.to, RawQuery: fields.Encode()}
}

// Say names the form of an act, what it is of, and what to say there.
func (w formWords) Say(d advice.Doing) string {
	to, ok := doorOf(d)
	if !ok {
		return partsInWords(d.Parts, ", ")
	}
	label := to.label
	if w.links {
		label = page.Linked(label, to.address(d))
	}
	words := []string{label}
	if d.Act != advice.Labels {
		for _, of := range d.Of {
			if strings.Contains(of, " ") {
				of = `"` + of + `"`
			}
			words = append(words, of)
		}
	}
	said := strings.Join(words, " ")
	if parts := partsInWords(d.Parts, ", "); parts != "" {
		said += " (" + parts + ")"
	}
	return said
}

// fieldNames are what forms call parts that have another name there.
var fieldNames = map[string]string{"kwh": "kWh", "phase": "phases", "at": "time", "dry": "dry weights", "wet": "wet weights", "more": "more time"}

// nextLinks lead to what may be wanted next, where there is a form or sheet for it.
func nextLinks(next []advice.Doing) (list []page.Doing) {
	for _, d := range next {
		if to, ok := doorOf(d); ok {
			list = append(list, page.Doing{To: to.address(d).String(), Label: cmp.Or(to.button, to.label)})
		}
	}
	return list
}

// partsInWords names parts as the fields of forms, with a mark between.
func partsInWords(parts []advice.Part, mark string) string {
	words := make([]string, len(parts))
	for i, p := range parts {
		words[i] = strings.TrimSuffix(cmp.Or(fieldNames[p.Name], fieldName(p.Name))+" "+p.Value, " ")
	}
	return strings.Join(words, mark)
}
