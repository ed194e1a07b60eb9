package entry

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// FindRecords finds the records that words tell, among all of a kind: by identifier, or
// the number in it; by what they name, in any case; by their day; the last one.
// Several words narrow the choice. Of receipts it is all lines of those that fit,
// or with the name of a thing the lines of that thing. None at all is no error.
//
// The last one is that of the latest day. Newest, which may be nil, tells by their lines
// which of some records were saved last, as far as that is known: where that one is not
// among them it is returned as saved.
func FindRecords(rec *ledger.Records, at Moment, k ledger.Kind, list []Record, words []string, newest func([]int) []int) (found []Record, saved *Record) {
	p := narrowing{kind: k, names: NewItemNames(rec, nil), behind: foodsBehind(rec), left: list}
	var phrase []string
	last := false
	// Days and "last" may stand anywhere; what else is said is names, word by word.
	for len(words) > 0 {
		day, n := p.day(at, words)
		w, dated := words[0], n > 0
		words = words[max(n, 1):]
		switch {
		case strings.EqualFold(w, "last"):
			last = true
		case dated:
			if !p.keep(func(r *Record) bool { return p.dayOf(r) == day }) {
				return nil, nil
			}
		case !slices.Contains([]string{"of", "from", "the", "on"}, strings.ToLower(w)):
			phrase = append(phrase, w)
		}
	}
	// A name may have several words: the longest beginning that tells any record is taken, then the rest.
	for rest := strings.Fields(strings.Join(phrase, " ")); len(rest) > 0; {
		n := len(rest)
		for n > 0 && !p.narrow(strings.Join(rest[:n], " ")) {
			n--
		}
		if n == 0 {
			return nil, nil
		}
		rest = rest[n:]
	}
	if last && len(p.left) > 0 {
		saved = p.last(newest)
	}
	return p.left, saved
}

// A narrowing is records from which fewer and fewer are left.
type narrowing struct {
	kind  ledger.Kind
	names *ItemNames
	left  []Record

	behind map[string][]string // the foods of packs and runs, by identifier
}

func (p *narrowing) keep(fits func(*Record) bool) bool {
	list := slices.DeleteFunc(slices.Clone(p.left), func(r Record) bool { return !fits(&r) })
	if len(list) == 0 {
		return false
	}
	p.left = list
	return true
}

// narrow keeps the records that text tells, in the first way in which any fit.
func (p *narrowing) narrow(text string) bool {
	id, key := text, ledger.Fold(text)
	if k, ok := p.names.Find(text); ok && k.Item != "" {
		id = k.Item
	}
	own := func(r *Record) string {
		if len(p.kind.Key) == 0 {
			return ""
		}
		return strings.TrimSpace(r.Cells[p.kind.Key[0]])
	}
	return p.keep(func(r *Record) bool { return own(r) == text }) ||
		p.keep(func(r *Record) bool { return own(r) != "" && (own(r) == id || ledger.Fold(own(r)) == key) }) ||
		p.keep(func(r *Record) bool { return numbered(own(r), text) }) ||
		p.keep(func(r *Record) bool {
			for i := range p.kind.Columns {
				c := &p.kind.Columns[i]
				cell := r.Cells[c.Name]
				if cell == "" || !tells(c) {
					continue
				}
				// What is of a food itself is not told by the foods of its run.
				if cell == id || ledger.Fold(cell) == key || r.Cells["item"] == "" && slices.Contains(p.behind[cell], id) {
					return true
				}
			}
			return false
		})
}

// foodsBehind are the foods of packs and runs, by which what names one of these
// may be told.
func foodsBehind(rec *ledger.Records) map[string][]string {
	foods := map[string][]string{}
	for _, p := range rec.Packs.All() {
		foods[p.ID] = []string{p.Item}
	}
	for _, l := range rec.Loads.All() {
		foods[l.Run] = append(foods[l.Run], l.Item)
	}
	return foods
}

// tells reports whether a column's cells are what a person may name a record by.
func tells(c *ledger.Column) bool {
	return c.Names != nil || c.Words != nil || c.Cell == ledger.TextCell || c.Cell == ledger.NameCell
}

// numbered reports whether an identifier ends in a number that was typed alone.
func numbered(id, text string) bool {
	stem, digits := counted(id)
	return digits != "" && stem != "" && strings.TrimLeft(digits, "0") == strings.TrimLeft(text, "0") && strings.Trim(text, "0123456789") == ""
}

// day reads words at the front that are a day, where records of the kind have one,
// and returns how many they are.
func (p *narrowing) day(at Moment, words []string) (day exact.Date, n int) {
	for n := min(len(words), 4); n > 0 && p.kind.Happens(); n-- { // Sun Nov 16, 2025
		if day, err := exact.ParseDate(at.datedWhole(strings.Join(words[:n], " "))); err == nil {
			return day, n
		}
	}
	return exact.NoDate, 0
}

// dayOf is when a record happened.
func (p *narrowing) dayOf(r *Record) exact.Date {
	for i := range p.kind.Columns {
		if day, ok := dayOf(&p.kind.Columns[i], r.Cells[p.kind.Columns[i].Name]); ok {
			return day
		}
	}
	return exact.NoDate
}

// last keeps the record of the latest day, of one day the last in the file; of a
// receipt all lines that are left. Saved is the one that was saved last, where that is
// another.
func (p *narrowing) last(newest func([]int) []int) (saved *Record) {
	one := p.latest(p.left)
	if end := p.left[len(p.left)-1]; newest != nil && !p.same(one, end) { // what is saved stands at the end
		var lines []int
		for _, r := range p.left {
			lines = append(lines, r.Line)
		}
		lines = newest(lines)
		list := slices.DeleteFunc(slices.Clone(p.left), func(r Record) bool { return !slices.Contains(lines, r.Line) })
		if len(list) > 0 && !slices.ContainsFunc(list, func(r Record) bool { return p.same(r, one) }) {
			other := p.latest(list)
			saved = &other
		}
	}
	p.keep(func(r *Record) bool { return p.same(*r, one) })
	return saved
}

// latest is the record of the latest day, of one day the last in the file.
func (p *narrowing) latest(list []Record) Record {
	best := 0
	for i := range list {
		if p.dayOf(&list[i]) >= p.dayOf(&list[best]) {
			best = i
		}
	}
	return list[best]
}

// same reports whether two are one record, or lines of one receipt.
func (p *narrowing) same(a, b Record) bool {
	return a.Line == b.Line || p.kind.Name == "receipt" && a.Cells["receipt"] == b.Cells["receipt"]
}
