package folder

import (
	"slices"

	"putby/ledger"
)

// judged reads the ledger as it would be, and refuses it if it has faults. A
// ledger that has some already may be changed so that it has fewer; taking
// back a change must only not add to them.
func (b *Book) judged(s *staged, back bool) error {
	s.files = b.files.with(s.texts)
	if b.judgedByExcerpt(s) {
		return nil
	}
	b.readAll()
	s.records, s.faults = b.reread(s, nil)
	faults := b.inspect(s.records, s.faults)
	if len(faults) == 0 {
		s.sound = b.check != nil
		return nil
	}
	locateIn(s.files.text, faults)
	had, now := len(b.faults), len(s.faults)
	if had+now == 0 { // faults of reading keep from sight what the check would find, so like is held against like
		if now = len(faults); !b.flawless {
			had = len(b.inspect(b.records, nil))
		}
	}
	if now < had || back && now == had {
		return nil
	}
	return &Refusal{Faults: faults, Already: had > 0}
}

// inspect returns the faults of reading a ledger or, without any, those that
// the check finds.
func (b *Book) inspect(rec *ledger.Records, faults ledger.Faults) ledger.Faults {
	if len(faults) > 0 || b.check == nil {
		return faults
	}
	return slices.Clone(b.check(rec))
}

// covered are the files of the records that an excerpt may tell enough of.
var covered = []string{
	ledger.DrawsFile, ledger.FrozenFile, ledger.CountsFile, ledger.ReceiptsFile, ledger.ShelfFile,
	ledger.RunsFile, ledger.LoadsFile, ledger.PhasesFile, ledger.PacksFile,
}

// judgedByExcerpt reports whether the excerpt that the Book may have tells that a
// staged change brings no fault. Whatever else there is to say takes all records.
func (b *Book) judgedByExcerpt(s *staged) bool {
	if b.records == nil || b.records.Excerpt == nil {
		return false
	}
	picked := map[string]string{}
	for _, f := range s.change.Files {
		before, there := b.files.texts[f.Name]
		switch covered := slices.Contains(covered, f.Name); {
		case !covered:
			return false
		case there && f.addedAt(before) == 0: // rows behind the last are read without picking
			kept, ok := b.excerptBuilder.changed(f.Name, before, s.files.texts[f.Name])
			if !ok {
				return false
			}
			picked[f.Name] = kept
		}
	}
	s.records, s.faults = b.reread(s, picked)
	if len(s.faults) > 0 {
		return false
	}
	excerpt, ok := b.records.Covers(s.records)
	if s.records.Excerpt = excerpt; !ok || len(b.inspect(s.records, nil)) > 0 {
		return false
	}
	s.sound = b.check != nil
	return true
}

// readAll has all records read, and none left out.
func (b *Book) readAll() {
	if b.records != nil && b.records.Excerpt == nil {
		return
	}
	if rec, _ := b.keptRecords(); rec != nil {
		b.records, b.faults = rec, nil
	} else {
		b.records, b.faults = parse(b.files, keepTexts)
	}
}

// Cached returns all records where they were kept of the very files that the Book has, and
// makes them the Book's; nil: they would have to be read.
func (b *Book) Cached() *ledger.Records {
	rec, _ := b.keptRecords()
	if rec != nil {
		b.records, b.faults, b.excerptBuilder = rec, nil, nil
	}
	return rec
}

// keptRecords are the records that were kept of the very files that the Book has, and
// whether they are known to be sound; nil where there are none, or something is wrong
// with them.
func (b *Book) keptRecords() (rec *ledger.Records, sound bool) {
	if b.cache == nil || len(b.files.faults) > 0 {
		return nil, false
	}
	return b.cache.of(b.root, b.sumsNow())
}
