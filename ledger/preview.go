package ledger

import (
	"slices"
	"time"
)

// With returns the records with one more of a kind, from its cells by column;
// rec is not changed. The faults are those of the cells.
func (rec *Records) With(k Kind, cells map[string]string) (*Records, Faults) {
	more := *rec
	k.Clip(&more)
	if faults := k.readCells(&more, rec.Settings.Zone, cells); faults != nil {
		return rec, faults
	}
	return &more, nil
}

// Clipped returns the records in lists without room, so that adding to them leaves
// those of rec alone.
func (rec *Records) Clipped() *Records {
	c := *rec
	for _, k := range kinds() {
		k.list(&c).clip()
	}
	return &c
}

// CellFault returns what is wrong with the text of one cell of a record, or
// nil: that it cannot be read, or is blank and may not be. Whether what it
// names is in the ledger is not looked at.
func (k Kind) CellFault(zone *time.Location, column, text string) *Fault {
	for _, f := range k.readCells(new(Records), zone, map[string]string{column: text}) {
		if f.Field == column {
			return &f
		}
	}
	return nil
}

// readCells reads one record into rec, and returns its faults.
func (k Kind) readCells(rec *Records, zone *time.Location, cells map[string]string) Faults {
	header := k.Header()
	row := make([]string, len(header))
	for i, name := range header {
		row[i] = cells[name]
	}
	r, faults := k.Read(rec, zone, header)
	if faults != nil {
		return faults
	}
	return slices.Clone(r.Row(0, row))
}
