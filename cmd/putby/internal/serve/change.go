package serve

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

// changeForm corrects what a change recorded.
func changeForm(s *server, r *http.Request) (recording, bool) {
	number, err := strconv.Atoi(r.PathValue("number"))
	var c *folder.Change
	if err == nil {
		c, err = folder.ChangeOf(s.Dir, number)
	}
	if err != nil || c == nil {
		return recording{}, false
	}
	return recording{
		path: "change/" + strconv.Itoa(number), title: titles["change"],
		intro:  fmt.Sprintf("What change %d (%s) recorded, to be put right. All of it is saved together, as a change of its own.", number, whoOf(c.Command)),
		groups: func(f *filling) []page.Group { return f.heldGroups(f.heldOf(s, c)) }, draft: changeDraft,
		beside: []page.Link{{To: "/records", Name: "All records"}},
	}, true
}

// A heldRecord is a record as a form was shown it: the one that is to be changed, or the
// settings.
type heldRecord struct {
	Kind string
	Line int // 0 of the settings
	Was  map[string]string
}

// recordName is the name of the field that tells the i-th record of the form.
func recordName(i int) string { return "record-" + strconv.Itoa(i) }

// held are the records that the form holds: those it was shown with.
func (f *filling) held() (list []heldRecord) {
	for i := 1; f.in.Has(recordName(i)); i++ {
		var h heldRecord
		err := json.Unmarshal([]byte(f.in.Get(recordName(i))), &h)
		if _, ok := ledger.KindOf(h.Kind); err != nil || !ok {
			return nil
		}
		list = append(list, h)
	}
	return list
}

// mostRecords is how many records of a change a form takes.
const mostRecords = 60

// heldOf are the records that the form of a change holds, or is to hold.
func (f *filling) heldOf(s *server, c *folder.Change) []heldRecord {
	list := f.held()
	if list == nil {
		for _, kept := range recordsOf(c, s.reader(nil)) {
			list = append(list, heldRecord{kept.kind.Name, kept.Line, kept.Cells})
		}
	}
	return list
}

// nothingLeft is a form of records that are no longer there.
var nothingLeft = []page.Group{{Title: "It is no longer there", Fields: []page.Field{{Kind: "words", Value: "It was changed or taken out since: the list of changes says when."}}}}

// heldGroups are the fields of records, so many of them as a form takes.
func (f *filling) heldGroups(list []heldRecord) (groups []page.Group) {
	if len(list) == 0 {
		return nothingLeft
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
	again := func(b heldRecord) bool { return b.Kind == h.Kind } // whose help has been read
	g := page.Group{Title: f.titleOf(h), Compact: slices.ContainsFunc(before, again)}
	shared := slices.ContainsFunc(before, func(b heldRecord) bool { return b.Kind == "receipt" && b.Was["receipt"] == h.Was["receipt"] })
	for j := range k.Columns {
		c := &k.Columns[j]
		if k.Name == "receipt" && (c.Name == "line" || shared && slices.Contains(entry.ReceiptHead, c.Name)) {
			continue
		}
		g.Fields = append(g.Fields, f.field(k, c, changedName(k, i, c.Name), h.Was[c.Name]))
	}
	g.Fields = append(g.Fields, h.field(i))
	return g
}

// field is the hidden field in which a form holds its i-th record.
func (h heldRecord) field(i int) page.Field {
	data, _ := json.Marshal(h) // texts and numbers: it cannot fail
	return page.Field{Kind: "hidden", Name: recordName(i), Value: string(data)}
}

func changedName(k ledger.Kind, i int, column string) string {
	return k.Name + "-" + strconv.Itoa(i) + "-" + column
}

// untouched reports whether a field holds what it was shown with, which a browser
// sends without line breaks, or what comes to the same: of a blank cell that is shown as
// the word that it means, that word.
func (f *filling) untouched(c *ledger.Column, name, was string) bool {
	flat := func(text string) string {
		return strings.TrimSpace(strings.NewReplacer("\r", "", "\n", "").Replace(text))
	}
	text := f.cell(c, name)
	return text == was || was == "" && text == c.Blank && slices.Contains(c.Words, text) || flat(f.in.Get(name)) == flat(entry.CellAsTyped(f.Records, c, was))
}

// errHeld says that a form of changes does not say of what.
var errHeld = errors.New("nothing of it is left to be changed")

func changeDraft(f *filling) (*entry.Draft, error) {
	list := f.held()
	if list == nil {
		return nil, errHeld
	}
	var sets []entry.Set
	for i, h := range list {
		k := ledger.MustKind(h.Kind)
		cells := map[string]string{}
		for j := range k.Columns {
			c := &k.Columns[j]
			name := changedName(k, i+1, c.Name)
			if f.in.Has(name) && !f.untouched(c, name, h.Was[c.Name]) {
				cells[c.Name] = f.cell(c, name)
			}
		}
		sets = append(sets, entry.Set{Kind: k, Line: h.Line, Cells: cells, Was: h.Was})
	}
	return entry.Edit(f.Records, sets), nil
}
