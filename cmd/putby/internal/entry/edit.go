package entry

import (
	"maps"
	"slices"

	"putby/ledger"
	"putby/ledger/report"
)

// ReceiptHead are the columns that all lines of a receipt share.
var ReceiptHead = []string{"receipt", "date", "shop"}

// shared reports whether cells are those that all lines of a receipt share.
func shared(cells map[string]string) bool {
	for name := range cells {
		if !slices.Contains(ReceiptHead, name) {
			return false
		}
	}
	return true
}

// Edit is the draft that changes cells of records, with what goes with them: what the
// lines of a receipt share is changed on all of them that are given, as the first has
// it, a line that comes to be of another kind names what its words call, and the shelf
// prices that they told of follow. A record of which nothing changes
// is left out.
func Edit(rec *ledger.Records, sets []Set) *Draft {
	heads := map[string]map[string]string{} // of each receipt, what its first line is given, by its identifier
	d := &Draft{}
	for _, s := range sets {
		if s.Kind.Name == "receipt" {
			s.Cells = maps.Clone(s.Cells)
			head := heads[s.Was["receipt"]]
			if head == nil {
				head = maps.Clone(s.Cells)
				maps.DeleteFunc(head, func(column, _ string) bool { return !slices.Contains(ReceiptHead, column) })
				heads[s.Was["receipt"]] = head
			}
			maps.Copy(s.Cells, head)
			if _, said := s.Cells["item"]; s.Cells["kind"] != "" && !said { // it was free text
				if id, ok := ledger.Meant(s.Was["item"], slices.Concat(rec.NamedFoods(), rec.NamedSupplies(), rec.NamedMachines())); ok && id != s.Was["item"] {
					s.Cells["item"] = id
				}
			}
		}
		if len(s.Cells) > 0 {
			d.Sets = append(d.Sets, s)
		}
	}
	d.Advise = func(g *ledger.Ledger) []report.Remark { return MoistAfter(g, d.Sets) }
	d.FollowShelf(rec)
	return d
}

// MoistAfter are the cautions of the packs that are not dry after cells of records were
// changed, each once.
func MoistAfter(g *ledger.Ledger, sets []Set) (said []report.Remark) {
	for _, s := range sets {
		said = report.Once(said, report.MoistAfter(g, s.Kind.Name, s.Was, s.Cells)...)
	}
	return said
}
