package serve

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

// titles are what the forms of records are called that are there, by how their
// addresses begin.
var titles = map[string]string{"change": "Change a record", "record": "Correct a record", "remove": "Take a record out"}

// A madeForm is the form of what an address names; false: there is no such thing.
type madeForm func(*server, *http.Request) (recording, bool)

// with answers with the form that an address names.
func (s *server) with(of madeForm, then func(http.ResponseWriter, *http.Request, recording)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		f, ok := of(s, r)
		if !ok {
			s.nowhere(w, r)
			return
		}
		then(w, r, f)
	}
}

// recordForm corrects a record; of a receipt, whose lines come to one total, all.
func recordForm(s *server, r *http.Request) (recording, bool) {
	k, line, ok := recordAt(r)
	f := recording{
		path: "record/" + k.Name + "/" + strconv.Itoa(line), title: titles["record"],
		intro:  "Change what is wrong; what stays as it is is left alone.",
		groups: func(f *filling) []page.Group { return f.heldGroups(f.heldAt(k, line, true)) }, draft: changeDraft,
	}
	f.doings = func(f *filling) []page.Doing {
		held := f.heldAt(k, line, true)
		if len(held) == 0 {
			return nil
		}
		out := page.Doing{To: held[0].address("remove"), Label: "Take it out"}
		if len(held) == 1 {
			return []page.Doing{out}
		}
		_, first, _ := strings.Cut(f.titleOf(held[0]), ": ")
		out.Label = strings.TrimSuffix("Take this line out: "+first, ": ")
		return []page.Doing{out, {To: out.To + "&whole=yes", Label: "Take the whole receipt out"}}
	}
	return f, ok
}

// recordAt is the place of a record that an address names.
func recordAt(r *http.Request) (ledger.Kind, int, bool) {
	k, ok := recordKind(r)
	line, err := strconv.Atoi(r.PathValue("line"))
	return k, line, ok && err == nil
}

// recordWanted tells which record an address means that does not know its line, by what
// names it.
const recordWanted = "which"

// toRecord leads to a page of the record that an address names, with the cells filled in
// that it has; to the list where none is called so.
func (s *server) toRecord(page string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		k, ok := recordKind(r)
		if !ok {
			s.nowhere(w, r)
			return
		}
		which := r.URL.Query().Get(recordWanted)
		var found []entry.Record
		rows, err := folder.Rows(s.Dir, k)
		if err == nil {
			found, err = entry.RecordsNamed(k, entry.RecordsOf(rows), which)
		}
		if err != nil { // the list says what is wrong with the file
			q := url.Values{"find": {strings.TrimSuffix(strings.Join(strings.Fields(which), " "), " last")}}
			http.Redirect(w, r, "/records/"+k.Name+"?"+q.Encode(), http.StatusSeeOther)
			return
		}
		to := heldRecord{k.Name, found[0].Line, found[0].Cells}.address(page)
		if page == "remove" && len(found) > 1 {
			to += "&whole=yes"
		}
		for i := range k.Columns {
			if column := k.Columns[i].Name; r.URL.Query().Has(column) {
				to += "&" + changedName(k, 1, column) + "=" + url.QueryEscape(r.URL.Query().Get(column))
			}
		}
		http.Redirect(w, r, to, http.StatusSeeOther)
	}
}

// heldAt are the records that a form of the one at a line holds, or is to hold: that
// and, of a receipt where they are wanted, its other lines.
func (f *filling) heldAt(k ledger.Kind, line int, whole bool) []heldRecord {
	list := f.held()
	if list != nil {
		return list
	}
	rows, _, err := f.files.Rows(f.Records, k)
	if err != nil {
		return nil
	}
	at := placeIn(rows, line, f.in.Get("was"))
	if at < 0 {
		return nil
	}
	list = []heldRecord{asHeld(k, rows.Row(at))}
	if receipt := rows.Cells("receipt"); whole && k.Name == "receipt" {
		for i := range rows.Len() {
			if i != at && receipt(i) == receipt(at) {
				list = append(list, asHeld(k, rows.Row(i)))
			}
		}
	}
	return list
}

// removeForm takes a record out, or a whole receipt.
func removeForm(_ *server, r *http.Request) (recording, bool) {
	k, line, ok := recordAt(r)
	return recording{
		path: "remove/" + k.Name + "/" + strconv.Itoa(line), title: titles["remove"], save: "Take it out",
		intro:  "It goes from the ledger, and with a run its phases, loads and meter log. Undo brings it back.",
		groups: func(f *filling) []page.Group { return f.removeGroups(f.heldAt(k, line, f.in.Get("whole") != "")) }, draft: removeDraft,
	}, ok
}

func (f *filling) removeGroups(list []heldRecord) (groups []page.Group) {
	if len(list) == 0 {
		return nothingLeft
	}
	for i, h := range list {
		k, g := ledger.MustKind(h.Kind), page.Group{Title: f.titleOf(h), Compact: true}
		for j := range k.Columns {
			if c := &k.Columns[j]; h.Was[c.Name] != "" {
				g.Fields = append(g.Fields, page.Field{Kind: "words", Label: c.Label, Value: entry.CellAsTyped(f.Records, c, h.Was[c.Name])})
			}
		}
		g.Fields = append(g.Fields, h.field(i+1))
		groups = append(groups, g)
	}
	return groups
}

func removeDraft(f *filling) (*entry.Draft, error) {
	list := f.held()
	if list == nil {
		return nil, errHeld
	}
	k := ledger.MustKind(list[0].Kind)
	rows, _, err := f.files.Rows(f.Records, k)
	if err != nil {
		return nil, err
	}
	var gone []entry.Record
	for _, h := range list {
		at := placeIn(rows, h.Line, markOf(h.Was))
		if at < 0 || h.Kind != k.Name {
			return nil, entry.ChangedMeanwhile(k)
		}
		gone = append(gone, entry.Record{Line: rows.Line(at), At: at, Cells: rows.Row(at).Cells})
	}
	return entry.Remove(f.Base, k, gone), nil
}
