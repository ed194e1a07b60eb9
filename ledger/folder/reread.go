package folder

import (
	"maps"
	"strings"

	"putby/ledger"
)

// reread returns the records and faults of a ledger with a staged change: what
// [parse] does of all its files, but reading only those that changed, and of one
// that rows were added to only those rows. The records share their lists with
// the Book's, which end before what is added. Picked are the texts of an excerpt of
// files that an edit changed within.
func (b *Book) reread(s *staged, picked map[string]string) (*ledger.Records, ledger.Faults) {
	for _, f := range s.change.Files {
		if f.Name == ledger.SettingsFile || len(b.faults) > 0 {
			return parse(s.files, keepTexts) // cells are read by settings, and faults are counted anew
		}
	}
	rec := *b.records
	rec.Meters, rec.Rates = maps.Clone(rec.Meters), maps.Clone(rec.Rates)
	var faults ledger.Faults
	for _, f := range s.change.Files {
		if !isRecords(f.Name) {
			continue
		}
		text, from := s.files.texts[f.Name], f.addedAt(b.files.texts[f.Name])
		if few, ok := picked[f.Name]; ok {
			text = few
		}
		if k, ok := ledger.KindOf(f.Name); ok && from == 0 {
			k.Clear(&rec)
		}
		keep, found := parseRecords(f.Name, text, from, &rec)
		keep(&rec)
		faults = append(faults, found...)
	}
	faults.Sort()
	return &rec, faults
}

// addedAt returns where rows were added at the end of a text, or 0 where
// anything else was changed in it.
func (f FileChange) addedAt(before string) int {
	if len(f.Hunks) != 1 || f.Hunks[0].Removed != "" || f.Hunks[0].At != len(before) || strings.TrimSpace(strings.TrimPrefix(before, mark)) == "" {
		return 0
	}
	return len(before)
}
