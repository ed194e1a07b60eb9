package nutrients_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// TestFigures checks foods that a household dries. Source: USDA National
// Nutrient Database for Standard Reference, Release 28, abbreviated file.
func TestFigures(t *testing.T) {
	for _, want := range []struct{ ndb, description, water, kcal, protein, fat, refuse string }{
		{"09316", "STRAWBERRIES,RAW", "90.95", "32", "0.67", "0.3", "6"},
		{"01123", "EGG,WHL,RAW,FRSH", "76.15", "143", "12.56", "9.51", "12"},
		{"11168", "CORN,SWT,YEL,CKD,BLD,DRND,WO/SALT", "73.41", "96", "3.41", "1.5", "45"},
		{"06172", "SOUP,STOCK,CHICK,HOME-PREPARED", "92.15", "36", "2.52", "1.2", "0"},
	} {
		f, ok := nutrients.Get(want.ndb)
		if !ok {
			t.Fatalf("no food %s", want.ndb)
		}
		got := []string{f.NDB, f.Description, f.Water.Or(exact.Number{}).String(), f.Kcal.Or(exact.Number{}).String(),
			f.Protein.Or(exact.Number{}).String(), f.Fat.Or(exact.Number{}).String()}
		if wanted := []string{want.ndb, want.description, want.water, want.kcal, want.protein, want.fat}; !slices.Equal(got, wanted) {
			t.Errorf("got %v, want %v", got, wanted)
		}
		if got := f.Refuse.Or(exact.Number{}).String(); got != want.refuse {
			t.Errorf("%v: refuse %s, want %s", f.Description, got, want.refuse)
		}
	}
}

// TestDry checks dry = wet x solids / (1 - moisture) with the water of SR28:
// per kg wet at 3 % residual moisture, egg 245.8763 g, strawberries 93.2990 g.
func TestDry(t *testing.T) {
	for ndb, want := range map[string]string{"01123": "245.8763", "09316": "93.299"} {
		f, _ := nutrients.Get(ndb)
		kg, ok := f.Dry(exact.Int(3))
		if got := kg.Times(exact.Int(1000)).Round(4, exact.HalfAway).String(); !ok || got != want {
			t.Errorf("%v: %s g, want %s", f.Description, got, want)
		}
	}
	if _, ok := (nutrients.Food{}).Dry(exact.Int(3)); ok {
		t.Error("a food whose water is not known has a dry weight")
	}
	f, _ := nutrients.Get("09316")
	for _, moisture := range []string{"-1", "100", "250"} {
		if _, ok := f.Dry(exact.MustNumber(moisture)); ok {
			t.Errorf("a moisture of %s %% was taken", moisture)
		}
	}
}

// TestDensity checks kg/L = grams of a cup / 236.5882365 mL (SR28, household
// weights; NIST Handbook 44, appendix C).
func TestDensity(t *testing.T) {
	for _, want := range []struct{ ndb, words, density string }{
		{"06172", "cup", "1.014420681"},                  // 240 g
		{"01123", "cup (4.86 large eggs)", "1.02710094"}, // 243 g
		{"09316", "cup, whole", "0.608652409"},           // 144 g, before 152 g of halves
		{"01077", "cup", "1.031327692"},                  // 244 g
		{"11168", "cup cut", "0.629786173"},              // 149 g
		{"11352", "cup, diced", "0.634012926"},           // 75 g of half a cup
		{"14429", "liter", "1"},                          // 1000 g; the ounces are 29.6 g
		{"01052", "cup, fluid (yields 2 cups whipped)", "1.010193928"},
	} {
		f, _ := nutrients.Get(want.ndb)
		volumes := f.Volumes()
		if len(volumes) == 0 {
			t.Errorf("%v has no measure of volume", f.Description)
			continue
		}
		density, ok := volumes[0].Density()
		if got := density.Round(9, exact.HalfEven).String(); !ok || volumes[0].Words != want.words || got != want.density {
			t.Errorf("%v: %s gives %s, want %s and %s", f.Description, volumes[0].Words, got, want.words, want.density)
		}
	}
}

