package main

import (
	"time"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// A standing is a ledger as its files have it, and the day at which a report on
// it stands.
type standing struct {
	dir    string
	rec    *ledger.Records
	faults ledger.Faults
	at     entry.Moment // of that day
	day    exact.Date
	begins time.Time // see [entry.Moment.Begins]
}

// stand reads the ledger, and the day of --as-of.
func (a *app) stand(asOf string) (*standing, error) { return a.standIn(a.ledgerDir(), asOf) }

// standIn reads the ledger in a folder, and the day of --as-of, which is one of its
// own zone.
func (a *app) standIn(dir, asOf string) (*standing, error) {
	rec, faults, err := folder.Read(dir)
	if err != nil {
		return nil, err
	}
	a.write(&rec.Settings)
	at := entry.At(rec, a.now())
	day, err := at.Standing(asOf)
	if err != nil {
		return nil, question.OptionFault("as-of", "write it as today, yesterday or a date such as 2025-02-28", "%v", err)
	}
	return &standing{dir, rec, faults, at.On(day), day, at.Begins(asOf, &rec.Settings)}, nil
}

// byDay joins what happened by the day.
func (s *standing) byDay(o ledger.Options) (*ledger.Ledger, error) {
	o.Through, o.PricesThrough = s.day, s.day
	return s.join(o)
}

// wholeRuns joins all records, for reports on runs begun by the day: whenever
// they were packed, all their packs count.
func (s *standing) wholeRuns(o ledger.Options) (*ledger.Ledger, error) {
	o.Through, o.PricesThrough = exact.NoDate, s.day
	return s.join(o)
}

func (s *standing) join(o ledger.Options) (*ledger.Ledger, error) {
	o.Read = s.faults
	g, faults := ledger.Join(s.rec, o)
	folder.Locate(s.dir, faults)
	return g, faults.Err()
}

// withLeftOut adds a note on the records that a report leaves out.
func withLeftOut(g *ledger.Ledger, d reports.Doc) reports.Doc {
	d.Notes = append(reports.LeftOut(g), d.Notes...)
	return d
}
