package entry

import (
	"slices"

	"putby/ledger"
	"putby/ledger/report"
)

// Vet holds a draft against the calendar and the household's own records: its rows
// as [Vet] does, and the cells that it changes just so.
func (d *Draft) Vet(b *Base) (Verdict, error) {
	changed := d.changed()
	if err := b.At.Ahead(slices.Concat(d.Rows, changed)); err != nil {
		return Verdict{}, err
	}
	if err := b.notedAlready(d.Rows); err != nil {
		return Verdict{}, err
	}
	v, err := Vet(b.Records, d.Rows, b.At)
	v.lookAgain(longPast(b.Records, changed, b.At))
	was, now := d.beforeAndAfter(b.Records)
	v.lookAgain(report.ImplausibleChanges(b.Records, was, now))
	v.lookAgain(nowTwice(b.Records, was, now))
	v.lookAgain(packedTooMuch(b, was, now))
	v.Notes = slices.Concat(v.Notes, leftOut(changed, b.At), report.Remarks(d.Notes...), d.Heed)
	v.lookAgain(d.Odd)
	return v, err
}

// changed are the cells of records that come to hold something else.
func (d *Draft) changed() (list []Row) {
	for _, s := range d.Sets {
		cells := map[string]string{}
		for column, text := range s.Cells {
			if was, known := s.Was[column]; !known || was != text {
				cells[column] = text
			}
		}
		list = append(list, Row{s.Kind, cells})
	}
	return list
}

// beforeAndAfter are the records that a draft changes as they are and as they are to
// be, as far as it tells what they hold; with them the phases that it adds.
func (d *Draft) beforeAndAfter(rec *ledger.Records) (was, now *ledger.Records) {
	was, now = &ledger.Records{Settings: rec.Settings}, &ledger.Records{Settings: rec.Settings}
	for i := range d.Sets {
		s := &d.Sets[i]
		if s.Was == nil || s.Gone || s.setting() {
			continue
		}
		line := s.lineIn(rec)
		if after := s.now(); readInto(&ledger.Records{Settings: rec.Settings}, s.Kind, line, after) && readInto(was, s.Kind, line, s.Was) {
			readInto(now, s.Kind, line, after)
		}
	}
	for _, row := range d.Rows {
		if row.Kind.Name == "phase" {
			readInto(now, row.Kind, 0, row.Cells)
		}
	}
	return was, now
}

// lineIn is the line of the record that is to be changed; 0 where there is none.
func (s *Set) lineIn(rec *ledger.Records) int {
	if s.Line > 0 {
		return s.Line
	}
	at := slices.Index(s.Kind.Column(s.own()).Names[0].In(rec), s.ID)
	for line := range s.Kind.Lines(rec) {
		if at--; at < 0 {
			return line
		}
	}
	return 0
}

// readInto reads a record from its cells, and reports whether that can be done.
func readInto(rec *ledger.Records, k ledger.Kind, line int, cells map[string]string) bool {
	header := k.Header()
	row := make([]string, len(header))
	for i, column := range header {
		row[i] = cells[column]
	}
	trial := &ledger.Records{Settings: rec.Settings}
	for _, into := range []*ledger.Records{trial, rec} {
		r, faults := k.Read(into, rec.Settings.Zone, header)
		if len(faults) > 0 || len(r.Row(line, row)) > 0 {
			return false
		}
	}
	return true
}

// nowTwice tells of a receipt that comes to be as one that is there.
func nowTwice(rec, was, now *ledger.Records) (odd []string) {
	for _, id := range was.Receipts.Distinct(func(r *ledger.ReceiptRow) string { return r.Receipt }) {
		if f := twice(rec, whole(rec, now, id), id); f != nil && twice(rec, whole(rec, was, id), id) == nil {
			odd = append(odd, f.What)
		}
	}
	return odd
}

// whole are the lines of a receipt, some of them as part has them.
func whole(rec, part *ledger.Records, id string) (rows []ledger.ReceiptRow) {
	k := ledger.MustKind("receipt")
	for _, r := range rec.Receipts.All() {
		if r.Receipt != id {
			continue
		}
		if at := k.AtLine(part, r.Line); at >= 0 {
			r = part.Receipts.At(at)
		}
		rows = append(rows, r)
	}
	return rows
}
