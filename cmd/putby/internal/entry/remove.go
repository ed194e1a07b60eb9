package entry

import (
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// Remove is the draft that takes records out, with what is of no use without them:
// a run's phases, loads and meter log, the hourly prices of a tariff, the shelf prices
// that lines of a receipt told of. Before is the ledger with them, nil where it has
// faults: then what they came to is not said.
func Remove(rec *ledger.Records, before *ledger.Ledger, k ledger.Kind, list []Record) *Draft {
	d := &Draft{}
	written := make([]report.Written, len(list))
	for i, r := range list {
		d.Sets = append(d.Sets, Set{Kind: k, Line: r.Line, Was: r.Cells, Gone: true})
		written[i] = report.Written{Kind: k.Name, At: r.At}
	}
	d.FollowShelf(rec)
	d.taken = func(after *ledger.Ledger) []string {
		if before == nil {
			return nil
		}
		said := report.TakenBack(before, after, written)
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
