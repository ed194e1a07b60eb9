package serve

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// recordsShown is how many records of a kind are listed at once.
const recordsShown = 50

// ownForms are the forms of kinds that have one of their own; all others are added by
// a form of their columns.
var ownForms = map[string]string{
	"food": foodForm.path, "receipt": receiptForm.path, "price": priceForm.path, "batch": batchForm.path, "run": runForm.path,
	"pack": packForm.path, "draw": takeForm.path, "frozen": freezeForm.path, "count": stocktakeForm.path,
}

// adding leads to the form that adds a record of a kind.
func adding(k ledger.Kind) page.Doing {
	return page.Doing{To: "/" + cmp.Or(ownForms[k.Name], "add/"+k.Name), Label: "Add"}
}

// recordKind is the kind of records that an address names.
func recordKind(r *http.Request) (ledger.Kind, bool) {
	k, ok := ledger.KindOf(r.PathValue("kind"))
	return k, ok && k.Name == r.PathValue("kind") && k.Name != ledger.SettingsKind().Name
}

// showKinds lists the kinds of records, with how many there are of each.
func (s *server) showKinds(w http.ResponseWriter, _ *http.Request) {
	form := page.Form{Title: "Records", Intro: "All that the ledger holds, to be looked up, added to, corrected and taken out."}
	base, _ := s.baseFor(w, form)
	if base == nil {
		return
	}
	form.Links = s.links(base.Records)
	for _, k := range ledger.Kinds() {
		form.List = append(form.List, page.Item{
			Title: capital(k.Short), When: strconv.Itoa(k.Len(base.Records)) + " in " + k.File,
			Doings: []page.Doing{{To: "/records/" + k.Name, Label: "Look through"}, adding(k)},
		})
	}
	k := ledger.SettingsKind()
	form.List = append(form.List, page.Item{Title: capital(k.Short), When: k.File, Doings: []page.Doing{{To: "/" + settingsForm.path, Label: settingsForm.title}}})
	s.show(w, http.StatusOK, form)
}

// capital begins a title.
func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// showRecords lists the records of a kind, the newest first, or those of them that
// hold the words of a search.
func (s *server) showRecords(w http.ResponseWriter, r *http.Request) {
	k, ok := recordKind(r)
	if !ok {
		s.nowhere(w, r)
		return
	}
	form := page.Form{Title: capital(k.Short), Doings: []page.Doing{adding(k)}}
	base, _ := s.baseFor(w, form)
	if base == nil {
		return
	}
	f := newFilling(s.kept.files, base, r.URL.Query())
	search := f.text("find", "")
	form.Links, form.Path, form.Ask = s.links(base.Records), "/records/"+k.Name, true
	form.Groups = []page.Group{{Title: "Search", Fields: []page.Field{{Kind: "text", Name: "find", Label: "words, or part of one", Help: "a name, a shop, a day such as 2025-11", Value: search}}}}
	form.Buttons = []page.Button{{Do: "find", Label: "Search"}}
	var found []int
	rows, _, err := s.kept.files.Rows(base.Records, k)
	if err != nil {
		form.Trouble = troubles(err)
	} else {
		found = f.found(k, rows, search)
	}
	first, _ := strconv.Atoi(r.URL.Query().Get("from"))
	first = max(0, min(first, len(found)-1))
	end := min(first+recordsShown, len(found))
	for _, at := range found[first:end] {
		h := asHeld(k, rows.Row(at))
		form.List = append(form.List, page.Item{Title: f.titleOf(h), When: f.whenOf(h), Doings: []page.Doing{{To: h.address("record"), Label: "Correct"}}})
	}
	form.List = append(form.List, further(k, search, first, end, len(found)))
	s.show(w, http.StatusOK, form)
}

