package serve

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger/folder"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// changesShown is how many changes are listed at once.
const changesShown = 30

// lastChange is the number of the last change of the ledger; 0: none.
func (s *server) lastChange() int {
	n, _ := folder.LastNumber(s.Dir)
	return n
}

// whoOf says who made a change: a form by its title, a command as it was typed.
func whoOf(command string) string {
	path, form := strings.CutPrefix(command, "serve: ")
	if !form {
		return "putby " + command
	}
	if f, ok := named(path); ok {
		return f.title
	}
	return path
}

// meanwhile tells what was saved since a form was shown, and before it was itself.
func (s *server) meanwhile(form url.Values, own int) (said []string) {
	seen, err := strconv.Atoi(form.Get("seen"))
	if err != nil {
		return nil
	}
	list, err := folder.LastChanges(s.Dir, changesShown)
	if err != nil {
		return nil
	}
	v, err := s.kept.state()
	if err != nil {
		return nil
	}
	from := s.reader(v)
	for _, c := range list {
		if c.Number > seen && c.Number < own {
			said = append(said, strings.Join(append([]string{headOf(&c) + "."}, v.tell(&c, from)...), " "))
		}
	}
	return said
}

// headOf is what a change is called.
func headOf(c *folder.Change) string {
	switch c.Kind {
	case folder.Created:
		return "The ledger was made"
	case folder.Undone:
		return fmt.Sprintf("Change %d undone", c.Of)
	case folder.Redone:
		return fmt.Sprintf("Change %d done again", c.Of)
	case folder.Damaged:
		return fmt.Sprintf("Change %d: its record is damaged, so it cannot be undone", c.Number)
	}
	return fmt.Sprintf("Change %d: %s", c.Number, whoOf(c.Command))
}

// wordsOf says what a change recorded, of what is still as it left it.
func (s *server) wordsOf(v *state, number int) []string {
	c, err := folder.ChangeOf(s.Dir, number)
	if err != nil || c == nil {
		return nil
	}
	return v.tell(c, s.reader(v))
}

// tell says what a change recorded, of what is still as it left it: nothing yet of
// what was saved since.
func (v *state) tell(c *folder.Change, from *filesReader) []string {
	g, err := v.join(exact.NoDate, exact.NoDate)
	if err != nil {
		return nil
	}
	v.mu.Lock()
	said, known := v.told[c.Number]
	v.mu.Unlock()
	if known {
		return said
	}
	var list []report.Written
	whole := true
	for _, kept := range recordsOf(c, from) {
		at := kept.kind.AtLine(g.Records, kept.Line)
		if whole = whole && at >= 0; at >= 0 {
			list = append(list, report.Written{Kind: kept.kind.Name, At: at})
		}
	}
	said = append(flat(report.Saved(g, list)), entry.SettingsSaid(&g.Settings, c)...)
	// Kept only where it will stay so: every record of it is there, in files that are those of the state.
	if whole && !from.later {
		v.mu.Lock()
		defer v.mu.Unlock()
		v.told[c.Number] = said
	}
	return said
}

// showChanges lists the last changes, the newest first, each with a button that
// takes it back.
func (s *server) showChanges(w http.ResponseWriter, r *http.Request) {
	form := page.Form{Title: "Changes", Intro: "Everything that was saved, the newest first. Undoing is a change too, and can be done again.", Links: s.links(nil), Beside: []page.Link{{To: "/records", Name: "All records"}}}
	status := http.StatusOK
	if sent, ok := s.forms.kept(r.URL.Query().Get("form")); ok && sent.err != nil {
		form.Trouble, form.Refused, status = troubles(sent.err), "Nothing was changed", http.StatusUnprocessableEntity
	}
	list, err := folder.LastChanges(s.Dir, 0)
	if err != nil {
		form.Trouble = append(form.Trouble, troubles(err)...)
		s.show(w, http.StatusUnprocessableEntity, form)
		return
	}
	_, v, err := s.base()
	if err != nil { // an undo may be what mends it
		form.Trouble, status = append(form.Trouble, troubles(err)...), http.StatusUnprocessableEntity
	} else {
		form.Links = s.links(v.rec)
	}
	if n, err := strconv.Atoi(r.URL.Query().Get("done")); err == nil {
		if i, there := placeOf(list, n); there {
			form.Said = []string{headOf(&list[i]) + "."}
		}
	}
	gone := folder.TakenBack(list) // which takes all changes: an undo may be of any before it
	end := len(list)
	if n, err := strconv.Atoi(r.URL.Query().Get("before")); err == nil && n > 0 {
		end, _ = placeOf(list, n)
	}
	first := max(0, end-changesShown)
	from := s.reader(v)
	for i := end - 1; i >= first; i-- {
		form.List = append(form.List, s.item(v, &list[i], gone, i == len(list)-1, from))
	}
	form.Links = append(form.Links, otherChanges(list, first, end)...)
	if form.List == nil {
		form.Said = []string{"Putby has changed nothing yet."}
	}
	s.show(w, status, form)
}

// otherChanges lead to those before and behind the ones that are listed.
func otherChanges(list []folder.Change, first, end int) (links []page.Link) {
	before := func(i int, name string) {
		to := "/changes"
		if i < len(list) {
			to += fmt.Sprintf("?before=%d", list[i].Number)
		}
		links = append(links, page.Link{To: to, Name: name})
	}
	if first > 0 {
		before(first, "Older changes")
	}
	if end < len(list) {
		before(end+changesShown, "Newer changes")
	}
	return links
}

// placeOf is where a change stands among those there are, which need not be all, and
// whether it is one of them.
func placeOf(list []folder.Change, number int) (int, bool) {
	return slices.BinarySearchFunc(list, number, func(c folder.Change, n int) int { return c.Number - n })
}

// item is a change in the list.
func (s *server) item(v *state, c *folder.Change, gone map[int]bool, last bool, from *filesReader) page.Item {
	// By the server's own clock where the ledger's zone cannot be read.
	item := page.Item{Title: headOf(c), When: c.Time.Local().Format("Mon 2006-01-02 15:04"), Change: outcomeOf(*c).change}
	if v != nil {
		at := c.Time.In(v.rec.Settings.Zone)
		item.When = at.Format("Mon ") + v.rec.Settings.Show().Date(exact.DateIn(at)) + at.Format(" 15:04")
	}
	n := page.Hidden{Name: "number", Value: strconv.Itoa(c.Number)}
	once := page.Hidden{Name: "once", Value: newMark()}
	switch {
	case c.Kind == folder.Created:
		item.Change = nil
	case c.Kind == folder.Damaged:
		item.When = ""
	case c.Kind == folder.Undone:
		if last {
			item.Doings = []page.Doing{{To: "/redo", Label: fmt.Sprintf("Do change %d again", c.Of), Send: []page.Hidden{once, n}}}
		}
	case gone[c.Number]:
		item.Title += " (undone)"
	case c.Kind == folder.Redone:
	default:
		if v != nil {
			item.Said = v.tell(c, from)
		}
		item.Doings = undoings(c.Number, item.Change)
		for i, label := range []string{"Undo change %d", "Correct change %d"}[:len(item.Doings)] {
			item.Doings[i].Label = fmt.Sprintf(label, c.Number)
		}
	}
	return item
}
