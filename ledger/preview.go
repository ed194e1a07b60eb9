package ledger

import "slices"

// With returns the records with one more of a kind, from its cells by column;
// rec is not changed. The faults are those of the cells.
func (rec *Records) With(k Kind, cells map[string]string) (*Records, Faults) {
	more := *rec
	for _, clip := range []func(){
		func() { more.Foods = slices.Clip(more.Foods) }, func() { more.Supplies = slices.Clip(more.Supplies) },
		func() { more.Machines = slices.Clip(more.Machines) }, func() { more.Wattage = slices.Clip(more.Wattage) },
		func() { more.Tariffs = slices.Clip(more.Tariffs) }, func() { more.Holidays = slices.Clip(more.Holidays) },
		func() { more.Receipts = slices.Clip(more.Receipts) }, func() { more.Shelf = slices.Clip(more.Shelf) },
		func() { more.Batches = slices.Clip(more.Batches) }, func() { more.Runs = slices.Clip(more.Runs) },
		func() { more.Phases = slices.Clip(more.Phases) }, func() { more.Loads = slices.Clip(more.Loads) },
		func() { more.Packs = slices.Clip(more.Packs) }, func() { more.Draws = slices.Clip(more.Draws) },
		func() { more.Counts = slices.Clip(more.Counts) },
	} {
		clip()
	}
	header := make([]string, len(k.Columns))
	row := make([]string, len(k.Columns))
	for i, c := range k.Columns {
		header[i], row[i] = c.Name, cells[c.Name]
	}
	r, faults := k.Read(&more, Context{Zone: rec.Settings.Zone}, header)
	if faults != nil {
		return rec, faults
	}
	return &more, slices.Clone(r.Row(0, row))
}
