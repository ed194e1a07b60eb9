package entry

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Record is a record as its file has it.
type Record struct {
	Line  int // at which it begins
	At    int // its position among those of its kind
	Cells map[string]string
}

// A Ref is what a person says of a record that is to be changed or taken out.
type Ref struct {
	Kind  string
	Words []string // which one: an identifier, names, a day, last
	Sets  []string // COLUMN=VALUE
}

// ParseRef reads the words of a command: "receipt last shop=Marrow", "the last
// receipt", "run 48".
func ParseRef(args []string) Ref {
	var r Ref
	var words []string
	for i, arg := range args {
		column, _, set := strings.Cut(arg, "=")
		switch {
		case set && strings.Trim(column, "abcdefghijklmnopqrstuvwxyz_0123456789") == "":
			r.Sets = append(r.Sets, arg)
		case i == 0 && strings.Contains(arg, " "):
			words = append(words, strings.Fields(arg)...)
		default:
			words = append(words, arg)
		}
	}
	last := false
	for len(words) > 1 && slices.Contains([]string{"the", "my", "last"}, strings.ToLower(words[0])) {
		last = last || strings.EqualFold(words[0], "last")
		words = words[1:]
	}
	if len(words) > 0 {
		r.Kind, r.Words = words[0], words[1:]
	}
	if last {
		r.Words = append(slices.Clone(r.Words), "last")
	}
	return r
}

// Pick finds the records that words tell, among all of a kind: by identifier, or
// the number in it; by what they name, in any case; by their day; the last one.
// Several words narrow the choice. Of receipts it is all lines of those that fit,
// or with the name of a thing the lines of that thing. None at all is no error.
//
// The last one is that of the latest day. Newest, which may be nil, tells which of some
// records were saved last, as far as that is known: where that one is not among them the
// error is a [*TwoLastError].
func Pick(rec *ledger.Records, at Moment, k ledger.Kind, list []Record, words []string, newest func([]Record) []Record) ([]Record, error) {
	p := narrowing{kind: k, names: NewLexicon(rec, nil), behind: foodsBehind(rec), left: list}
	var phrase []string
	last := false
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
		if err := p.last(newest); err != nil {
			return nil, err
		}
	}
	return p.left, nil
}

// A TwoLastError says that the record that was saved last is not that of the latest
// day.
type TwoLastError struct{ Saved, Latest Record }

// Error says so.
func (e *TwoLastError) Error() string { return "what was saved last is not of the latest day" }

// A narrowing is records from which fewer and fewer are left.
type narrowing struct {
	kind  ledger.Kind
	names *Lexicon
	left  []Record

	behind map[string][]string // the foods of packs and runs, by identifier
}

