package folder

import (
	"slices"

	"putby/ledger"
)

// Load reads the ledger in dir and joins it. All its faults come at once, each
// with line and column, sorted; then the ledger must not be reported on. The
// error is that of [Read].
func Load(dir string, o ledger.Options) (*ledger.Ledger, ledger.Faults, error) {
	rec, faults, err := Read(dir)
	if err != nil {
		return nil, nil, err
	}
	g, later := ledger.Join(rec, o)
	faults = Together(faults, later)
	Locate(dir, faults)
	return g, faults, nil
}

// Together puts the faults of reading and those of joining into one list. Of
// the latter it leaves out what may only follow from the former: faults of
// sums, of records that could not be read whole, and all of them when a file
// could not be read at all.
func Together(read, joined ledger.Faults) ledger.Faults {
	if len(read) == 0 {
		return joined
	}
	type record struct {
		file string
		line int
	}
	bad := map[record]bool{}
	for _, f := range read {
		if f.Line <= 1 {
			return read
		}
		bad[record{f.File, f.Line}] = true
	}
	all := slices.Clone(read)
	for _, f := range joined {
		if !f.Follows && !bad[record{f.File, f.Line}] {
			all = append(all, f)
		}
	}
	all.Sort()
	return all
}
