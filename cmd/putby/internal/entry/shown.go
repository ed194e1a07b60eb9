package entry

import (
	"slices"

	"putby/ledger"
)

// NameFor is the name by which one of some things is found again: its name, or
// its identifier where it has no name or another is called so too.
func NameFor(id string, among []ledger.Named) string {
	i := slices.IndexFunc(among, func(n ledger.Named) bool { return n.ID == id })
	if i < 0 || among[i].Name == "" {
		return id
	}
	if found, ok := ledger.Meant(among[i].Name, among); !ok || found != id {
		return id
	}
	return among[i].Name
}

// Shown is a cell as people type it, which [Moment.Typed] reads as the cell again:
// a food or a supply by its name.
func Shown(rec *ledger.Records, c *ledger.Column, text string) string {
	names, _ := Names(rec, c)
	if text == "" || c.Own || c.Words != nil || len(c.Names) == 0 || !slices.Contains(names, text) {
		return text
	}
	switch c.Names[0] {
	case ledger.Foods, ledger.Supplies:
		return NameFor(text, titled(rec, names))
	}
	return text
}
