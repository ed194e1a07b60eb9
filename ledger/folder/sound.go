package folder

import (
	"maps"
	"slices"
	"strings"
	"sync"
)

// soundFile names the files of the ledger as they were when a check found no fault
// in them, by their sums. It is true of those texts for ever, whenever it is read,
// so that nothing has to be waited for when it is written, and it may be taken away
// at any time.
const soundFile = houseFolder + "/sound"

// soundness is what the file would hold for the ledger as it is.
func (b *Book) soundness() string {
	var out strings.Builder
	out.WriteString(b.judge + "\n")
	sums := b.sumsNow()
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		out.WriteString(sums[name] + " " + name + "\n")
	}
	return out.String()
}

// sumsNow are the sums of all files, as they were last read or saved.
func (b *Book) sumsNow() map[string]string {
	names := slices.DeleteFunc(slices.Collect(maps.Keys(b.files.texts)), func(name string) bool { return b.sums[name] != "" })
	var mu sync.Mutex
	parallel(names, func(name string) {
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
