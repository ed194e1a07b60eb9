package report

import (
	"cmp"
	"fmt"

	"putby/ledger"
)

// LeftOut notes which records of later days a ledger leaves out; it is empty
// where it has none.
func LeftOut(g *ledger.Ledger) []string {
	list := g.LeftOut()
	if len(list) == 0 {
		return nil
	}
	first, day := list[0], g.Settings.Show().Date
	what := fmt.Sprintf("%s of %s (%s line %d)", datedName(first), day(first.Date), first.File, first.Line)
	if len(list) == 1 {
		return []string{fmt.Sprintf("1 record is of a day after %s and is left out: %s", day(g.Day()), what)}
	}
	return []string{fmt.Sprintf("%s records are of days after %s and are left out, the first is %s", phrasingOf(&g.Settings).count(len(list)), day(g.Day()), what)}
}

// datedName names a record in a sentence.
func datedName(d ledger.Dated) string {
	switch name := cmp.Or(d.Name, "something"); d.Kind {
	case "price", "draw", "count":
		return "the " + d.Kind + " of " + name
	default:
		return d.Kind + " " + name
	}
}
