package entry

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
)

// A SuppliesIn is a supply that was bought, as a person types it.
type SuppliesIn struct {
	Supply string            // of those that the ledger has; "": a new one
	New    map[string]string // its cells of supplies.csv
	Bought map[string]string // receipt, date, shop, count, size, price, note
}

// BuySupplies records a receipt of one supply, and the supply itself where it is
// new.
func BuySupplies(b *Base, in SuppliesIn) (*Draft, error) {
	d := &Draft{}
	var bad Wrongs
	item, err := b.supplyOf(in, d)
	bad.add("supply", 0, err)
	if err == nil {
		rec, _ := withRows(b.Records, d.Rows)
		line := maps.Clone(in.Bought)
		line["kind"], line["item"], line["line"] = ledger.SupplyLine.String(), item, "1"
		err = b.With(rec).buy(line, d)
	} else { // what is wrong with the rest is told too
		rest := maps.Clone(in.Bought)
		rest["kind"], rest["line"] = ledger.OtherLine.String(), "1"
		err = b.buy(rest, &Draft{})
	}
	bad.add("", 0, err)
	if err := bad.Err(); err != nil {
		return nil, err
	}
	return d, nil
}

// buy adds a receipt of one line.
func (b *Base) buy(line map[string]string, d *Draft) error {
	k := ledger.MustKind("receipt")
	line = b.At.typedCells(b.Records, k, line)
	blanks(line)
	if line["date"] == "" {
		line["date"] = b.At.Today.String()
	}
	if line["receipt"] == "" || b.Taken(k, line["receipt"]) {
		line["receipt"] = NextReceipt(b.Records, line["shop"], b.At.Day(line["date"]))
	}
	var bad Wrongs
	for i := range k.Columns {
		c := &k.Columns[i]
		err := b.CheckCell(k, c, line[c.Name])
		if err == nil && line[c.Name] == "" && slices.Contains([]string{"shop", "price"}, c.Name) {
			err = typed("", "this cannot be left blank")
		}
		bad.add(c.Name, 0, err)
	}
	d.Rows = append(d.Rows, Row{k, line})
	return bad.Err()
}

// supplyOf is the supply that was bought; a new one it adds.
func (b *Base) supplyOf(in SuppliesIn, d *Draft) (id string, err error) {
	if strings.TrimSpace(in.Supply) != "" {
		return one("supply", in.Supply, b.Records.NamedSupplies())
	}
	k := ledger.MustKind("supply")
	cells := maps.Clone(in.New)
	blanks(cells)
	if len(cells) == 0 {
		return "", typed("", "say what was bought: choose one of those that there are, or give a new one")
	}
	if cells["supply"] == "" {
		name := cmp.Or(cells["name"], cells["kind"]+" "+cells["capacity"])
		cells["supply"] = freeSlug(name, k.Column("supply").Known(b.Records))
	}
	added, err := Add(b, k, cells)
	if err != nil {
		return "", err
	}
	d.Rows, d.Notes = append(d.Rows, added.Rows...), append(d.Notes, added.Notes...)
	return added.Rows[0].Cells["supply"], nil
}
