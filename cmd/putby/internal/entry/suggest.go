package entry

import (
	"iter"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// An offer is what is likely to be in a record's cells, by column.
type offer = map[string]string

// Suggest offers what a new record of a kind is likely to hold besides the
// cells that it has already. Why says where that comes from, as in "as pack
// c44-a"; it may be empty.
func (b *Base) Suggest(k ledger.Kind, cells map[string]string) (o map[string]string, why string) {
	rec, at := b.Records, b.At
	o = offer{"date": at.Today.String()}
	day := at.Day(cells["date"])
	switch k.Name {
	case "price":
		why = suggestPrice(o, rec, cells)
	case "run":
		o["machine"] = usualMachine(rec)
		if _, last := daysOf(rec, at.Today); last == exact.NoDate || last.AddDays(keptUp) >= at.Today {
			o["start"] = at.Now.Format("2006-01-02 15:04")
		}
		start, _, _ := strings.Cut(cells["start"], " ")
		o["run"] = NextRun(rec, at.Day(start))
	case "batch":
		why = suggestBatch(o, rec, cells, day)
	case "pack":
		why = b.suggestPack(o, cells, day)
	case "wattage":
		o["machine"] = usualMachine(rec)
	case "tariff", "holiday":
		delete(o, "date")
		o["tariff"] = rec.Settings.Tariff
	case "phase":
		o["run"] = lastRun(rec)
		o["step"] = strconv.Itoa(nextStep(rec, given(cells, o, "run")))
	case "load":
		o["run"] = lastRun(rec)
	case "draw":
		if cells["pack"] != "" {
			o["quantity"] = "1"
		}
		o["reason"] = ledger.Used.String()
	}
	return o, why
}

// keptUp is for how many days after the last record a run is likely to be of
// today. Whoever enters older ones must say when they were: no offer is as likely
// as another.
const keptUp = 14

// given is a cell, or else what is offered for it.
func given(cells, o map[string]string, column string) string {
	if text, ok := cells[column]; ok {
		return text
	}
	return o[column]
}

// suggestPrice offers what the shop asked for the item last, or else any.
func suggestPrice(o offer, rec *ledger.Records, cells map[string]string) (why string) {
	if n := len(rec.Shelf); n > 0 {
		o["shop"] = rec.Shelf[n-1].Shop
	}
	o["terms"] = pricing.Regular.String()
	last := latest(slices.All(rec.Shelf), func(s *ledger.ShelfRow) (exact.Date, int) {
		return s.Date, rank(s.Item == cells["item"], s.Shop == given(cells, o, "shop"))
	})
	if last == nil {
		return ""
	}
	o["size"], o["price"] = last.Size.String(), moneyText(rec, last.Price)
	return "as " + last.Shop + " on " + rec.Settings.Show().Date(last.Date)
}

// latest returns the record of the highest rank and of those the latest, the
// last in file order on one day; nil when all have rank 0.
func latest[R any](all iter.Seq2[int, R], rank func(*R) (exact.Date, int)) *R {
	var best R
	day, most := exact.NoDate, 0
	for _, record := range all {
		if d, r := rank(&record); r > most || r > 0 && r == most && d >= day {
			best, day, most = record, d, r
		}
	}
	if most == 0 {
		return nil
	}
	return &best
}

// rank is that of a record for [latest]: 0 where it does not fit, and more where it is
// the likelier.
func rank(fits, likelier bool) int {
	switch {
	case !fits:
		return 0
	case likelier:
		return 2
	}
	return 1
}

// moneyText writes an amount as a receipt has it: 2.80, not 2.8.
func moneyText(rec *ledger.Records, m exact.Money) string {
	return m.Fixed(max(rec.Settings.Currency.Minor(), m.Number().Places()))
}

// LastBought returns the size and price at which something was bought last: in
// that shop, or else anywhere; and of a food never bought, what a shelf asks.
func LastBought(rec *ledger.Records, shop, item string) (size, price, why string) {
	row := latest(rec.Receipts.All(), func(r *ledger.ReceiptRow) (exact.Date, int) {
		return r.Date, rank(r.Item == item && r.Kind.Bought(), r.Shop == shop)
	})
	if row != nil {
		if row.Size.Sign() > 0 {
			size = row.Size.String()
		}
		return size, moneyText(rec, row.Price), "as " + row.Shop + " on " + rec.Settings.Show().Date(row.Date)
	}
	o := offer{}
	why = suggestPrice(o, rec, map[string]string{"shop": shop, "item": item})
	return o["size"], o["price"], why
}

// suggestBatch offers what the last batch of the food took, and how much it
// made.
func suggestBatch(o offer, rec *ledger.Records, cells map[string]string, day exact.Date) (why string) {
	o["batch"] = NextBatch(rec, cells["item"], day)
	last := latest(slices.All(rec.Batches), func(b *ledger.Batch) (exact.Date, int) {
		return b.Date, rank(b.Item == cells["item"], false)
	})
	if last == nil {
		return ""
	}
	o["quantity"], o["from"] = last.Quantity.String(), partsText(last.From)
	if !last.Cost.IsZero() {
		o["cost"] = moneyText(rec, last.Cost)
	}
	return "as batch " + last.ID
}

func partsText(parts []ledger.Part) string {
	var list []string
	for _, p := range parts {
		list = append(list, p.Quantity.String()+" "+p.Item)
	}
	return strings.Join(list, ", ")
}

// usesText writes supplies as a `with` cell has them.
func usesText(uses []ledger.Use) string {
	var list []string
	for _, u := range uses {
		list = append(list, u.Number.String()+" "+u.Supply)
	}
	return strings.Join(list, ", ")
}

// usualMachine is that of the last run, or the only one.
func usualMachine(rec *ledger.Records) string {
	if n := len(rec.Runs); n > 0 {
		return rec.Runs[n-1].Machine
	}
	if len(rec.Machines) == 1 {
		return rec.Machines[0].ID
	}
	return ""
}

// NextRun names a run that starts on a day.
func NextRun(rec *ledger.Records, day exact.Date) string {
	var list []Named
	rec.EachRun(func(id string, day exact.Date) { list = append(list, Named{id, day}) })
	return Next(list, day, "run-")
}

func lastRun(rec *ledger.Records) string {
	if n := len(rec.Runs); n > 0 {
		return rec.Runs[n-1].ID
	}
	return ""
}

func nextStep(rec *ledger.Records, run string) (step int) {
	for _, p := range rec.Phases.All() {
		if p.Run == run {
			step = max(step, int(p.Step))
		}
	}
	return step + 1
}

// UsualPhases are the phases of the machine's last run that has some, of one
// with the same food if there is one, in the form of [ParsePhase].
func UsualPhases(rec *ledger.Records, machine string, foods []string) []string {
	phases := map[string][]string{}
	for _, p := range rec.Phases.All() {
		phases[p.Run] = append(phases[p.Run], p.Phase.String()+" "+exact.FormatDuration(p.Length))
	}
	alike := map[string]bool{}
	for _, l := range rec.Loads.All() {
		if slices.Contains(foods, l.Item) {
			alike[l.Run] = true
		}
	}
	run := latest(slices.All(rec.Runs), func(r *ledger.Run) (exact.Date, int) {
		return exact.DateIn(r.Start), rank(r.Machine == machine && phases[r.ID] != nil, alike[r.ID])
	})
	if run == nil {
		return nil
	}
	return phases[run.ID]
}

// LastShop is the shop of the latest receipt.
func LastShop(rec *ledger.Records) string {
	last := latest(rec.Receipts.All(), func(r *ledger.ReceiptRow) (exact.Date, int) {
		return r.Date, rank(r.Shop != "", false)
	})
	if last == nil {
		return ""
	}
	return last.Shop
}
