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

// ReadFile returns a file of the ledger in dir that holds no records, such as a
// map of columns; nil where there is none.
func ReadFile(dir, name string) ([]byte, error) {
	if err := checkName(name); err != nil {
		return nil, err
	}
	text, err := readIn(dir, func(root *tree) (*string, error) { return newBook(root, dir, Opening{}).readOther(name) })
	if err != nil || text == nil {
		return nil, err
	}
	return []byte(*text), nil
}
