package serve

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strconv"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// toChanges leads to the list of changes whoever opens the address of a button.
func (s *server) toChanges(w http.ResponseWriter, r *http.Request) {
	http.Redirect(w, r, "/changes", http.StatusSeeOther)
}

// showChange shows the records of a change as a form, to be corrected.
func (s *server) showChange(w http.ResponseWriter, r *http.Request) {
	if f, ok := s.changeForm(w, r); ok {
		s.showForm(w, r, f)
	}
}

// takeChange corrects them.
func (s *server) takeChange(w http.ResponseWriter, r *http.Request) {
	if f, ok := s.changeForm(w, r); ok {
		s.takeForm(w, r, f)
	}
}

// changeForm is the form of a change's records; where there is no such change it
// says so, and returns false.
func (s *server) changeForm(w http.ResponseWriter, r *http.Request) (recording, bool) {
	number, err := strconv.Atoi(r.PathValue("number"))
	var c *folder.Change
	if err == nil {
		c, err = folder.ChangeOf(s.Dir, number)
	}
	if err != nil || c == nil {
		s.show(w, http.StatusNotFound, page.Form{Title: "There is no such change", Links: s.links(nil)})
		return recording{}, false
	}
	return recording{
		path: "change/" + strconv.Itoa(number), title: "Change a record",
		intro:  fmt.Sprintf("What change %d (%s) recorded, to be put right. All of it is saved together, as a change of its own.", number, whoOf(c.Command)),
		groups: func(f *filling) []page.Group { return s.changeGroups(f, c) }, draft: changeDraft,
	}, true
}

// A heldRecord is a record as a form holds it: the one that is to be changed.
type heldRecord struct {
	Kind string
	Line int
	Was  map[string]string
}

// recordName is the name of the field that tells the i-th record of the form.
func recordName(i int) string { return "record-" + strconv.Itoa(i) }

// held are the records that the form holds: those it was shown with.
func (f *filling) held() (list []heldRecord) {
	for i := 1; f.in.Has(recordName(i)); i++ {
		var h heldRecord
		if err := json.Unmarshal([]byte(f.in.Get(recordName(i))), &h); err != nil {
			return nil
		}
		if _, ok := ledger.KindOf(h.Kind); !ok {
			return nil
		}
		list = append(list, h)
	}
	return list
}

// mostRecords is how many records of a change a form takes.
const mostRecords = 60

func (s *server) changeGroups(f *filling, c *folder.Change) (groups []page.Group) {
	list := f.held()
	if list == nil {
		for _, kept := range recordsOf(c, s.rowsOnce()) {
			list = append(list, heldRecord{kept.kind.Name, kept.Line, kept.Cells})
		}
	}
	if len(list) == 0 {
		return []page.Group{{Title: "Nothing of it is left to be changed", Fields: []page.Field{{Kind: "words", Value: "What it recorded was changed or taken out since; the list of changes says when."}}}}
	}
	for i, h := range list[:min(len(list), mostRecords)] {
		groups = append(groups, f.heldGroup(h, i+1, list[:i]))
	}
	return groups
}

// heldGroup is the fields of one record. What all lines of a receipt share is
// asked with the first of them.
func (f *filling) heldGroup(h heldRecord, i int, before []heldRecord) page.Group {
	k := ledger.MustKind(h.Kind)
	g := page.Group{Title: f.titleOf(h)}
	data, _ := json.Marshal(h) // texts and a number: it cannot fail
	shared := slices.ContainsFunc(before, func(b heldRecord) bool { return b.Kind == "receipt" && b.Was["receipt"] == h.Was["receipt"] })
	for j := range k.Columns {
		c := &k.Columns[j]
		if c.Own || k.Name == "receipt" && (c.Name == "line" || shared && slices.Contains(receiptHead, c.Name)) {
			continue
		}
		field := f.field(k, c, changedName(k, i, c.Name), h.Was[c.Name])
		g.Fields = append(g.Fields, field)
	}
	g.Fields = append(g.Fields, page.Field{Kind: "hidden", Name: recordName(i), Value: string(data)})
	return g
}

func changedName(k ledger.Kind, i int, column string) string {
	return k.Name + "-" + strconv.Itoa(i) + "-" + column
}

// titleOf says which record it is.
func (f *filling) titleOf(h heldRecord) string {
	g := f.join()
	k, _ := ledger.KindOf(h.Kind)
	if at := k.AtLine(f.Records, h.Line); g != nil && at >= 0 {
		if said := report.OneLine(g, report.Written{Kind: h.Kind, At: at}); said != "" {
			return said
		}
	}
	return h.Kind
}

// errHeld says that a form of changes does not say of what.
var errHeld = errors.New("nothing of it is left to be changed")

func changeDraft(f *filling) (*entry.Draft, error) {
	list := f.held()
	if list == nil {
		return nil, errHeld
	}
	d := &entry.Draft{}
	shared := map[string]map[string]string{} // by receipt
	for i, h := range list {
		k := ledger.MustKind(h.Kind)
		cells := map[string]string{}
		for j := range k.Columns {
			c := &k.Columns[j]
			name := changedName(k, i+1, c.Name)
			if !f.in.Has(name) {
				continue
			}
			if text := f.cell(c, name); text != h.Was[c.Name] {
				cells[c.Name] = text
			}
		}
		if k.Name == "receipt" {
			id := h.Was["receipt"]
			if shared[id] == nil {
				shared[id] = map[string]string{}
				for _, column := range receiptHead {
					if text, ok := cells[column]; ok {
						shared[id][column] = text
					}
				}
			}
			maps.Copy(cells, shared[id])
		}
		if len(cells) > 0 {
			d.Sets = append(d.Sets, entry.Set{Kind: k, Line: h.Line, Cells: cells, Was: h.Was})
		}
	}
	d.Advise = func(g *ledger.Ledger) (said []string) {
		for _, s := range d.Sets {
			for _, line := range report.MoistAfter(g, s.Kind.Name, s.Was, s.Cells) {
				if !slices.Contains(said, line) {
					said = append(said, line)
				}
			}
		}
		return said
	}
	d.FollowShelf(f.Records)
	return d, nil
}
