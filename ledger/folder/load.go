package folder

import "putby/ledger"

// Load reads the ledger in dir and joins it. All its faults come at once, each
// with line and column, sorted; then the ledger must not be reported on. The
// error is that of [Read].
func Load(dir string, o ledger.Options) (*ledger.Ledger, ledger.Faults, error) {
	rec, faults, err := Read(dir)
	if err != nil {
		return nil, nil, err
	}
	o.Read = faults
	g, faults := ledger.Join(rec, o)
	Locate(dir, faults)
	return g, faults, nil
}
