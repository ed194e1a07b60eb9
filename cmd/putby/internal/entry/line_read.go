package entry

import (
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
)

// mostWords is how many words a line may have, its note aside.
const mostWords = 60

const asInLine = "write it as 2 lb strawberries 5.98, or 3 x 454 g strawberries 3.99"

// Read reads a line of a receipt as one would say it. Known is false where it is of a
// thing that nothing is called by: then it is spending alone. An error is a
// [ErrTyped].
func (x *ItemNames) Read(text string) (l Line, known bool, err error) {
	words, note, err := x.lineWords(text)
	if err != nil {
		return l, false, err
	}
	if r, k, ok := x.known(words, x.Find); ok && k.Kind.Bought() {
		l, err = x.finish(text, r.line(k), note)
		return l, true, err
	} else if ok { // a shop's own word for a discount
		l, err = x.readAmount(amountWord{kind: k.Kind}, text, words[len(r.item):], note)
		return l, true, err
	}
	if a, rest, ok := x.amountLine(words); ok {
		l, err = x.readAmount(a, text, rest, note)
		return l, true, err
	}
	if kind, rest, ok := kindWord(text); ok && (kind != ledger.MachineLine || x.hasMachine(words[1:])) {
		l, err = x.ParseLine(kind, rest)
		return l, true, err
	}
	l, err = x.ParseLine(ledger.OtherLine, text)
	return l, false, err
}

func (x *ItemNames) hasMachine(words []string) bool {
	_, k, ok := x.known(words, x.Find)
	return ok && k.Kind == ledger.MachineLine
}

// ParseLine reads a line of a kind. What was not typed is left out, and
// [Line.Lacks] names it; what was typed must make sense. An error is a
// [ErrTyped].
func (x *ItemNames) ParseLine(kind ledger.ReceiptKind, text string) (Line, error) {
	words, note, err := x.lineWords(text)
	if !kind.Bought() {
		return x.readAmount(amountWord{kind: kind}, text, words, note)
	}
	if err != nil {
		return Line{}, err
	}
	l, why := x.as(kind, words)
	if why != "" {
		return Line{}, typed(text, why)
	}
	return x.finish(text, l, note)
}

// as reads words as a thing bought of a kind, or says what is wrong with them.
func (x *ItemNames) as(kind ledger.ReceiptKind, words []string) (l Line, why string) {
	if len(words) == 0 {
		return l, "it does not say of what: " + asInLine
	}
	r, k, ok := x.known(words, func(name string) (Known, bool) { return x.findKind(kind, name) })
	if !ok {
		r, k = x.free(kind, words), Known{}
	}
	if k.Kind = kind; r.why != "" {
		return l, r.why
	}
	return r.line(k), ""
}

// ParseLine is [ItemNames.ParseLine] where nothing is known by name.
func ParseLine(kind ledger.ReceiptKind, text string) (Line, error) {
	return new(ItemNames).ParseLine(kind, text)
}

// finish checks a line of a thing bought. What could not be typed again, because
// its words are those of the grammar, is refused.
func (x *ItemNames) finish(text string, l Line, note string) (Line, error) {
	l.Note = note
	if why := l.Check(x.minor); why != "" {
		return Line{}, typed(text, why)
	}
	words, note, err := new(ItemNames).lineWords(l.String())
	again, _ := x.as(l.Kind, words)
	if again.Note = note; err != nil || again != l {
		return Line{}, typed(text, "its words can be read in several ways: "+asInLine)
	}
	return l, nil
}

// lineWords parts a line into words, and its note from them.
func (x *ItemNames) lineWords(text string) (words []string, note string, err error) {
	words = strings.Fields(strings.ReplaceAll(text, "×", "x"))
	if at := slices.Index(words, "note"); at > 0 {
		words, note = words[:at], strings.Join(words[at+1:], " ")
	}
	words = strings.Fields(Native(x.locale, strings.Join(words, " ")))
	switch {
	case len(words) == 0:
		return nil, "", typed(text, "it does not say of what: "+asInLine)
	case len(words) > mostWords:
		return nil, "", typed(text, "it is too long for a line of a receipt")
	}
	return words, note, nil
}

// A reading is one way to read the words of a line.
type reading struct {
	count string // before x
	bare  string // a number alone: packages, or pieces
	size  string
	item  []string
	lineTerms
}

// line is the line of a thing that is called so.
func (r *reading) line(k Known) Line {
	l := r.lineTerms.line
	l.Kind, l.Count = k.Kind, r.count
	if l.Per == exact.Ea.String() && l.Size == "" && r.size == "" {
		l.Per, r.each = "", true // 0.29/ea is the price of one, not one by measure
	}
	if l.Item = k.Item; l.Item == "" {
		l.Item = strings.Join(r.item, " ")
	}
	if r.size != "" {
		l.Size = r.size
	}
	switch pieces := k.Pieces && l.Size == ""; {
	case r.bare == "":
	case pieces && r.each && r.count == "": // 12 eggs at 0.29
		l.Count, l.Size = r.bare, "1 ea"
	case pieces: // 12 eggs 3.49, a package of 12
		l.Size = r.bare + " ea"
	default: // 3 jars 4.50
		l.Count, l.Whole = r.bare, l.Whole || !r.each
	}
	if l.Size == "" && l.Per == "" {
		l.Size = k.Size
	}
	l.Whole = l.Whole && l.Count != "" && l.Price != ""
	return l
}

