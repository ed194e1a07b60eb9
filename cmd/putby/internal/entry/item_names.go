package entry

import (
	"strings"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// ItemNames knows what people call things: foods, supplies and machines by
// identifier and name, and what shops call them. The zero ItemNames knows nothing.
type ItemNames struct {
	marks  []string           // beside sums of money
	minor  int                // digits of the currency
	locale locale.Locale      // how numbers may be typed
	exact  map[string]Known   // by identifier
	called map[string][]Known // by folded identifier and name
	alike  map[string][]Known // the same in the singular, and the words for kinds of supplies
	names  *intake.Glossary
}

// A Known is a thing that a line of a receipt may be of.
type Known struct {
	Kind   ledger.ReceiptKind
	Item   string // the ledger's identifier; empty: as it was typed
	Size   string // of a package, where what the shop calls it says so
	Pieces bool   // whether it is a food that is counted in pieces

	loose bool // what the shop calls it may go on
}

// NewItemNames takes the things of a ledger, and what shops call them.
func NewItemNames(rec *ledger.Records, names []intake.Name) *ItemNames {
	x := &ItemNames{
		marks: moneyMarks(&rec.Settings), minor: rec.Settings.Currency.Minor(), locale: rec.Settings.Locale,
		exact: map[string]Known{}, called: map[string][]Known{}, alike: map[string][]Known{}, names: intake.NewGlossary(names),
	}
	for i := range rec.Foods {
		f := &rec.Foods[i]
		x.add(Known{Kind: ledger.FoodLine, Item: f.ID, Pieces: f.Basis == exact.Ea}, f.ID, f.Name)
	}
	for i := range rec.Supplies {
		s := &rec.Supplies[i]
		k := Known{Kind: ledger.SupplyLine, Item: s.ID}
		x.add(k, s.ID, s.Name)
		x.put(x.alike, s.Kind.String(), k)
	}
	for i := range rec.Machines {
		m := &rec.Machines[i]
		x.add(Known{Kind: ledger.MachineLine, Item: m.ID}, m.ID, m.Name)
	}
	return x
}

func (x *ItemNames) add(k Known, id, name string) {
	if _, taken := x.exact[id]; !taken {
		x.exact[id] = k
	}
	for _, text := range []string{id, name} {
		x.put(x.called, ledger.Fold(text), k)
		x.put(x.alike, singular(ledger.Fold(text)), k)
	}
}

func (x *ItemNames) put(list map[string][]Known, key string, k Known) {
	for _, there := range list[key] {
		if there.Kind == k.Kind && there.Item == k.Item {
			return
		}
	}
	if key != "" {
		list[key] = append(list[key], k)
	}
}

// Find finds what a person calls text: by its identifier, by identifier or name
// in any case, by what shops call it, in the plural, or as the only supply of a
// kind. What several things are called it does not find.
func (x *ItemNames) Find(text string) (Known, bool) {
	return x.find(text, func(Known) bool { return true })
}

// findKind is Find for one kind of line.
func (x *ItemNames) findKind(kind ledger.ReceiptKind, text string) (Known, bool) {
	return x.find(text, func(k Known) bool { return k.Kind == kind })
}

func (x *ItemNames) find(text string, fits func(Known) bool) (Known, bool) {
	if k, ok := x.exact[text]; ok && fits(k) {
		return k, true
	}
	key := ledger.Fold(text)
	if k, ok := only(x.called[key], fits); ok || key == "" {
		return k, ok
	}
	if k, ok := x.named(text); ok && fits(k) {
		return k, true
	}
	return only(x.alike[singular(key)], fits)
}

func only(list []Known, fits func(Known) bool) (found Known, ok bool) {
	for _, k := range list {
		if fits(k) && ok {
			return Known{}, false
		}
		if fits(k) {
			found, ok = k, true
		}
	}
	return found, ok
}

// named finds what a shop calls a thing. A name of something that the ledger no
// longer has does not count.
func (x *ItemNames) named(text string) (Known, bool) {
	if x.names == nil {
		return Known{}, false
	}
	n, ok := x.names.Find(text)
	if !ok {
		return Known{}, false
	}
	loose := strings.Contains(n.Name, "*")
	if kind, ok := ParseKind(n.Kind); ok && kind != ledger.FoodLine && kind != ledger.SupplyLine && kind != ledger.MachineLine {
		return Known{Kind: kind, Item: n.Item, Size: n.Size, loose: loose}, true
	}
	k, ok := x.exact[n.Item]
	if !ok || n.Kind != "" && n.Kind != k.Kind.String() {
		return Known{}, false
	}
	k.Size, k.loose = n.Size, loose
	return k, true
}

// singular writes each word of a folded name without the ending of a plural, so
// that jars and jar, berries and berry compare equal. It need be no word.
func singular(key string) string {
	words := strings.Fields(key)
	for i, w := range words {
		for _, end := range [][2]string{{"ies", "y"}, {"oes", "o"}, {"ches", "ch"}, {"shes", "sh"}, {"sses", "ss"}, {"xes", "x"}, {"ss", "ss"}, {"s", ""}} {
			if stem, ok := strings.CutSuffix(w, end[0]); ok && len(stem) > 1 {
				words[i] = stem + end[1]
				break
			}
		}
	}
	return strings.Join(words, " ")
}

// Near returns what somebody who wrote text may have meant: the identifier of a
// food or supply that is called nearly so; or "".
func (x *ItemNames) Near(text string) string {
	names, ids := []string{}, map[string]string{}
	for key, list := range x.called {
		if len(list) == 1 {
			names, ids[key] = append(names, key), list[0].Item
		}
	}
	return ids[ledger.Nearest(ledger.Fold(text), names)]
}
