package entry

import (
	"putby/ledger"
	"putby/ledger/intake"
)

// An Answer says what a thing on a receipt is that nothing was called by: a thing
// that the ledger has, a new one, or spending only.
type Answer struct {
	Name string // as it was typed
	Item string // the identifier of a thing that the ledger has, or ""
	New  string // food or supply, or ""
	As   string // of a new food what it is counted in, of a new supply its kind
}

// Learn takes answers: what shops call a thing is kept as a name, a new thing is
// recorded with the receipt.
func (in *ReceiptIn) Learn(answers []Answer) {
	for _, a := range answers {
		switch {
		case a.Item != "":
			in.New = append(in.New, intake.Name{Name: a.Name, Item: a.Item})
		case a.New == "":
			in.New = append(in.New, intake.Name{Name: a.Name, Kind: ledger.OtherLine.String()})
		default:
			in.Things = append(in.Things, a.thing())
		}
	}
}

// thing is the record of a new food or supply.
func (a *Answer) thing() Row {
	k := ledger.MustKind(a.New)
	column := map[string]string{"food": "basis", "supply": "kind"}[a.New]
	cells := map[string]string{k.Name: a.Name, column: a.As}
	if ledger.CheckID(a.Name) != nil {
		cells[k.Name], cells["name"] = Slug(a.Name), a.Name
	}
	return Row{k, cells}
}