// TestVolumesAgree: where one food is measured in cups and in other vessels,
// all give one density but for the rounding of small weights.
func TestVolumesAgree(t *testing.T) {
	milk, _ := nutrients.Get("01077") // cup 244 g, fl oz 30.5 g, tbsp 15 g, quart 976 g
	if got := words(milk.Volumes()); got != "cup; quart; fl oz; tbsp" {
		t.Errorf("volumes: %s", got)
	}
	for _, m := range milk.Volumes() {
		d, _ := m.Density()
		if n := d.Round(2, exact.HalfAway).String(); n != "1.03" && m.Words != "tbsp" {
			t.Errorf("a %s gives %s kg/L", m.Words, n)
		}
	}
}

// TestNoDensity: cups that hold something else than the food give none.
func TestNoDensity(t *testing.T) {
	for _, c := range []struct{ ndb, words string }{
		{"09070", "cup, with pits, yields"},
		{"08123", "cup, dry, yields"},
		{"12155", "cup, in shell, edible yield (7 nuts)"},
		{"21412", "fl oz cup"},
		{"01123", "large"},
	} {
		f, _ := nutrients.Get(c.ndb)
		at := slices.IndexFunc(f.Measures, func(m nutrients.Measure) bool { return m.Words == c.words })
		if at < 0 {
			t.Fatalf("%v: no measure %q", f.Description, c.words)
		}
		if d, ok := f.Measures[at].Density(); ok {
			t.Errorf("%v: %q gives %v kg/L", f.Description, c.words, d)
		}
	}
}

// TestPieces checks the grams of a piece. Source: SR28, household weights; a
// large egg is 50 g.
func TestPieces(t *testing.T) {
	for _, want := range []struct{ ndb, words, kg string }{
		{"01123", "large", "0.05"},
		{"09316", `medium (1-1/4" dia)`, "0.012"},
		{"09003", `medium (3" dia)`, "0.182"},
		{"11352", `Potato medium (2-1/4" to 3-1/4" dia)`, "0.213"},
		{"11246", "leek", "0.089"},
		{"09050", "berries", "0.00136"}, // 50 berries are 68 g
	} {
		f, _ := nutrients.Get(want.ndb)
		pieces := f.Pieces()
		if len(pieces) == 0 || pieces[0].Words != want.words {
			t.Errorf("%v: pieces %s, want %s first", f.Description, words(pieces), want.words)
			continue
		}
		if got := pieces[0].Weight().Round(9, exact.HalfEven).String(); got != want.kg {
			t.Errorf("%v: %s is %s kg, want %s", f.Description, want.words, got, want.kg)
		}
	}
	for _, f := range nutrients.Find("milk") {
		for _, m := range f.Pieces() {
			if strings.HasPrefix(m.Words, "cup") || m.Words == "oz" {
				t.Errorf("%v: %s is no piece", f.Description, m.Words)
			}
		}
	}
}

func words(list []nutrients.Measure) string {
	var words []string
	for _, m := range list {
		words = append(words, m.Words)
	}
	return strings.Join(words, "; ")
}

func TestGet(t *testing.T) {
	for _, ndb := range []string{"01123", "1123"} {
		if f, ok := nutrients.Get(ndb); !ok || f.NDB != "01123" {
			t.Errorf("Get(%q) = %v, %v", ndb, f.Description, ok)
		}
	}
	for _, ndb := range []string{"", "00000", "99999", "011230", "x", "-1123"} {
		if f, ok := nutrients.Get(ndb); ok {
			t.Errorf("Get(%q) found %v", ndb, f.Description)
		}
	}
}

