package folder

import (
	"cmp"
	"io/fs"
	"maps"
	"slices"
	"sync"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
)

// A Cache is a ledger that stays read: each [Cache.Read] reads again only those
// files that have changed since. It may be used by several goroutines at once.
//
// Whether a file has changed its stamp tells: size, time of the last change, and
// where the system has them the file's number and the time of the last change of
// either. A stamp tells only what its clock does: of two changes within one tick
// it may show the first. So a file is read again, and held to what was read,
// until it was read longer after its stamp was first seen than any tick lasts.
type Cache struct {
	Wording advice.Wording // of its records; set before it is read

	dir     string
	tick    time.Duration // longer than the clock of its file system stands still
	stampOf func(fs.FileInfo) stamp

	mu     sync.Mutex
	files  map[string]*keptFile // by name; what is not there is not in it
	rec    *ledger.Records      // of the files
	sound  *ledger.Records      // those in which a check last found no fault
	faults ledger.Faults        // of all files
}

// A keptFile is a file as it was read.
type keptFile struct {
	stamp  stamp
	seen   time.Time // when the stamp was first seen
	read   time.Time // when the file was last read
	sum    string
	size   int // of its text
	faults ledger.Faults
}

// longestTick is longer than the clock of any file system stands still: that of
// FAT does for two seconds.
const longestTick = 3 * time.Second

// settled reports whether a change of the file would change its stamp.
func (f *keptFile) settled(tick time.Duration) bool { return f.read.Sub(f.seen) > tick }

// A stamp tells one state of a file from another.
type stamp struct {
	size     int64     // bytes
	modified time.Time // when the content was last changed, by the file system's clock
	own      ownStamp  // what the system knows besides
}

func stampOf(info fs.FileInfo) stamp { return stamp{info.Size(), info.ModTime(), ownStampOf(info)} }

// same compares times as moments.
func (s stamp) same(t stamp) bool {
	return s.size == t.size && s.own == t.own && s.modified.Equal(t.modified)
}

// NewCache keeps the ledger in dir. Nothing is read yet.
func NewCache(dir string) *Cache { return &Cache{dir: dir, tick: longestTick, stampOf: stampOf} }

// Dir is the folder of the ledger.
func (k *Cache) Dir() string { return k.dir }

// Read returns what [Read] does, as the files are now. Nobody may change the
// records: as long as no file changes they are the same ones.
func (k *Cache) Read() (*ledger.Records, ledger.Faults, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	root, err := openRoot(k.dir)
	if err != nil {
		return nil, nil, err
	}
	defer root.Close()
	const tries = 10
	for range tries {
		before, err := now(root)
		if err != nil || before.pending != nil || !k.update(root) {
			break
		}
		if after, err := now(root); err != nil || after != before {
			continue
		}
		return k.rec, slices.Clone(k.faults), nil
	}
	rec, faults, err := Read(k.dir) // which knows all that can be wrong, and what to do with a change that is being saved
	if rec != nil {
		rec.Settings.Wording = k.Wording
	}
	return rec, faults, err
}

// NoteSound notes that the check of those who open the ledger with what is kept found no
// fault in records that [Cache.Read] returned.
func (k *Cache) NoteSound(rec *ledger.Records) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.sound = rec
}

// of returns the records of files that have these sums, with all else that there is
// of the ledger, for whoever adds to them, and whether a check found no fault in them. They
// are nil where the files that are kept are others, or have a fault.
func (k *Cache) of(root *tree, sums map[string]string) (rec *ledger.Records, sound bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	same := func(f *keptFile, sum string) bool { return f.sum == sum }
	if !k.update(root) || len(k.faults) > 0 || !maps.EqualFunc(k.files, sums, same) {
		return nil, false
	}
	return k.rec.Clipped(), k.sound == k.rec
}

// A textOf is a file that was read again: its text, and what is kept of it.
type textOf struct {
	name string
	text string
	kept *keptFile // nil: it is not there
	from int       // where rows were added to what was read before, without a fault; 0: it is read anew
}

func isSettings(t textOf) bool { return t.name == ledger.SettingsFile }

