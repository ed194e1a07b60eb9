package entry

import (
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// Remove takes out the record that is meant, all lines of a receipt, or all parts of
// what is named by its identifier.
func (r *RecordRef) Remove(book *folder.Book, b *Base) (*Draft, error) {
	found, named, err := r.find(book, b)
	switch {
	case err != nil:
		return nil, err
	case len(found) > 1 && !named && !oneReceipt(r.Kind, found):
		return nil, r.ambiguous(found, r.say(b))
	}
	d := Remove(b, r.Kind, found)
	shelf, told := d.Notes, d.told
	d.Notes, d.told = nil, func(after *ledger.Ledger) []string {
		if r.Kind.Name == ledger.SettingsKind().Name {
			return []string{settingSentence(b.At.Locale, found[0].Cells["setting"], found[0].Cells["value"], "")}
		}
		return append(told(after), shelf...)
	}
	return d, nil
}

// Remove is the draft that takes records out, with what is of no use without them:
// a run's phases, loads and meter log, the hourly prices of a tariff, the shelf prices
// that lines of a receipt told of. Where the ledger has faults, what they came to is not
// said.
func Remove(b *Base, k ledger.Kind, list []Record) *Draft {
	d := &Draft{of: labelOf(b.At, k, list[0])}
	for _, r := range list {
		d.Sets = append(d.Sets, Set{Kind: k, Line: r.Line, Was: r.Cells, Gone: true})
	}
	d.FollowShelf(b.Records)
	d.told = func(after *ledger.Ledger) []string {
		before, err := b.Ledger()
		if err != nil {
			return nil
		}
		said := report.TakenBack(before, after, writtenOf(k, list))
		if len(said) > 0 {
			said = append([]string{"Taken out:"}, said...)
		}
		return said
	}
	return d
}

// strike takes the record out, with what is of no use without it.
func (s *Set) strike(tx *folder.Tx) error {
	cells, err := tx.Row(s.Kind, s.Line)
	if err != nil {
		return err
	}
	if err := tx.Strike(s.Kind, s.Line); err != nil {
		return err
	}
	switch s.Kind.Name {
	case "run":
		return removeParts(tx, cells["run"])
	case "tariff":
		return removeRates(tx, s.Kind, cells["tariff"])
	}
	return nil
}

// removeParts takes out a run's phases, loads and meter log.
func removeParts(tx *folder.Tx, run string) error {
	for _, part := range []string{"phase", "load"} {
		kind := ledger.MustKind(part)
		for line, cells := range tx.Rows(kind) {
			if cells["run"] == run {
				if err := tx.Strike(kind, line); err != nil {
					return err
				}
			}
		}
	}
	return tx.RemoveFile(ledger.MeterFolder + "/" + run + ".csv")
}

// removeRates takes out the hourly prices of a tariff of which no band is left.
func removeRates(tx *folder.Tx, k ledger.Kind, name string) error {
	for _, cells := range tx.Rows(k) {
		if cells["tariff"] == name {
			return nil
		}
	}
	if ledger.CheckID(name) != nil {
		return nil
	}
	return tx.RemoveFile(ledger.RatesFile(name))
}