func (p *narrowing) keep(fits func(*Record) bool) bool {
	var list []Record
	for i := range p.left {
		if fits(&p.left[i]) {
			list = append(list, p.left[i])
		}
	}
	if list == nil {
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
	for i := range rec.Packs.Len() {
		foods[rec.Packs.At(i).ID] = []string{rec.Packs.At(i).Item}
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
// receipt all lines that are left.
func (p *narrowing) last(newest func([]Record) []Record) error {
	one := p.latest(p.left)
	if end := p.left[len(p.left)-1]; newest != nil && !p.same(one, end) { // what is saved stands at the end
		saved := newest(p.left)
		if len(saved) > 0 && !slices.ContainsFunc(saved, func(r Record) bool { return p.same(r, one) }) {
			return &TwoLastError{p.latest(saved), one}
		}
	}
	p.keep(func(r *Record) bool { return p.same(*r, one) })
	return nil
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

// typedCells reads cells of a record as a person types them.
func (m Moment) typedCells(rec *ledger.Records, k ledger.Kind, cells map[string]string) map[string]string {
	typed := map[string]string{}
	for name, text := range cells {
		typed[name] = m.Typed(rec, k.Column(name), text)
	}
	return typed
}

// ReadCells is typedCells for cells that nobody was asked about yet: it refuses
// those that can be read in two ways.
func (m Moment) ReadCells(rec *ledger.Records, k ledger.Kind, cells map[string]string) (map[string]string, error) {
	for _, name := range slices.Sorted(maps.Keys(cells)) {
		if err := AskedOf(rec, k.Column(name), cells[name]); err != nil {
			return nil, typed("", name+": "+err.Error())
		}
	}
	return m.typedCells(rec, k, cells), nil
}

// AskedOf is [TwoWays] for a cell of a column, which may hold words alone.
func AskedOf(rec *ledger.Records, c *ledger.Column, text string) error {
	if !Figures(c) {
		return nil
	}
	return TwoWays(rec.Settings.Locale, text)
}

// SettingColumn is what a setting holds, if there is one of that name.
func SettingColumn(name string) (*ledger.Column, bool) {
	columns := ledger.SettingColumns()
	at := slices.IndexFunc(columns, func(c ledger.Column) bool { return c.Name == name })
	if at < 0 {
		return nil, false
	}
	return &columns[at], true
}

// ReadSetting reads the value of a setting as a person types it, and refuses one
// that can be read in two ways.
func (m Moment) ReadSetting(rec *ledger.Records, name, value string) (string, error) {
	c, known := SettingColumn(name)
	if !known {
		return value, nil
	}
	if c.Cell == ledger.ListCell { // numbers, one or twelve
		return Native(rec.Settings.Locale, value), TwoWays(rec.Settings.Locale, value)
	}
	return m.Typed(rec, c, value), AskedOf(rec, c, value)
}

// Shared reports whether cells are those that all lines of a receipt share.
func Shared(k ledger.Kind, cells map[string]string) bool {
	for name := range cells {
		if k.Name != "receipt" || !slices.Contains(ReceiptHead, name) {
			return false
		}
	}
	return true
}

// An AmbiguousError says that several records are meant, and by what each is told.
type AmbiguousError struct {
	What    string
	Choices []Choice
	More    int // besides them
}

// A Choice is one of them, in words, with the command for it.
type Choice struct{ What, Command string }

// Error says what is not clear.
func (e *AmbiguousError) Error() string { return e.What }

// mostChoices is how many are told.
const mostChoices = 6

// Ambiguous lists the records that are left, the last first. Of several receipts
// it lists each once. Say tells a record in words, command gives the command that
// names it so.
func Ambiguous(k ledger.Kind, left []Record, say func(Record) string, command func(name string) string) *AmbiguousError {
	if k.Name == "receipt" {
		if heads := headsOf(left); len(heads) > 1 {
			left = heads
		}
	}
	whole := k.Name == "receipt" && len(headsOf(left)) == len(left)
	many := k.Name + "s"
	if k.Name == "receipt" && !whole {
		many = "lines of it"
	}
	e := &AmbiguousError{What: fmt.Sprintf("%d %s may be meant; say which:", len(left), many)}
	for _, r := range slices.Backward(left) {
		if len(e.Choices) == mostChoices {
			e.More = len(left) - mostChoices
			break
		}
		e.Choices = append(e.Choices, Choice{say(r), command(NameOf(k, r, whole))})
	}
	return e
}

// headsOf are the first lines of receipts.
func headsOf(list []Record) (heads []Record) {
	seen := map[string]bool{}
	for _, r := range list {
		if id := r.Cells["receipt"]; !seen[id] {
			seen[id] = true
			heads = append(heads, r)
		}
	}
	return heads
}

// NameOf is the shortest name that tells a record: its identifier, with its part
// where it has one, or the line of its file.
func NameOf(k ledger.Kind, r Record, whole bool) string {
	var parts []string
	for i, column := range k.Key {
		part := strings.TrimSpace(r.Cells[column])
		if part == "" || whole && i > 0 {
			break
		}
		parts = append(parts, part)
	}
	if len(parts) == 0 || len(parts) < len(k.Key) && !whole {
		return fmt.Sprintf("@%d", r.Line)
	}
	return strings.Join(parts, ":")
}
