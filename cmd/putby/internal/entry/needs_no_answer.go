package entry

import "putby/ledger"

// NeedsNoAnswer reports whether an offer for a column is taken without asking anybody,
// where a record with the given cells lacks it.
func NeedsNoAnswer(c *ledger.Column, rec *ledger.Records, cells map[string]string) bool {
	switch c.Default {
	case ledger.NoDefault:
		return false
	case ledger.Only: // the only machine; the only food of a run
		if c.Names[0] == ledger.Foods {
			return len(rec.Loads.Distinct(func(l *ledger.Load) string {
				if l.Run != cells["run"] {
					return ""
				}
				return l.Item
			})) == 1
		}
		return len(c.Known(rec)) == 1
	case ledger.AsUsual: // what the packs of the run's food are like
		return cells["run"] != ""
	}
	return true
}
