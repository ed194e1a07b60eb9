package folder

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// soundFile names the files of the ledger as they were when a check found no fault
// in them, by their sums. It is true of those texts, the program that checked them and
// the rules of the zone that it had, whenever it is read, so that nothing has to be
// waited for when it is written, and it may be taken away at any time.
const soundFile = stateFolder + "/sound"

// soundness is what the file would hold for the ledger as it is.
func (b *Book) soundness() string {
	var out strings.Builder
	out.WriteString(b.judge + "\n")
	rec := &ledger.Records{}
	parseSettings(b.files.texts[ledger.SettingsFile], rec)
	out.WriteString(zoneRules(rec.Settings.Zone) + "\n")
	sums := b.sumsNow()
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		out.WriteString(sums[name] + " " + name + "\n")
	}
	return out.String()
}

// zoneRules is the sum of when a zone's clocks change, and to what: those of an
// updated system may make a time that there was one that there is not.
func zoneRules(zone *time.Location) string {
	if zone == nil {
		return "none"
	}
	var out strings.Builder
	last := time.Date(2200, 1, 1, 0, 0, 0, 0, time.UTC)
	for t, more := time.Date(1900, 1, 1, 0, 0, 0, 0, zone), true; more && t.Before(last); t, more = exact.NextChange(t) {
		name, offset := t.Zone()
		fmt.Fprintf(&out, "%d %d %s\n", t.Unix(), offset, name)
	}
	return sum(out.String())
}

// sumsNow are the sums of all files, as they were last read or saved.
func (b *Book) sumsNow() map[string]string {
	names := slices.DeleteFunc(slices.Collect(maps.Keys(b.files.texts)), func(name string) bool { return b.sums[name] != "" })
	var mu sync.Mutex
	ledger.ParallelEach(names, func(name string) {
		sum := sum(b.files.texts[name])
		mu.Lock()
		defer mu.Unlock()
		if b.sums == nil {
			b.sums = map[string]string{}
		}
		b.sums[name] = sum
	})
	return b.sums
}

// isSound reports whether the ledger is known to have no fault.
func (b *Book) isSound() bool {
	if b.judge == "" || len(b.files.faults) > 0 {
		return false
	}
	said, found, err := b.root.read(soundFile, MaxFile)
	return err == nil && found && said == b.soundness()
}

// noteSound notes that the ledger has no fault with a change that was saved. Where
// that fails, the next change is held against all records, no more.
func (b *Book) noteSound(c *Change) {
	if b.sums != nil {
		for _, f := range c.Files {
			if delete(b.sums, f.Name); f.After != "" && isRecords(f.Name) {
				b.sums[f.Name] = f.After
			}
		}
	}
	if b.judge == "" || len(b.files.faults) > 0 {
		return
	}
	f, err := b.disk.create(newName(soundFile), soundFile)
	if err != nil {
		return
	}
	_, err = f.WriteString(b.soundness())
	if f.Close() != nil || err != nil || b.disk.rename(newName(soundFile), soundFile) != nil {
		_ = b.disk.remove(newName(soundFile))
	}
}