// further says which of the records that were found are listed, and leads to others.
func further(k ledger.Kind, search string, first, end, all int) page.Item {
	item := page.Item{Title: fmt.Sprintf("%d to %d of %d", first+1, end, all)}
	to := func(from int, label string) {
		q := url.Values{"from": {strconv.Itoa(from)}, "find": {search}}
		item.Doings = append(item.Doings, page.Doing{To: "/records/" + k.Name + "?" + q.Encode(), Label: label})
	}
	if first > 0 {
		to(max(0, first-recordsShown), "Newer")
	}
	if end < all {
		to(end, "Older")
	}
	if all == 0 {
		item.Title = "There are none"
	}
	return item
}

// found are the records that hold all words of a search, in their cells or in the name
// of what these name: the latest day first, and of one day the last of the file.
func (f *filling) found(k ledger.Kind, rows *folder.RowList, search string) []int {
	list := make([]int, rows.Len())
	for i := range list {
		list[i] = rows.Len() - 1 - i
	}
	if words := strings.Fields(strings.ToLower(search)); len(words) > 0 {
		names := f.names()
		list = slices.DeleteFunc(list, func(at int) bool {
			var text strings.Builder
			for _, cell := range rows.Row(at).Cells {
				text.WriteString(strings.ToLower(cell + "\n" + names[cell] + "\n"))
			}
			return slices.ContainsFunc(words, func(word string) bool { return !strings.Contains(text.String(), word) })
		})
	}
	if at := slices.IndexFunc(k.Columns, func(c ledger.Column) bool { return c.Happens() }); at >= 0 {
		day := rows.Cells(k.Columns[at].Name)
		days := make([]string, rows.Len())
		for _, i := range list {
			days[i] = day(i)
		}
		slices.SortStableFunc(list, func(a, b int) int { return strings.Compare(days[b], days[a]) })
	}
	return list
}

// names are what records name, by what people call it.
func (f *filling) names() map[string]string {
	names := map[string]string{}
	for _, n := range slices.Concat(f.Records.NamedFoods(), f.Records.NamedSupplies()) {
		names[n.ID] = n.Name
	}
	for _, p := range f.Records.Packs.All() {
		names[p.ID] = names[p.Item]
	}
	for _, l := range f.Records.Loads.All() {
		names[l.Run] += " " + names[l.Item]
	}
	return names
}

// asHeld is a record as a form holds it.
func asHeld(k ledger.Kind, r folder.Row) heldRecord { return heldRecord{k.Name, r.Line, r.Cells} }

// address is where a page shows a record: at its line, and elsewhere where that holds
// another by then.
func (h heldRecord) address(page string) string {
	return fmt.Sprintf("/%s/%s/%d?was=%s", page, h.Kind, h.Line, markOf(h.Was))
}

// markOf tells what a record holds from what it may come to hold.
func markOf(cells map[string]string) string {
	data, _ := json.Marshal(cells) // texts: it cannot fail
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:8])
}

// placeIn is which of some rows stands at a line, or holds what a list showed there;
// -1 where there is none.
func placeIn(rows *folder.RowList, line int, was string) int {
	at := rows.AtLine(line)
	if was == "" || at >= 0 && markOf(rows.Row(at).Cells) == was {
		return at
	}
	for i := range rows.Len() {
		if markOf(rows.Row(i).Cells) == was {
			return i
		}
	}
	return -1
}

// titleOf says which record it is.
func (f *filling) titleOf(h heldRecord) string {
	if at, g := ledger.MustKind(h.Kind).AtLine(f.Records, h.Line), f.join(); g != nil && at >= 0 {
		if said := report.OneLine(g, report.Written{Kind: h.Kind, At: at}); said != "" {
			return said
		}
	}
	return h.Kind
}

// whenOf is the days and the names in a record.
func (f *filling) whenOf(h heldRecord) string {
	var words []string
	for _, c := range ledger.MustKind(h.Kind).Columns {
		if text := h.Was[c.Name]; text != "" && slices.Contains([]ledger.CellType{ledger.DateCell, ledger.MomentCell, ledger.NameCell}, c.Cell) {
			words = append(words, entry.InSentence(f.Records.Settings.Locale, &c, text))
		}
	}
	return strings.Join(words, ", ")
}
