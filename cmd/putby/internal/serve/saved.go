package serve

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// showSaved shows what was saved: by this server, or by one before it.
func (s *server) showSaved(w http.ResponseWriter, r *http.Request) {
	once := r.PathValue("once")
	o, _ := s.forms.find(once)
	if o == nil {
		c, err := folder.Marked(s.Dir, once)
		switch {
		case err != nil:
			s.show(w, http.StatusUnprocessableEntity, page.Form{Title: "The changes of the ledger cannot be read", Trouble: troubles(err), Links: s.links(nil)})
			return
		case c == nil:
			s.show(w, http.StatusNotFound, page.Form{Title: "Nothing was saved under that name", Links: s.links(nil)})
			return
		}
		o = outcomeOf(*c)
		o.title = whoOf(c.Command)
		for _, left := range recordsOf(c, s.reader(nil)) {
			if left.kind.Name == "pack" {
				o.packs = append(o.packs, left.Cells["pack"])
			}
		}
	}
	form := page.Form{
		Title: "Saved", Intro: fmt.Sprintf("%s: change %d of the ledger.", o.title, o.number),
		Said: o.said, Know: o.know, Cautions: o.cautions, Meanwhile: s.meanwhile(o.sent, o.number), Change: o.change, Links: s.links(nil),
	}
	if base, v, err := s.base(); err == nil {
		form.Links = s.links(v.rec)
		g, _ := base.Ledger() // which is joined
		addLabels(&form, g, o.packs)
		if o.said == nil {
			form.Said = s.wordsOf(v, o.number)
		}
	}
	form.Doings = slices.Concat(o.next, undoings(o.number, o.change), []page.Doing{{To: "/", Label: "Back to the larder"}})
	if all, _ := folder.LastChanges(s.Dir, 0); folder.TakenBack(all)[o.number] {
		form.Title, form.Labels = "Saved, and undone since", nil
		form.Said = []string{"What was saved here was taken back: the list of changes says when."}
		form.Doings = []page.Doing{{To: "/changes", Label: "The list of changes"}, {To: "/", Label: "Back to the larder"}}
	}
	s.show(w, http.StatusOK, form)
}

// addLabels shows what the labels of packs will say, with the sheets to print.
func addLabels(form *page.Form, g *ledger.Ledger, packs []string) {
	if len(packs) == 0 {
		return
	}
	if labels, err := report.Labels(g, figures.LabelQuery{Packs: packs}); err == nil { // else a pack is gone since
		form.Labels = page.LabelPreviews(labels)
	}
}

// undoings are the buttons of a change that was saved: to take it back, and to
// correct what it recorded, where it is more than taken out or a setting.
func undoings(number int, change []page.Changed) []page.Doing {
	n := strconv.Itoa(number)
	list := []page.Doing{{To: "/undo", Label: "Undo", Send: []page.Hidden{{Name: "once", Value: newMark()}, {Name: "number", Value: n}}}}
	if slices.ContainsFunc(change, func(c page.Changed) bool { return len(c.Added) > 0 && c.File != ledger.SettingsFile }) {
		list = append(list, page.Doing{To: "/change/" + n, Label: "Change"})
	}
	return list
}
