package nutrients

import (
	"cmp"
	"slices"
	"strings"

	"putby/pricing/exact"
)

// A Measure is a household measure of a food and what it weighs, edible part.
type Measure struct {
	Amount exact.Number // how many of the measure, above 0, such as 1 or 0.5
	Words  string       // the measure: "cup, halves", "large" ...
	Grams  exact.Number // what that amount weighs, g, above 0
}

// Weight returns what one of the measure weighs, in kg.
func (m Measure) Weight() exact.Ratio {
	return m.Grams.Over(m.Amount.Mul(exact.Int(1000)))
}

// Density returns kg/L of the food in this measure, and whether the measure is
// one of volume. A cup of pieces holds air: its density is that of the heap.
func (m Measure) Density() (exact.Ratio, bool) {
	unit, ok := m.volume()
	if !ok {
		return exact.Ratio{}, false
	}
	return m.Weight().Quo(exact.RatioOf(unit)), true
}

// A vessel is a measure of volume.
type vessel struct {
	words  string
	litres exact.Number
}

// volumes are the measures of volume, in L: the customary US ones, whose cup is
// 236.5882365 mL (NIST Handbook 44, appendix C); 1 in³ = 16.387064 mL.
var volumes = []vessel{
	{"cup", exact.Cup.Factor()}, {"cups", exact.Cup.Factor()},
	{"fl oz", exact.FlOz.Factor()},
	{"quart", exact.Qt.Factor()}, {"pint", exact.Pt.Factor()},
	{"tbsp", exact.New(1478676478125, 14)}, {"tablespoon", exact.New(1478676478125, 14)}, // cup / 16
	{"tsp", exact.New(492892159375, 14)}, {"teaspoon", exact.New(492892159375, 14)}, // cup / 48
	{"liter", exact.Int(1)}, {"ml", exact.ML.Factor()},
	{"cubic inch", exact.New(16387064, 9)},
}

// volume returns the litres of one of the measure, and whether it is one of
// volume that the food as described fills.
func (m Measure) volume() (exact.Number, bool) {
	words := outsideParens(strings.ToLower(m.Words))
	words = strings.TrimPrefix(words, "serving 1 ")
	switch {
	// A cup "as purchased, yields" and "dry, yields" holds something else than
	// the food; a cup of 12 fl oz is a beaker.
	case strings.Contains(words, "yield"), strings.Contains(words, "dry mix"), strings.HasPrefix(words, "fl oz cup"):
		return exact.Number{}, false
	}
	for _, v := range volumes {
		if rest, ok := strings.CutPrefix(words, v.words); ok && (rest == "" || !isWord(rest[0])) {
			return v.litres, true
		}
	}
	return exact.Number{}, false
}

// cups say no more than that it is a cup.
var cups = []string{"cup", "cup 8 fl oz", "serving 1 cup", "cup, fluid"}

// plain ranks a measure of volume by how plainly it measures the food: 0 for a
// bare cup, then one explained between parentheses, then "whole", then cut,
// packed or heaped ones, then other vessels, the larger first.
func (m Measure) plain() int {
	words := strings.ToLower(m.Words)
	bare := outsideParens(words)
	switch {
	case words == "cup":
		return 0
	// An inch mark tells the size of pieces.
	case slices.Contains(cups, bare) && !strings.Contains(words, `"`):
		return 1
	case bare == "cup, whole" || bare == "cup whole":
		return 2
	case strings.HasPrefix(bare, "cup"), strings.HasPrefix(bare, "serving 1 cup"):
		return 3
	}
	litres, _ := m.volume()
	return 4 + slices.IndexFunc([]exact.Number{exact.Qt.Factor(), exact.Pt.Factor(), exact.FlOz.Factor(), {}},
		func(n exact.Number) bool { return !litres.Less(n) })
}

// Volumes returns the measures that give the food's density, the plainest
// first: a bare cup before a cup of halves, cups before spoons.
func (f Food) Volumes() []Measure {
	list := slices.Clone(f.Measures)
	list = slices.DeleteFunc(list, func(m Measure) bool { _, ok := m.volume(); return !ok })
	slices.SortStableFunc(list, func(a, b Measure) int { return cmp.Compare(a.plain(), b.plain()) })
	return list
}

// sizes are words for a piece, in the order in which they are proposed.
var sizes = []string{"medium", "large", "small"}

// portions begin the measures that are no pieces: of mass, portions of no set
// size, and parts.
var portions = []string{"oz", "lb", "g", "gram", "serving", "nlea", "portion", "package", "container", "can", "jar",
	"bottle", "slice", "slices", "strip", "strips", "wedge", "dash", "scoop", "packet", "box", "recipe", "yield", "unit"}

// Pieces returns the measures that are pieces of the food, those named by a
// size first: medium, large, small; of an egg the large one, which recipes
// count in.
func (f Food) Pieces() []Measure {
	list := slices.DeleteFunc(slices.Clone(f.Measures), func(m Measure) bool {
		words := split(m.Words)
		return m.measuresVolume() || len(words) == 0 || slices.Contains(portions, words[0])
	})
	order := sizes
	if strings.HasPrefix(f.Description, "EGG,") {
		order = []string{"large", "medium", "small"}
	}
	rank := func(m Measure) int {
		words := split(m.Words)
		if words[0] == "extra" {
			return len(order)
		}
		for i, size := range order {
			if slices.Contains(words, size) {
				return i
			}
		}
		return len(order)
	}
	slices.SortStableFunc(list, func(a, b Measure) int { return cmp.Compare(rank(a), rank(b)) })
	return list
}

// measuresVolume reports whether the words begin with a vessel, whatever fills it.
func (m Measure) measuresVolume() bool {
	words := strings.ToLower(m.Words)
	return slices.ContainsFunc(volumes, func(v vessel) bool { return strings.HasPrefix(words, v.words) })
}

// outsideParens drops what stands between parentheses, with the space before.
func outsideParens(s string) string {
	for {
		open := strings.IndexByte(s, '(')
		if open < 0 {
			return strings.TrimRight(s, " ,")
		}
		shut := strings.IndexByte(s[open:], ')')
		if shut < 0 {
			return strings.TrimRight(s[:open], " ,")
		}
		s = strings.TrimRight(s[:open], " ") + s[open+shut+1:]
	}
}
