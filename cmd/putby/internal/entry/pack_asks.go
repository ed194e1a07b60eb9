package entry

import (
	"errors"
	"strings"

	"putby/ledger"
	"putby/ledger/report"
)

// PackAsks is what a person who packs is asked for.
type PackAsks struct {
	Lines   []string         // what is left of the run, as its foods are usually packed
	Columns []*ledger.Column // that neither lines nor the ledger tell
}

// packKnows are the columns of a pack that its lines say, or that the ledger
// tells.
const packKnows = " run item date count each dry with place pack "

// AsksOfPacks finds the run that is packed, and what is worth asking for; ok is
// false where none awaits packing, so that the pack is opening stock.
func (b *Base) AsksOfPacks(cells map[string]string) (asks PackAsks, ok bool, err error) {
	g, err := b.Ledger()
	if err != nil {
		return asks, false, err
	}
	if _, opening := cells["cost"]; opening {
		return asks, false, nil
	}
	p := packing{b: b, g: g, rec: b.Records, common: cells, draft: &Draft{}}
	r := &packRow{cells: map[string]string{}, run: -1}
	for _, column := range []string{"run", "item"} {
		if text, said := cells[column]; said {
			r.cells[column] = text
		}
	}
	if err := p.findItem(r); err != nil {
		return asks, false, err
	}
	err = p.findRun(r)
	if r.run < 0 {
		if errors.Is(err, ErrLacks) { // nothing awaits packing, which is no mistake here
			err = nil
		}
		return asks, false, err
	}
	if g.Records.Runs[r.run].Running {
		return asks, false, err
	}
	for i := range g.Runs[r.run].Items {
		item := &g.Runs[r.run].Items[i]
		if item.ToPack() && (cells["item"] == "" || r.cells["item"] == g.Foods[item.Food].ID) {
			asks.Lines = append(asks.Lines, p.leftOf(item))
		}
	}
	for _, c := range ledger.MustKind("pack").Asked() {
		if _, said := cells[c.Name]; !said && !strings.Contains(packKnows, " "+c.Name+" ") {
			asks.Columns = append(asks.Columns, c)
		}
	}
	return asks, true, nil
}

// leftOf is a line that packs what is left of a run's food, without what was
// said of it already.
func (p *packing) leftOf(item *ledger.ItemCost) string {
	text := report.PackWord(p.g, item, 0)
	if _, said := p.common["each"]; said {
		text, _, _ = strings.Cut(text, " x ")
	}
	if _, said := p.common["item"]; said {
		text = strings.TrimPrefix(text, p.g.Foods[item.Food].ID+" ")
	}
	return text
}

// Unsaid is the first food of packs of which nobody said what goes with a
// container, and that was never packed before.
func (d *Draft) Unsaid() (line int, food string, ok bool) {
	for i, row := range d.Rows {
		if _, said := row.Cells["with"]; !said && row.Cells["run"] != "" {
			return i, row.Cells["item"], true
		}
	}
	return 0, "", false
}
