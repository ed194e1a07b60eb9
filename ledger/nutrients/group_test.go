package nutrients_test

import (
	"strings"
	"testing"

	"putby/ledger/nutrients"
)

func TestGroup(t *testing.T) {
	for ndb, want := range map[string]nutrients.Group{
		"13047": nutrients.Meat,    // beef, brisket
		"10020": nutrients.Meat,    // pork, leg
		"07022": nutrients.Meat,    // frankfurter, beef
		"17224": nutrients.Meat,    // lamb, ground, raw
		"23572": nutrients.Meat,    // beef, ground
		"05006": nutrients.Poultry, // chicken, meat and skin, raw
		"05305": nutrients.Poultry, // turkey, ground
		"15076": nutrients.Fish,    // salmon, atlantic, wild
		"15149": nutrients.Fish,    // shrimp, raw
		"01123": nutrients.Egg,     // egg, whole, raw
		"01057": nutrients.Egg,     // eggnog
		"01077": nutrients.Dairy,   // milk, whole
		"01053": nutrients.Dairy,   // cream
		"01117": nutrients.Dairy,   // yogurt
		"11168": nutrients.LowAcid, // sweetcorn, boiled
		"11124": nutrients.LowAcid, // carrots
		"16033": nutrients.LowAcid, // kidney beans, boiled
		"06172": nutrients.Soup,    // chicken stock, home-prepared
		"06125": nutrients.Soup,    // gravy, turkey
		"11529": nutrients.NoGroup, // tomatoes, raw
		"11937": nutrients.NoGroup, // pickles
		"16087": nutrients.NoGroup, // peanuts
		"09316": nutrients.NoGroup, // strawberries
		"20444": nutrients.NoGroup, // rice
		"06150": nutrients.NoGroup, // sauce, barbecue
	} {
		f, ok := nutrients.Get(ndb)
		if !ok || f.Group() != want {
			t.Errorf("%s %s: group %d, want %d", ndb, f.Description, f.Group(), want)
		}
	}
}

// Everything that opens with a plain word for meat, poultry, fish, eggs or milk
// is in its group wherever the release has its own groups for them.
func TestGroupByWord(t *testing.T) {
	seen := map[nutrients.Group]int{}
	for word, want := range map[string]nutrients.Group{
		"beef": nutrients.Meat, "pork": nutrients.Meat, "lamb": nutrients.Meat, "veal": nutrients.Meat, "chicken": nutrients.Poultry,
		"turkey": nutrients.Poultry, "duck": nutrients.Poultry, "fish": nutrients.Fish, "crustaceans": nutrients.Fish,
		"milk": nutrients.Dairy, "yogurt": nutrients.Dairy, "cheese": nutrients.Dairy, "carrots": nutrients.LowAcid, "squash": nutrients.LowAcid,
	} {
		for _, f := range nutrients.Find(word) {
			first, _, _ := strings.Cut(strings.ToLower(f.Description), ",")
			// Mixed dishes, baby food, what the release has by other numbers.
			if first != word || !strings.Contains("01 05 10 13 15 17 23 11", f.NDB[:2]) {
				continue
			}
			seen[want]++
			if got := f.Group(); got != want {
				t.Errorf("%s %s: group %d, want %d", f.NDB, f.Description, got, want)
			}
		}
	}
	for _, group := range []nutrients.Group{nutrients.Meat, nutrients.Poultry, nutrients.Fish, nutrients.Dairy, nutrients.LowAcid} {
		if seen[group] < 5 {
			t.Errorf("only %d foods of group %d were looked at", seen[group], group)
		}
	}
}
