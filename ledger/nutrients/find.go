package nutrients

import (
	"cmp"
	"slices"
	"strings"
	"sync"
)

// Find returns the foods whose description has all the given words, in any
// order, the plainest first. A word may be the beginning of the description's
// ("strawberr"), singular or plural; case and diacritics do not matter, and
// the table's abbreviations are found by what they stand for: "corn boiled"
// finds CORN,SWT,YEL,CKD,BLD. Some British names are understood too. Without a
// word there is nothing to find.
func Find(words string) []Food {
	query := parseQuery(words)
	if len(query) == 0 {
		return nil
	}
	foods, index := table(), index()
	var hits []hit
	for i := range foods {
		if h, ok := match(query, index[i]); ok {
			h.food = i
			hits = append(hits, h)
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		return cmp.Or(slices.Compare(a.rank[:], b.rank[:]), cmp.Compare(len(foods[a.food].Description),
			len(foods[b.food].Description)), cmp.Compare(a.food, b.food))
	})
	found := make([]Food, len(hits))
	for i, h := range hits {
		found[i] = foods[h.food]
	}
	return found
}

// index holds the words of each food's description.
var index = sync.OnceValue(func() [][]string {
	index := make([][]string, len(table()))
	for i, f := range table() {
		index[i] = split(f.Description)
	}
	return index
})

// A hit is a food that was found. Its rank is compared number by number, the
// lowest first:
//
//	0  0 where a word looked for opens the description or follows its family, 1
//	   where a beginning of a word does, 2 where none does: EGG,WHL before BREAD,EGG
//	1  how many words looked for are but beginnings
//	2  0 raw or fresh, 1 not said, 2 cooked, canned, dried ...
//	3  0 whole, 1 not said, 2 with salt
//	4  how many words the description has
type hit struct {
	food int
	rank [5]int
}

// match holds a description's words against all those looked for.
func match(query []term, words []string) (hit, bool) {
	h := hit{rank: [5]int{2, 0, 1, 1, len(words)}}
	for _, t := range query {
		best := none
		for i, w := range words {
			fit := t.fit(w)
			best = max(best, fit)
			if fit > none && (i == 0 || i == 1 && families[words[0]]) {
				h.rank[0] = min(h.rank[0], int(whole-fit))
			}
		}
		switch best {
		case none:
			return h, false
		case beginning:
			h.rank[1]++
		}
	}
	for i, w := range words {
		switch {
		case processed[w]:
			h.rank[2] = 2
		case (w == "raw" || w == "frsh" || w == "fresh") && h.rank[2] == 1:
			h.rank[2] = 0
		case w == "whl" || w == "whole":
			h.rank[3] = 0
		case w == "salt" && i > 0 && words[i-1] == "with":
			h.rank[3] = 2
		}
	}
	return h, true
}

// families open descriptions of foods that go by another name in the kitchen:
// FISH,SALMON.
var families = map[string]bool{
	"crustaceans": true, "fish": true, "mollusks": true, "nuts": true, "seeds": true, "spices": true,
	"squash": true, "game": true, "oil": true,
}

// processed are the words, as the table has them, of food that is not plain.
var processed = map[string]bool{
	"ckd": true, "cnd": true, "frz": true, "dry": true, "dried": true, "dehyd": true, "pdr": true, "fried": true,
	"bld": true, "bkd": true, "rstd": true, "brsd": true, "brld": true, "stmd": true, "stwd": true, "smoked": true,
	"pickled": true, "prep": true, "mix": true, "conc": true, "cond": true, "imitn": true, "babyfd": true, "inf": true,
	"freeze": true, "candied": true, "substitute": true, "fast": true, "bttrmlk": true, "restaurant": true, "swtnd": true,
}

// A term is one word looked for: any of its spellings, each with the plural's
// ending taken off.
type term []string

// fitness says how well a word fits a term.
type fitness int

const (
	none fitness = iota
	beginning
	whole
)

// fit compares the term with a word of a description, and with what the word
// abbreviates.
func (t term) fit(word string) fitness {
	best := none
	for _, spelling := range t {
		best = max(best, fitOne(spelling, word))
		for _, long := range expansions()[word].words {
			best = max(best, fitOne(spelling, long))
		}
	}
	return best
}

func fitOne(spelling, word string) fitness {
	switch {
	case !strings.HasPrefix(word, spelling):
		return none
	case word == spelling || singular(word) == spelling:
		return whole
	}
	return beginning
}

// parseQuery splits what is looked for into terms.
func parseQuery(words string) []term {
	var query []term
	for _, w := range split(words) {
		if w == "and" { // the table writes &
			continue
		}
		if american, ok := britishNames[w]; ok {
			query = append(query, parseQuery(american)...)
			continue
		}
		if one := singular(w); one != w {
			query = append(query, term{w, one})
		} else if stem, ok := strings.CutSuffix(w, "y"); ok && len(stem) > 2 {
			query = append(query, term{w, stem + "ies"})
		} else {
			query = append(query, term{w})
		}
	}
	return query
}

// singular takes the ending of an English plural off, as far as it goes by
// rule; what is left may be but the beginning of the singular.
func singular(w string) string {
	switch {
	case len(w) < 4 || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us"):
		return w
	case strings.HasSuffix(w, "ies"):
		return strings.TrimSuffix(w, "ies") + "y"
	case strings.HasSuffix(w, "oes"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"):
		return strings.TrimSuffix(w, "es")
	}
	return strings.TrimSuffix(w, "s")
}

// britishNames are names of foods that the table, being American, has under
// another one.
var britishNames = map[string]string{
	"sweetcorn": "corn sweet", "aubergine": "eggplant", "aubergines": "eggplant", "courgette": "zucchini",
	"courgettes": "zucchini", "rocket": "arugula", "prawn": "shrimp", "prawns": "shrimp", "swede": "rutabagas",
	"beetroot": "beets", "mince": "ground", "minced": "ground", "yoghurt": "yogurt", "porridge": "oats",
	"sultanas": "raisins", "chilli": "peppers hot", "wholemeal": "whole wheat",
	"mangetout": "peas edible", "haricot": "navy beans", "tinned": "canned",
	"spring-onion": "onions spring", "gammon": "ham", "cornflour": "cornstarch", "treacle": "molasses",
}
