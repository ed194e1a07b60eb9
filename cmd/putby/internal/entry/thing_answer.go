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
	Kind string // of any other: food or supply, which is recorded, or service or other
	ID   string // of a new one; "": its name
	As   string // of a new food what it is counted in, of a new supply its kind
}

// newColumns say what else a new thing needs.
var newColumns = map[string]string{"food": "basis", "supply": "kind"}

// New is the kind of records and the column that a new thing needs; false: it is to be
// no record.
func (a *Answer) New() (ledger.Kind, *ledger.Column, bool) {
	column, ok := newColumns[a.Kind]
	if !ok {
		return ledger.Kind{}, nil, false
	}
	k := ledger.MustKind(a.Kind)
	return k, k.Column(column), true
}

// AddAnswer adds an answer: what shops call a thing is kept as a name, a new thing is
// recorded with the receipt.
func (in *ReceiptIn) AddAnswer(a Answer) {
	k, c, isNew := a.New()
	if !isNew {
		in.New = append(in.New, intake.Name{Name: a.Name, Item: a.Item, Kind: a.Kind})
		return
	}
	cells := map[string]string{k.Name: a.Name, c.Name: a.As}
	if a.ID != "" {
		cells[k.Name], cells["name"] = a.ID, a.Name
	}
	in.Things = append(in.Things, Row{k, cells})
}
