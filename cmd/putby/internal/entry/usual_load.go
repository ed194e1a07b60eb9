package entry

import (
	"time"

	"putby/ledger"
	"putby/ledger/figures"
)

// UsualLoad offers what is to be dried next, as the day's screen does: of the
// food in hand that is dried in a machine and has not turned, what turns first
// and is in time, up to what the machine takes; "" where there is nothing. Of a
// machine that nobody knows it is what any dries.
func UsualLoad(g *ledger.Ledger, machine string, now time.Time) string {
	m, known := g.FindMachine(machine)
	w, ok := figures.FirstToDry(g, now, func(in int) bool { return !known || in == m })
	if !ok {
		return ""
	}
	f := &g.Foods[w.Food]
	amount := w.Quantity
	if known {
		amount = amount.Min(g.Machines[m].Capacity(f).Most.Or(amount))
	}
	return g.Settings.Show().Typeable(amount, f.Basis) + " " + f.ID
}
