package entry

import (
	"fmt"
	"maps"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A Base is a ledger in which something is to be recorded, free of faults.
type Base struct {
	Records *ledger.Records
	At      Moment

	joined *ledger.Ledger
	hand   *ledger.Ledger // joined for what is in hand alone
}

// NewBase is the ledger of records at a moment.
func NewBase(rec *ledger.Records, at Moment) *Base { return &Base{Records: rec, At: at} }

// NewJoined is a ledger whose records are joined already.
func NewJoined(g *ledger.Ledger, at Moment) *Base {
	return &Base{Records: g.Records, At: at, joined: g}
}

// Ledger is all records joined, once for as often as it is asked for. Its error
// is a [*folder.Refusal] with the faults that they have already.
func (b *Base) Ledger() (*ledger.Ledger, error) {
	return b.join(&b.joined, ledger.Options{})
}

// join joins the records, unless in has them joined already.
func (b *Base) join(in **ledger.Ledger, o ledger.Options) (*ledger.Ledger, error) {
	if *in != nil {
		return *in, nil
	}
	g, faults := ledger.Join(b.Records, o)
	if len(faults) > 0 {
		return nil, &folder.Refusal{Faults: faults, Already: true}
	}
	*in = g
	return g, nil
}

// Hand is [Base.Ledger] for callers that ask only what is in hand and in store: without
// what anything was drawn from and cost.
func (b *Base) Hand() (*ledger.Ledger, error) {
	if b.joined != nil {
		return b.joined, nil
	}
	return b.join(&b.hand, ledger.Options{Bare: true})
}

// Store is what is in store of some foods, and of the foods of some packs: the
// ledger where it is joined already, else [ledger.StoreOf]. Faults it does not say.
func (b *Base) Store(foods, packs []string) *ledger.Ledger {
	if b.joined != nil {
		return b.joined
	}
	for _, p := range b.Records.Packs.All() {
		if slices.Contains(packs, p.ID) && !slices.Contains(foods, p.Item) {
			foods = append(foods, p.Item)
		}
	}
	return ledger.StoreOf(b.Records, foods...)
}

// InHand is what is in store and in hand of foods and supplies: the ledger where it
// is joined already, else [ledger.HandOf]. Faults it does not say.
func (b *Base) InHand(items ...string) *ledger.Ledger {
	if b.joined != nil {
		return b.joined
	}
	return ledger.HandOf(b.Records, exact.NoDate, items...)
}

// InHandOn is [Base.InHand] at the end of a day; nil where no record is of a later
// one.
func (b *Base) InHandOn(day exact.Date, items ...string) *ledger.Ledger {
	if ledger.LastDate(b.Records) <= day {
		return nil
	}
	return ledger.HandOf(b.Records, day, items...)
}

// say says how something is done, and part how a part of it is said alone.
func (b *Base) say(act advice.Act, of ...string) string {
	return b.Records.Settings.Say(advice.Do(act, of...))
}

func (b *Base) part(name string, value ...string) string {
	return b.Records.Settings.Say(advice.Only(name, value...))
}

// An Act makes the draft of something that was done: the same for a command, a
// dialogue and a form. It asks nobody, and writes nothing.
type Act func(*Base) (*Draft, error)

// A Draft is what is about to be recorded, and what to know of it.
type Draft struct {
	Rows []Row // to be added, in order
	Sets []Set // cells to be changed

	Names []intake.Name // what shops call things, to be kept
	File  *File         // that is written beside the records; nil: none

	Notes  []string                             // what to know before it is saved
	Heed   []report.Remark                      // and what to heed
	Odd    []string                             // what is asked about where a person can be, and said otherwise, as [LookAgain] says it
	Advise func(*ledger.Ledger) []report.Remark // what to know of it, by the ledger as it is with the draft; may be nil
	After  []report.Remark                      // what to heed once it is saved
	Next   []advice.Doing                       // what may be wanted next

	told func(after *ledger.Ledger) []string // what it comes to, where that is more than what its records come to; may be nil
	of   string                              // the one record that it changes or takes out; "": of several things
}

// A File is one of a ledger's that holds no records: prices by the hour, the log of a
// meter.
type File struct {
	Name string
	Text func(have []byte) ([]byte, error) // what it is to hold; have is what it holds, nil where it is not there
}

func (f *File) write(tx *folder.Tx) error {
	text, err := tx.ReadFile(f.Name)
	if err != nil {
		return err
	}
	if text, err = f.Text(text); err != nil {
		return err
	}
	return tx.WriteFile(f.Name, text)
}

// A Set is cells of a record that is there, to be changed: the record by its
// identifier, or by the line of its file where it has none; the cells by column,
// "" to make one blank.
type Set struct {
	Kind  ledger.Kind
	ID    string
	Line  int  // where it has none
	Gone  bool // the record is taken out
	Cells map[string]string
	Was   map[string]string // what the record held when it was read, of one by its identifier what is vetted; nil: whatever it held
}

// now is what the record is to hold.
func (s *Set) now() map[string]string {
	cells := maps.Clone(s.Was)
	maps.Copy(cells, s.Cells)
	return cells
}

// Change records a draft.
func (d *Draft) Change(tx *folder.Tx) error {
	for i := range d.Sets {
		if err := d.Sets[i].change(tx); err != nil {
			return err
		}
	}
	for _, row := range d.Rows {
		if err := tx.Append(row.Kind, row.Cells); err != nil {
			return err
		}
	}
	if d.File != nil {
		if err := d.File.write(tx); err != nil {
			return err
		}
	}
	return KeepNames(tx, d.Names)
}

func (s *Set) change(tx *folder.Tx) (err error) {
	if s.Line > 0 {
		if s.Line, err = s.found(tx); err != nil {
			return err
		}
		if s.Gone {
			return s.strike(tx)
		}
		return tx.Replace(s.Kind, s.Line, s.Cells)
	}
	own := s.own()
	for line, cells := range tx.RowsWith(s.Kind, s.ID) {
		if cells[own] == s.ID {
			return tx.Replace(s.Kind, line, s.Cells)
		}
	}
	if s.setting() {
		return tx.Append(s.Kind, map[string]string{"setting": s.ID, "value": s.Cells["value"]})
	}
	return fmt.Errorf("the ledger has no %s %s any more", s.Kind.Name, s.ID)
}

// Setting sets a setting, which need not be there.
func Setting(name, value string) Set {
	return Set{Kind: ledger.SettingsKind(), ID: name, Cells: map[string]string{"value": value}}
}

// SettingFault says what is wrong with the value of a setting, as records have it; nil
// where nothing is.
func SettingFault(name, value string) error {
	k := ledger.SettingsKind()
	r, _ := ledger.ReadSettings(&ledger.Records{}, k.Header())
	if faults := r.Row(1, []string{name, value}); len(faults) > 0 {
		return FaultText(&faults[0])
	}
	return nil
}

func (s Set) setting() bool { return s.Kind.Name == ledger.SettingsKind().Name }

// ChangedMeanwhile says that a record is no longer as it was when it was read.
func ChangedMeanwhile(k ledger.Kind) error {
	return &ledger.Fault{Kind: folder.ErrChanged, What: "somebody has changed this " + k.Name + " meanwhile, or taken it out",
		Hint: "look it up in the list of changes, and correct it as it is now"}
}

// found is the line of a record that is told by its line, wherever it stands now.
func (s Set) found(tx *folder.Tx) (int, error) {
	if s.Was == nil {
		return s.Line, nil
	}
	if there, err := tx.Row(s.Kind, s.Line); err == nil && sameCells(s.Was, there) {
		return s.Line, nil
	}
	for line, cells := range tx.Rows(s.Kind) {
		if sameCells(s.Was, cells) {
			return line, nil
		}
	}
	return s.Line, ChangedMeanwhile(s.Kind)
}

// sameCells reports whether two records hold the same; a column that is not there
// is blank.
func sameCells(a, b map[string]string) bool {
	for _, side := range [][2]map[string]string{{a, b}, {b, a}} {
		for column, text := range side[0] {
			if side[1][column] != text {
				return false
			}
		}
	}
	return true
}

// own is the column of the identifiers of the kind's records.
func (s Set) own() string {
	i := slices.IndexFunc(s.Kind.Columns, func(c ledger.Column) bool { return c.Own })
	return s.Kind.Columns[i].Name
}

// placesOf are the places of a record that is changed: of a line of a receipt, where it is
// the first that is, those of all its lines, which come to one sum.
func (d *Draft) placesOf(rec *ledger.Records, s Set) (list []report.Written) {
	if s.Kind.Name != "receipt" {
		return []report.Written{{Kind: s.Kind.Name, At: s.Kind.AtLine(rec, s.Line)}}
	}
	first := slices.IndexFunc(d.Sets, func(o Set) bool {
		return o.Kind.Name == s.Kind.Name && o.Line > 0 && o.now()["receipt"] == s.now()["receipt"]
	})
	if d.Sets[first].Line != s.Line {
		return nil
	}
	for i, r := range rec.Receipts.All() {
		if r.Receipt == s.now()["receipt"] {
			list = append(list, report.Written{Kind: s.Kind.Name, At: i})
		}
	}
	return list
}

// Said says what a draft comes to in the ledger as it is with it, and what to
// know of it; nil where nothing can be said of one of its records.
func (d *Draft) Said(g *ledger.Ledger) (said []string, know []report.Remark) {
	if said = d.comesTo(g); said != nil && d.Advise != nil {
		know = d.Advise(g)
	}
	return said, know
}

// Lines are [Draft.Said] as lines.
func (d *Draft) Lines(g *ledger.Ledger) []string {
	said, know := d.Said(g)
	return append(said, report.Lines(know)...)
}

func (d *Draft) comesTo(g *ledger.Ledger) []string {
	if d.told != nil {
		return d.told(g)
	}
	var list []report.Written
	var settings []string
	for _, s := range d.Sets {
		if s.Gone { // a shelf price
			continue
		}
		if s.setting() {
			settings = append(settings, settingIs(&g.Settings, s.ID, s.Cells["value"])+".")
			continue
		}
		if s.Line > 0 {
			list = append(list, d.placesOf(g.Records, s)...)
			continue
		}
		things := s.Kind.Column(s.own()).Names
		list = append(list, report.Written{Kind: s.Kind.Name, At: slices.Index(things[0].In(g.Records), s.ID)})
	}
	return append(report.Saved(g, append(list, Written(g.Records, d.Rows)...)), settings...)
}
