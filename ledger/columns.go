package ledger

import (
	"time"

	"putby/pricing/exact"
)

// This file holds single columns of packed records, for callers that go through
// all of them: to make whole records takes several times as long.

// countAt is the count of a receipt's row.
func (rec *Records) countAt(row int32) exact.Number {
	r := &rec.Receipts.rows[row]
	return rec.Receipts.store.number(r.count, r.countForm)
}

// loadedFood is the food of a load.
func (rec *Records) loadedFood(row int32) string {
	return rec.Loads.store.text(rec.Loads.rows[row].item)
}

// ReceiptDate is the date of a receipt's row.
func (rec *Records) ReceiptDate(row int) exact.Date { return rec.Receipts.rows[row].date }

// PackDate is the day on which a pack was packed.
func (rec *Records) PackDate(pack int) exact.Date { return rec.Packs.rows[pack].date }

// PackItem is the food that a pack's row names.
func (rec *Records) PackItem(pack int) string {
	return rec.Packs.store.text(rec.Packs.rows[pack].item)
}

// packWith are the supplies of each container of a pack.
func (rec *Records) packWith(pack int32) []Use {
	return of(rec.Packs.store.uses, rec.Packs.rows[pack].with)
}

// packEach is what a container of a pack makes.
func (rec *Records) packEach(pack int32) exact.Quantity {
	p := &rec.Packs.rows[pack]
	return rec.Packs.store.amount(p.each, p.eachForm)
}

// phaseLength is how long a phase took.
func (rec *Records) phaseLength(row int32) time.Duration { return rec.Phases.rows[row].length }

// distinctTexts is [List.Distinct] of a column of texts.
func distinctTexts[R any, C compact[R, C]](list *List[R, C], column func(*C) textAt) []string {
	var texts []string
	var last textAt
	seen := map[string]bool{}
	for i := range list.rows {
		at := column(&list.rows[i])
		if at == 0 || at == last {
			continue
		}
		last = at
		if text := list.store.text(at); text != "" && !seen[text] {
			seen[text] = true
			texts = append(texts, text)
		}
	}
	return texts
}
