package nutrients

import (
	"slices"
	"strings"
)

// A Group is a kind of food that wants care when it is dried.
type Group uint8

// The groups. NoGroup is of all other foods.
const (
	NoGroup Group = iota
	Meat          // sausages and game too
	Poultry
	Fish // shellfish too
	Egg
	Dairy
	LowAcid // vegetables and pulses with a pH above 4.6
	Soup    // broths and gravies too
)

// groupOf are the release's food groups, whose number is that in which the NDB
// number begins: 01 dairy and egg products, 05 poultry, 06 and 27 soups, sauces
// and gravies, 07 sausages and luncheon meats, 10 pork, 11 and 31 vegetables, 13
// and 23 beef, 15 and 83 finfish and shellfish, 16 legumes, 17 lamb, veal and
// game. (The numbers are from memory; the package's tests hold them against the
// descriptions.)
var groupOf = map[string]Group{
	"01": Dairy, "05": Poultry, "06": Soup, "07": Meat, "10": Meat, "11": LowAcid, "13": Meat, "15": Fish, "16": LowAcid,
	"17": Meat, "23": Meat, "27": Soup, "31": LowAcid, "83": Fish,
}

// soups are words of a description that is a soup, not a sauce.
var soups = []string{"soup", "soups", "broth", "stock", "bouillon", "gravy", "grvy", "chowder", "bisque", "stew"}

// notLowAcid open descriptions of vegetables that are acid or pickled, and of
// nuts. Tomatoes are not classed as low-acid food (21 CFR 114.3; memory).
var notLowAcid = []string{"tomato", "tomatoes", "tomatillos", "catsup", "pickle", "pickles", "sauerkraut", "peanut", "peanuts"}

// Group returns what kind of food it is. It goes by the release's own groups,
// and says nothing of mixed dishes.
func (f Food) Group() Group {
	words, group := split(f.Description), groupOf[f.NDB[:2]]
	switch {
	case len(words) == 0:
		return NoGroup
	case group == Dairy && (words[0] == "egg" || strings.HasPrefix(words[0], "eggnog")):
		return Egg
	case group == Soup && !slices.ContainsFunc(words, func(w string) bool { return slices.Contains(soups, w) }):
		return NoGroup
	case group == LowAcid && slices.Contains(notLowAcid, words[0]):
		return NoGroup
	}
	return group
}