// update reads what has changed. It returns false where a file cannot be read.
func (k *Cache) update(root *tree) bool {
	names, fault := recordNames(root)
	if fault != nil {
		return false
	}
	for name := range k.files {
		if !slices.Contains(names, name) { // a meter log that is gone
			names = append(names, name)
		}
	}
	again, ok := k.changed(root, names)
	if !ok {
		return false
	}
	if k.rec != nil && slices.ContainsFunc(again, isSettings) {
		// All cells are read by the settings.
		k.files, k.rec = nil, nil
		if again, ok = k.changed(root, names); !ok {
			return false
		}
	}
	if len(again) > 0 {
		k.parse(again)
	}
	return k.files[ledger.SettingsFile] != nil // without it there is no ledger, which [Read] tells
}

// changed reads the files that may have changed, and returns those that have.
func (k *Cache) changed(root *tree, names []string) (again []textOf, ok bool) {
	ok = true
	var mu sync.Mutex
	ledger.ParallelEach(names, func(name string) {
		t, changed, err := k.look(root, name)
		mu.Lock()
		defer mu.Unlock()
		if err != nil {
			ok = false
		} else if changed {
			again = append(again, t)
		}
	})
	return again, ok
}

// look reads a file, unless its stamp tells that it is as it was.
func (k *Cache) look(root *tree, name string) (t textOf, changed bool, err error) {
	was := k.files[name]
	info, err := root.Stat(name)
	if err == nil && was != nil && was.settled(k.tick) && was.stamp.same(k.stampOf(info)) {
		return t, false, nil
	}
	begun := time.Now()
	text, info, err := root.readInfo(name, MaxFile)
	if err != nil || info == nil {
		return textOf{name: name}, was != nil, err
	}
	// Both times are on the safe side: a file counts as read when that began, its stamp as seen when
	// it had ended.
	f := &keptFile{stamp: k.stampOf(info), seen: time.Now(), read: begun, sum: sum(text), size: len(text)}
	if was != nil && was.stamp.same(f.stamp) {
		f.seen = was.seen
	}
	if was == nil || f.sum != was.sum {
		return textOf{name, text, f, grownFrom(was, text)}, true, nil
	}
	was.stamp, was.seen, was.read = f.stamp, f.seen, f.read
	return t, false, nil
}

// grownFrom is where lines were added to a file, 0 where anything else was changed in it.
func grownFrom(was *keptFile, text string) int {
	if was == nil || len(was.faults) > 0 || was.size == 0 || was.size >= len(text) {
		return 0
	}
	if before := text[:was.size]; before[was.size-1] != '\n' || sum(before) != was.sum {
		return 0
	}
	return was.size
}

// parse puts what was read again in place of what it was before. Who has the
// records of before keeps them.
func (k *Cache) parse(again []textOf) {
	rec, files := &ledger.Records{}, map[string]*keptFile{}
	if k.rec != nil {
		*rec = *k.rec
		rec.Meters, rec.Rates = maps.Clone(rec.Meters), maps.Clone(rec.Rates)
		maps.Copy(files, k.files)
	}
	// The settings first: they have the zone by which all other cells are read.
	if i := slices.IndexFunc(again, isSettings); i >= 0 {
		t := again[i]
		t.kept.faults = parseSettings(t.text, rec)
		rec.Settings.Wording = k.Wording
		files[t.name] = t.kept
		again = slices.Delete(again, i, i+1)
	}
	slices.SortFunc(again, func(a, b textOf) int { return cmp.Compare(len(b.text), len(a.text)) })
	var mu sync.Mutex
	ledger.ParallelEach(again, func(t textOf) {
		keep, faults := t.parse(rec)
		mu.Lock()
		defer mu.Unlock()
		keep(rec)
		if t.kept == nil {
			delete(files, t.name)
			return
		}
		t.kept.faults = faults
		files[t.name] = t.kept
	})
	k.rec, k.files, k.faults = rec, files, nil
	for _, f := range files {
		k.faults = append(k.faults, f.faults...)
	}
	k.faults.Sort()
}

// parse reads the records of a file, in place of those that there are of it, or behind
// them, as [parseRecords] does.
func (t textOf) parse(rec *ledger.Records) (keep func(*ledger.Records), faults ledger.Faults) {
	switch kind, ok := ledger.KindOf(t.name); {
	case ok && t.from > 0:
		kind.Clip(rec)
	case ok:
		kind.Clear(rec)
	}
	return parseRecords(t.name, t.text, t.from, rec)
}