// known reads a thing that is called by some name: of all ways to read the words
// the one with the longest name. Names that may go on count after all others, and
// of them the one that leaves the most for the rest of the line.
func (x *ItemNames) known(words []string, find func(string) (Known, bool)) (best reading, known Known, ok bool) {
	for _, t := range x.tails(words) {
		for _, r := range readings(words, t) {
			k, found := find(strings.Join(r.item, " "))
			if !found || r.bare != "" && r.count != "" && !k.Pieces { // 2 x 3 of what is not counted
				continue
			}
			if !ok || r.better(k, best, known) {
				best, known, ok = r, k, true
			}
		}
	}
	return best, known, ok
}

// better reports whether a reading as k is likelier than another.
func (r *reading) better(k Known, than reading, known Known) bool {
	if k.loose != known.loose {
		return known.loose
	}
	switch more := len(r.item) - len(than.item); {
	case k.loose && r.priced() != than.priced():
		return r.priced()
	case k.loose:
		return more < 0
	case more != 0:
		return more > 0
	}
	return r.priced() && !than.priced()
}

// free reads a thing that nothing is called by. Of a thing that the ledger need
// not know a number in front is part of its name: 3 in 1 oil.
func (x *ItemNames) free(kind ledger.ReceiptKind, words []string) reading {
	tails := x.tails(words)
	t := tails[0]
	for _, other := range tails {
		if other.priced() && !t.priced() {
			t = other
		}
	}
	spending := kind == ledger.OtherLine || kind == ledger.ServiceLine
	list := slices.DeleteFunc(readings(words, t), func(r reading) bool { return r.bare != "" && (spending || r.count != "") })
	r := list[len(list)-1]
	if !t.priced() {
		r.why = x.whyNot(words)
	}
	switch {
	case r.why != "":
	case !names(r.item):
		r.why = "it does not say of what: " + asInLine
	case sizeIn(r.item) > 0:
		r.why = "it says two sizes: leave one of them out"
	}
	return r
}

// names reports whether words are more than numbers and sizes.
func names(words []string) bool {
	for len(words) > 0 {
		n := sizeIn(words)
		if n == 0 && strings.ContainsFunc(words[0], unicode.IsLetter) {
			return true
		}
		words = words[max(1, n):]
	}
	return false
}

// readings are the ways to read the words before a tail, that with the longest
// item first.
func readings(words []string, t lineTerms) []reading {
	words = words[:t.at]
	list := []reading{{count: t.line.Count, item: words, lineTerms: t}}
	add := func(r reading) {
		if said := t.line.Count; said != "" {
			if r.count != "" {
				return // 2 x pears x 3
			}
			r.count = said
		}
		if len(r.item) > 1 && r.item[0] == "of" {
			r.item = r.item[1:]
		}
		if r.size == "" || t.line.Size == "" {
			list = append(list, r)
		}
	}
	first := reading{item: words, lineTerms: t}
	if count, rest := cutCount(words); count != "" {
		first.count, first.item = count, rest
		add(first)
	}
	if size, rest := cutSize(first.item); size != "" {
		add(reading{count: first.count, size: size, item: rest, lineTerms: t})
	} else if bare := Number(first.item[0]); len(first.item) > 1 && isNumber(bare) {
		rest := first.item[1:]
		add(reading{count: first.count, bare: bare, item: rest, lineTerms: t})
		if size, rest := cutSize(rest); size != "" && first.count == "" {
			add(reading{bare: bare, size: size, item: rest, lineTerms: t})
		}
	}
	// A name may begin like a count or a size, as in 7 grain bread: the longest name is tried first.
	slices.SortStableFunc(list, func(a, b reading) int { return len(b.item) - len(a.item) })
	return list
}

// cutCount cuts "2 x" or "2x" off.
func cutCount(words []string) (count string, rest []string) {
	if len(words) > 2 && words[1] == "x" {
		return Number(words[0]), words[2:]
	}
	if n, ok := strings.CutSuffix(words[0], "x"); ok && len(words) > 1 && isNumber(Number(n)) {
		return Number(n), words[1:]
	}
	return "", words
}

// cutSize cuts "500 g" or "500g" off.
func cutSize(words []string) (size string, rest []string) {
	if n := sizeIn(words); n > 0 && n < len(words) {
		return sizeText(words[:n]), words[n:]
	}
	return "", words
}

// sizeText writes a size as records do: 500g as 500 g.
func sizeText(words []string) string {
	text := Amount(strings.Join(words, " "))
	unit := strings.IndexFunc(text, unicode.IsLetter)
	return strings.TrimSpace(text[:unit]) + " " + text[unit:]
}

// sizeIn is how many words at the front are the size of a package, 0 for none.
func sizeIn(words []string) int {
	for n := min(3, len(words)); n > 0; n-- {
		q, err := exact.ParseQuantity(Amount(strings.Join(words[:n], " ")))
		if err != nil {
			continue
		}
		switch q.Unit().Dimension() {
		case exact.Volume, exact.Mass, exact.Count:
			return n
		}
	}
	return 0
}