// TestFindFirst: the plainest food comes first.
func TestFindFirst(t *testing.T) {
	for _, c := range []struct{ words, first string }{
		{"strawberr", "STRAWBERRIES,RAW"},
		{"strawberry", "STRAWBERRIES,RAW"},
		{"STRAWBERRIES", "STRAWBERRIES,RAW"},
		{"egg", "EGG,WHL,RAW,FRSH"},
		{"eggs", "EGG,WHL,RAW,FRSH"},
		{"whole egg", "EGG,WHL,RAW,FRSH"},
		{"egg yolk raw", "EGG,YOLK,RAW,FRSH"},
		{"sweetcorn boiled", "CORN,SWT,YEL,CKD,BLD,DRND,WO/SALT"},
		{"corn boiled", "CORN,SWT,YEL,CKD,BLD,DRND,WO/SALT"},
		{"chicken stock", "SOUP,STOCK,CHICK,HOME-PREPARED"},
		{"stock  chicken!", "SOUP,STOCK,CHICK,HOME-PREPARED"},
		{"carrots", "CARROTS,RAW"},
		{"jalapeño", "PEPPERS,JALAPENO,RAW"},
		{"jalapen\u0303o", "PEPPERS,JALAPENO,RAW"},
		{"tomato purée", "TOMATO PRODUCTS,CND,PUREE,WO/SALT"},
		{"milk 3.25", "MILK,WHL,3.25% MILKFAT,W/ ADDED VITAMIN D"},
		{"onion", "ONIONS,RAW"},
		{"potato flesh", "POTATOES,FLESH & SKN,RAW"},
		{"courgettes", "SQUASH,ZUCCHINI,BABY,RAW"},
		{"prawns", "CRUSTACEANS,SHRIMP,RAW (NOT PREVIOUSLY FROZEN)"},
	} {
		found := nutrients.Find(c.words)
		if len(found) == 0 || found[0].Description != c.first {
			t.Errorf("Find(%q) = %v, want %s first", c.words, found[:min(3, len(found))], c.first)
		}
	}
}

func TestFindNothing(t *testing.T) {
	for _, q := range []string{"", "  ", ",;/", "xyzzy", "strawberry xyzzy"} {
		if found := nutrients.Find(q); len(found) > 0 {
			t.Errorf("Find(%q) found %v", q, found[0])
		}
	}
}

// TestFindOrder: the order of the words does not matter.
func TestFindOrder(t *testing.T) {
	a, b := nutrients.Find("raw egg white"), nutrients.Find("white raw egg")
	if fmt.Sprint(a) != fmt.Sprint(b) || len(a) == 0 {
		t.Errorf("%v\n%v", a, b)
	}
}

// TestFindEverything: each food is found by its own words.
func TestFindEverything(t *testing.T) {
	for i, f := range nutrients.Find("c") {
		if i%250 != 0 {
			continue
		}
		for _, q := range []string{f.Description, strings.ToLower(f.Plain())} {
			if !slices.ContainsFunc(nutrients.Find(q), func(g nutrients.Food) bool { return g.NDB == f.NDB }) {
				t.Errorf("%v is not found by %q", f.Description, q)
			}
		}
	}
}

func TestPlain(t *testing.T) {
	for ndb, want := range map[string]string{
		"11168": "corn, sweet, yellow, cooked, boiled, drained, without salt",
		"01077": "milk, whole, 3.25% milkfat, with added vitamin d",
		"11352": "potatoes, flesh and skin, raw",
		"11246": "leeks, (bulb and lower leaf-portion), raw",
		"06172": "soup, stock, chicken, home-prepared",
	} {
		if f, _ := nutrients.Get(ndb); f.Plain() != want {
			t.Errorf("%v: %q, want %q", f.Description, f.Plain(), want)
		}
	}
}

func FuzzFind(f *testing.F) {
	for _, q := range []string{"egg", "w/", "wo/salt", "jalapeño", "’", "\xff", "3.25", "W/W/", "ı"} {
		f.Add(q)
	}
	f.Fuzz(func(t *testing.T, q string) {
		for _, food := range nutrients.Find(q) {
			if food.NDB == "" {
				t.Fatal("an empty food")
			}
		}
	})
}

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		nutrients.Find("egg raw")
	}
}
