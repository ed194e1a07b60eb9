package intake

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Name says what a thing that shops call by some name is in the ledger. A
// ledger keeps its names in [NamesFile].
type Name struct {
	Map string // the map it is for; empty: every map
	// Name is the foreign text. A '*' at either end stands for anything; case,
	// diacritics and marks do not count.
	Name string
	Kind string // a kind of receipt line, shop, or [Omit] to leave the row out; empty: as the item is
	Item string // the ledger's identifier, or the shop's name
	Size string // of one package, where the file does not tell
}

// AddNames puts names behind others. What was said before of the same name, for the
// same map, no longer holds.
func AddNames(names []Name, more ...Name) []Name {
	for _, n := range more {
		names = slices.DeleteFunc(slices.Clone(names), func(old Name) bool { return old.Map == n.Map && old.Name == n.Name })
		names = append(names, n)
	}
	return names
}

// nameKinds are the kinds of names: those of receipt lines, and two more.
var nameKinds = append(receiptKinds(), "shop", Omit)

// Omit is the kind of a name whose rows are left out.
const Omit = "omit"

// omits reports whether rows of the name are left out. Files from before have
// another word for it.
func (n *Name) omits() bool { return n.Kind == Omit || n.Kind == "skip" }

// receiptKinds returns the words of the kinds of receipt lines.
func receiptKinds() []string {
	var words []string
	for _, k := range ledger.ReceiptKinds() {
		words = append(words, k.String())
	}
	return words
}

// A Glossary finds what a shop calls a thing. Plain names come before those with a
// '*', and among these the longer one first.
type Glossary struct {
	plain    map[string]Name
	patterns []pattern
	found    memo[*Name]
}

type pattern struct {
	text        string
	front, back bool // whether anything may stand there
	name        Name
}

// newGlossary takes the names that are used, those that come first before others.
func newGlossary(names []Name, use, first func(Name) bool) *Glossary {
	g := &Glossary{plain: map[string]Name{}}
	for _, now := range []bool{true, false} {
		for _, n := range names {
			if use(n) && first(n) == now {
				g.add(n)
			}
		}
	}
	slices.SortStableFunc(g.patterns, func(a, b pattern) int { return len(b.text) - len(a.text) })
	return g
}

// NewGlossary takes names for what people type, those that are for every map before those of one.
func NewGlossary(names []Name) *Glossary {
	return newGlossary(names,
		func(n Name) bool { return !n.omits() && n.Kind != "shop" },
		func(n Name) bool { return n.Map == "" })
}

// glossaryOf takes the names of things, or else of shops, for the files of a map: its
// own before those of every map.
func glossaryOf(names []Name, mapName string, shops bool) *Glossary {
	return newGlossary(names,
		func(n Name) bool { return (n.Map == "" || n.Map == mapName) && (n.Kind == "shop") == shops },
		func(n Name) bool { return n.Map != "" })
}

// Find returns what a text is the name of. It remembers nothing, so that many may ask at
// once.
func (g *Glossary) Find(text string) (Name, bool) {
	if n := g.search(ledger.Fold(text)); n != nil {
		return *n, true
	}
	return Name{}, false
}

func (g *Glossary) add(n Name) {
	text, back := strings.CutSuffix(n.Name, "*")
	text, front := strings.CutPrefix(text, "*")
	key := ledger.Fold(text)
	if front || back {
		g.patterns = append(g.patterns, pattern{key, front, back, n})
		return
	}
	if _, known := g.plain[key]; !known {
		g.plain[key] = n
	}
}

// find is Find for the texts of a file, which come over and over; nil: none is known.
func (g *Glossary) find(text string) *Name {
	return g.found.of(text, func() *Name { return g.search(ledger.Fold(text)) })
}

func (g *Glossary) search(key string) *Name {
	if n, ok := g.plain[key]; ok {
		return &n
	}
	for _, p := range g.patterns {
		at := strings.Index(key, p.text)
		if at >= 0 && (p.front || at == 0) && (p.back || strings.HasSuffix(key, p.text)) {
			return &p.name
		}
	}
	return nil
}

// A book is what the ledger calls the things that it knows.
type book struct {
	items map[string][]knownItem       // by folded identifier and name
	found map[string]*memo[*knownItem] // by kind
}

type knownItem struct{ kind, id string }

func newBook(rec *ledger.Records) *book {
	b := &book{items: map[string][]knownItem{}, found: map[string]*memo[*knownItem]{}}
	for _, f := range rec.Foods {
		b.add(ledger.FoodLine.String(), f.ID, f.Name)
	}
	for _, s := range rec.Supplies {
		b.add(ledger.SupplyLine.String(), s.ID, s.Name)
	}
	for _, m := range rec.Machines {
		b.add(ledger.MachineLine.String(), m.ID, m.Name)
	}
	return b
}

func (b *book) add(kind, id, name string) {
	// A folded text has no "=", so an identifier to the letter is never mixed up with a name.
	for _, key := range []string{"=" + id, ledger.Fold(id), ledger.Fold(name)} {
		if key != "" {
			b.items[key] = append(b.items[key], knownItem{kind, id})
		}
	}
}

// find returns the item that a text names: by its identifier, else by its name
// if only one has it. An empty kind means any.
func (b *book) find(text, kind string) (knownItem, bool) {
	m := b.found[kind]
	if m == nil {
		m = new(memo[*knownItem])
		b.found[kind] = m
	}
	if k := m.of(text, func() *knownItem { return b.search(text, kind) }); k != nil {
		return *k, true
	}
	return knownItem{}, false
}

func (b *book) search(text, kind string) *knownItem {
	for _, key := range []string{"=" + text, ledger.Fold(text)} {
		var fits []knownItem
		for _, k := range b.items[key] {
			if (kind == "" || k.kind == kind) && !slices.Contains(fits, k) {
				fits = append(fits, k)
			}
		}
		if len(fits) == 1 {
			return &fits[0]
		}
	}
	return nil
}

// checkName says what is wrong with a name, at which column.
func checkName(n Name) (column, what, hint string) {
	switch {
	case ledger.Fold(n.Name) == "":
		return "name", "a name has at least one letter or digit", ""
	case n.Kind != "" && !n.omits() && !slices.Contains(nameKinds, n.Kind):
		return "kind", exact.Quote(n.Kind) + " is not a kind of name", "write one of: " + strings.Join(nameKinds, ", ")
	case n.Item == "" && n.Kind == "":
		return "item", "the name says nothing", "write what the ledger calls it, or omit under kind to leave such rows out"
	case n.Size != "":
		if q, err := exact.ParseQuantity(n.Size); err != nil {
			return "size", err.Error(), ""
		} else if q.Sign() <= 0 {
			return "size", n.Size + " is not above 0", ""
		}
	}
	return "", "", ""
}
