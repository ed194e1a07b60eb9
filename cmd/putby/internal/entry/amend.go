package entry

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
	"putby/pricing/locale"
)

// An Amending makes the draft of a change of records that are there. Others may have
// faults, which it may mend: the saving says which are left.
type Amending func(*folder.Book, *Base) (*Draft, error)

// Amend is the draft of an act by the ledger's zone and currency, which are refused where
// they have faults. Other faults the act may mend.
func (act Act) Amend(book *folder.Book, b *Base) (*Draft, error) {
	if s := &b.Records.Settings; s.Zone == nil || s.Currency.Code() == "" {
		_, faults := book.Records()
		return nil, &folder.Refusal{Faults: faults, Already: true}
	}
	return act(b)
}

// Amend changes cells, as a person types them, of the record that is meant, or those
// that all lines of a receipt share. A setting that is not there yet is set.
func (r *RecordRef) Amend(said map[string]string) Amending {
	return func(book *folder.Book, b *Base) (*Draft, error) {
		cells, err := r.readCells(b, said)
		if err == nil {
			err = b.undated(r.Kind, cells)
		}
		if err != nil {
			return nil, err
		}
		found, _, err := r.find(book, b)
		setting := r.Kind.Name == ledger.SettingsKind().Name
		switch {
		case err != nil && setting && slices.Contains(r.Kind.Column("setting").Words, r.Words[0]):
			d := &Draft{Sets: []Set{Setting(r.Words[0], cells["value"])}}
			d.told = func(*ledger.Ledger) []string {
				return []string{settingSentence(b.At.Locale, r.Words[0], "", cells["value"])}
			}
			return d, nil
		case err != nil:
			return nil, err
		case len(found) > 1 && !(oneReceipt(r.Kind, found) && shared(cells)):
			return nil, r.ambiguous(found, r.say(b))
		}
		sets := make([]Set, len(found))
		for i, o := range found {
			sets[i] = Set{Kind: r.Kind, Line: o.Line, Cells: cells, Was: o.Cells} // by which an edit by others meanwhile is noticed
		}
		d := Edit(b.Records, sets)
		d.of = labelOf(b.At, r.Kind, found[0])
		d.tellChange(b, found, cells)
		return d, nil
	}
}

// readCells reads cells as a person types them.
func (r *RecordRef) readCells(b *Base, cells map[string]string) (map[string]string, error) {
	value, given := cells["value"]
	if !given || r.Kind.Name != ledger.SettingsKind().Name {
		return b.At.ReadCells(b.Records, r.Kind, cells)
	}
	cells = maps.Clone(cells)
	var err error
	if cells["value"], err = b.At.ReadSetting(b.Records, r.Words[0], value); err != nil {
		return nil, &ledger.Fault{Kind: ErrTyped, What: err.Error(), Hint: seeHelp}
	}
	return cells, nil
}

// undated is what is wrong with the days and moments among cells, and how they are typed.
func (b *Base) undated(k ledger.Kind, cells map[string]string) error {
	var bad Wrongs
	for i := range k.Columns {
		c := &k.Columns[i]
		if cells[c.Name] == "" || c.Cell != ledger.DateCell && c.Cell != ledger.MomentCell {
			continue
		}
		if f := b.CellFault(k, c, cells[c.Name]); f != nil {
			bad.add(c.Name, 0, &ledger.Fault{Kind: ErrTyped, What: f.What, Hint: f.Hint})
		}
	}
	return bad.Err()
}

// tellChange has a draft tell what the records came to and come to with it, and which
// cells of the first are new.
func (d *Draft) tellChange(b *Base, found []Record, cells map[string]string) {
	k, was, list := d.Sets[0].Kind, found[0].Cells, writtenOf(d.Sets[0].Kind, found)
	shelf := d.Notes
	d.Notes, d.told = nil, func(g *ledger.Ledger) []string {
		if k.Name == ledger.SettingsKind().Name {
			return []string{settingSentence(b.At.Locale, was["setting"], was["value"], cells["value"])}
		}
		now := report.Saved(g, list)
		if now == nil {
			return nil
		}
		said := now
		if before, err := b.Ledger(); err == nil {
			if came := report.Saved(before, list); came != nil && !slices.Equal(came, now) {
				said = slices.Concat([]string{"Was:"}, came, []string{"Is now:"}, now)
			}
		}
		return slices.Concat(said, cellSentences(b.At.Locale, k, was, cells), shelf)
	}
}

func writtenOf(k ledger.Kind, found []Record) []report.Written {
	list := make([]report.Written, len(found))
	for i, o := range found {
		list[i] = report.Written{Kind: k.Name, At: o.At}
	}
	return list
}

// settingSentence says what a setting is now and was.
func settingSentence(l locale.Locale, name, before, now string) string {
	c, known := SettingColumn(name)
	if !known {
		c = &ledger.Column{}
	}
	return fmt.Sprintf("Setting %s is now %s (before: %s).", name, cellText(l, c, now), cellText(l, c, before))
}

// settingIs says what a setting is, by what a form calls it.
func settingIs(s *ledger.Settings, name, value string) string {
	c, known := SettingColumn(name)
	if !known {
		c = &ledger.Column{Label: name}
	}
	return "Setting " + c.Label + ": " + settingText(s, c, value)
}

// settingText is the value of a setting in a sentence, money with its currency.
func settingText(s *ledger.Settings, c *ledger.Column, value string) string {
	if c.Cell == ledger.MoneyCell && value != "" {
		return s.Locale.Money(value, s.Currency)
	}
	return cellText(s.Locale, c, value)
}

// cellSentences say what those cells of a record are now that were something else.
func cellSentences(l locale.Locale, k ledger.Kind, before, now map[string]string) (said []string) {
	for _, name := range k.Header() {
		if cell, given := now[name]; given && cell != before[name] {
			c := k.Column(name)
			said = append(said, fmt.Sprintf("Its %s: now %s (before: %s).", name, cellText(l, c, cell), cellText(l, c, before[name])))
		}
	}
	return said
}

// cellText is a cell in a sentence.
func cellText(l locale.Locale, c *ledger.Column, text string) string {
	return cmp.Or(InSentence(l, c, text), "blank")
}

// Refused is the refusal of a draft, told by what names the records that it takes out,
// or by the record that stays as it was; any other error as it is.
func (d *Draft) Refused(book *folder.Book, err error) error {
	refusal := (*folder.Refusal)(nil)
	if !errors.As(err, &refusal) || refusal.Already {
		return err
	}
	if used := d.inUse(book, refusal.Faults); used != nil {
		return used
	}
	if d.of == "" {
		return err
	}
	return &folder.Refusal{Faults: refusal.Faults, Stays: d.of}
}
