package report

import (
	"putby/ledger"
	"putby/ledger/figures"
)

// Proof shows the identities of the ledger at its date. Its error is
// [figures.ErrUnbalanced] when one does not hold.
func Proof(g *ledger.Ledger) (Doc, error) {
	d := newDoc(g, "Proof")
	identities, err := figures.Proof(g)
	for _, identity := range identities {
		d.Fields = append(d.Fields, field(identity.Name, identityTitles[identity.Name], identityTable(identity)))
	}
	holds := err == nil
	if holds {
		d.Words = []string{"No faults. " + phrasingOf(&g.Settings).dated("As of ", g.AsOf, " the", "The") + " books balance to the last digit."}
	}
	d.Fields = append([]Field{{Key: "as_of", Node: DateOf(g.AsOf)}, {Key: "balanced", Node: YesNoOf(holds)}}, d.Fields...)
	return d, err
}

var identityTitles = map[string]string{
	"lots":  "What was bought, and where it is",
	"packs": "What was put into runs, and where it is",
}

// identityTable sets the two sides side by side, with all digits.
func identityTable(i ledger.Identity) *Table {
	t := &Table{Columns: []Column{{Key: "side", Title: "side"}, {Key: "what", Title: "what"}, {Key: "amount", Title: "amount"}}}
	for _, side := range []struct {
		name string
		sums ledger.Balance
	}{{"in", i.In}, {"out", i.Out}} {
		for _, s := range side.sums {
			t.add(TextOf(side.name), TextOf(s.Name), PostedOf(s.Amount))
		}
		t.Totals = append(t.Totals, Row{Cells: []Value{TextOf(side.name), TextOf("sum"), PostedOf(side.sums.Total())}})
	}
	return t
}
