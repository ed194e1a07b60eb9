package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

const cornerMap = `map,for,column,from,value,how
corner,receipts,encoding,,windows-1252,
corner,receipts,separator,,semicolon,
corner,receipts,decimal,,comma,
corner,receipts,dates,,dmy,
corner,receipts,only,Typ,Kauf | Rückgabe,
corner,receipts,date,Tag,,
corner,receipts,shop,,Corner shop,
corner,receipts,count,Menge,1,
corner,receipts,size,Artikel,,within
corner,receipts,price,Summe,,negate total
diary,runs,sheet,,Cycles 2025,
diary,runs,start,Date + Time,,mdy
diary,runs,load.wet,Wet,,g
diary,runs,phase.primary,Drying,,h
`

func TestMapsFile(t *testing.T) {
	maps, faults := ParseMaps(cornerMap)
	if faults != nil {
		t.Fatal(faults)
	}
	if got := string(PrintMaps(maps)); got != cornerMap {
		t.Errorf("printed:\n%s", got)
	}
	corner := maps[0]
	if corner.Name != "corner" || corner.Target != Receipts || corner.Encoding != Windows1252 || corner.Separator != ';' ||
		corner.Decimal != Comma || corner.Dates != DayMonthYear || len(corner.Only) != 1 || len(corner.Fills) != 5 {
		t.Errorf("%+v", corner)
	}
	if h := corner.Fills[4].How; !h.Negate || !h.Total || h.Within {
		t.Errorf("%+v", h)
	}
	if h := maps[1].Fills[1].How; h.Unit != exact.G {
		t.Errorf("%+v", h)
	}
}

// TestMapsFileFromSpreadsheets: semicolons, a byte order mark, CR LF, columns in
// another order, missing ones, blanks and a target said once.
func TestMapsFileFromSpreadsheets(t *testing.T) {
	maps, faults := ParseMaps("\ufefffor;map;column;from;how\r\nprices; s ;date;Day;dmy\r\n;;;;\r\n;s;price;Price;\r\n")
	if faults != nil || len(maps) != 1 || len(maps[0].Fills) != 2 || maps[0].Target != Prices {
		t.Errorf("%+v, %v", maps, faults)
	}
}

// TestMapsFileFaults: all faults of a file come at once, each at its line and
// column.
func TestMapsFileFaults(t *testing.T) {
	_, faults := ParseMaps(`map,for,column,from,value,how
bad name,receipts,date,Tag,,
a,invoices,date,Tag,,
b,receipts,colour,Tag,,
b,prices,date,Tag,,
b,receipts,date,Tag,,
b,,date,Day,,
b,,item,,,
b,,price,Preis,,sideways
b,,dates,,ydm,
b,,decimal,,dot,
b,,encoding,,ebcdic,
b,,separator,,dash,
b,,only,,x,
b,,note,"N,,
b,,shop,Laden,,,,extra
`)
	want := []string{
		"2 map", "3 for", "4 column", "5 for", "7 column", "8 from", "9 how", "10 value", "11 value", "12 value", "13 value",
		"14 from", "15 ", "16 ",
	}
	var got []string
	for _, f := range faults {
		if f.File != MapsFile || f.What == "" {
			t.Errorf("%+v", f)
		}
		got = append(got, fmt.Sprintf("%d %s", f.Line, f.Field))
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q\n%v", got, want, faults)
	}
	for _, text := range []string{"a,b\n", "for\nreceipts\n", "\xff\n"} {
		if _, faults := ParseMaps(text); len(faults) != 1 {
			t.Errorf("%q: %v", text, faults)
		}
	}
	if maps, faults := ParseMaps(""); maps != nil || faults != nil {
		t.Errorf("an empty file is %v, %v", maps, faults)
	}
}

func TestNamesFileFaults(t *testing.T) {
	_, faults := ParseNames(`map,name,kind,item,size
,Milk,fud,milk,
,--,food,milk,
,Milk,food,milk,1 parsec
,Milk,food,milk,0 L
,Milk,,,
,Cash back,skip,,
`)
	var got []string
	for _, f := range faults {
		got = append(got, fmt.Sprintf("%d %s", f.Line, f.Field))
	}
	if want := []string{"2 kind", "3 name", "4 size", "5 size", "6 item"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestColumnsAreTheLedgers: every column that has a way of reading is one of
// the ledger's, and every phase is a phase.
func TestColumnsAreTheLedgers(t *testing.T) {
	for _, target := range []Target{Receipts, Runs, Prices} {
		for _, column := range target.Columns() {
			if target.column(column).Name == "" {
				t.Errorf("%s has no column %s", target, column)
			}
		}
	}
	for i, phase := range phases() {
		if ledger.PhaseName(i).String() != phase {
			t.Errorf("phase %d is %s, not %s", i, ledger.PhaseName(i), phase)
		}
	}
	for target, tables := range headerTables() {
		for _, table := range tables {
			if !slices.Contains(target.Columns(), table.column) {
				t.Errorf("%s has no column %s", target, table.column)
			}
			for _, name := range table.names {
				if ledger.Fold(name) != name {
					t.Errorf("%q is not folded", name)
				}
			}
		}
	}
}

// drawHow draws any way of reading a cell.
func drawHow(t *rapid.T) How {
	h := How{
		Order:   rapid.SampledFrom([]Order{AnyOrder, DayMonthYear, MonthDayYear, YearMonthDay, Serial}).Draw(t, "order"),
		Decimal: rapid.SampledFrom([]Decimal{AnyDecimal, Point, Comma}).Draw(t, "decimal"),
		Unit:    rapid.SampledFrom([]exact.Unit{exact.NoUnit, exact.G, exact.L, exact.Wh, exact.Ea}).Draw(t, "unit"),
		Negate:  rapid.Bool().Draw(t, "negate"), Total: rapid.Bool().Draw(t, "total"), Within: rapid.Bool().Draw(t, "within"),
	}
	if i := rapid.IntRange(-1, len(spans)-1).Draw(t, "span"); i >= 0 {
		h.Span = spans[i].span
	}
	return h
}

var headerText = rapid.StringMatching(`[A-Za-zäöü€()/"';,=*+-]([ A-Za-z0-9äöü€()/"';,.*+-]{0,12}[A-Za-z0-9)"])?`)

func drawMap(t *rapid.T, name string) Map {
	m := Map{
		Name: name, Target: rapid.SampledFrom([]Target{Receipts, Runs, Prices}).Draw(t, "target"),
		Encoding:  rapid.SampledFrom([]Encoding{Guess, UTF8, UTF16LE, UTF16BE, Windows1252}).Draw(t, "encoding"),
		Separator: rapid.SampledFrom([]byte{0, ',', ';', '\t', '|'}).Draw(t, "separator"),
		Decimal:   rapid.SampledFrom([]Decimal{AnyDecimal, Point, Comma}).Draw(t, "decimal"),
		Dates:     rapid.SampledFrom([]Order{AnyOrder, DayMonthYear, Serial}).Draw(t, "dates"),
		Sheet:     rapid.SampledFrom([]string{"", "Sheet 1", "Bons, alle"}).Draw(t, "sheet"),
	}
	columns := rapid.SliceOfNDistinct(rapid.SampledFrom(m.Target.Columns()), 1, -1, func(c string) string { return c }).Draw(t, "columns")
	for _, c := range columns {
		m.Fills = append(m.Fills, Fill{c, headerText.Draw(t, "from"), rapid.SampledFrom([]string{"", "1", "a \"b\""}).Draw(t, "value"), drawHow(t)})
	}
	if rapid.Bool().Draw(t, "only") {
		m.Only = []Only{{headerText.Draw(t, "only from"), rapid.SliceOfN(rapid.SampledFrom([]string{"<0", "Kauf", "card, paid"}), 1, 3).Draw(t, "values")}}
	}
	return m
}

// TestMapsComeBack: parse(print(maps)) = maps, and so for names.
func TestMapsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		maps := []Map{drawMap(t, "a"), drawMap(t, "b.2")}
		text := string(PrintMaps(maps))
		got, faults := ParseMaps(text)
		if faults != nil || fmt.Sprintf("%#v", got) != fmt.Sprintf("%#v", maps) {
			t.Fatalf("%s\nread: %#v\nwant: %#v\n%v", text, got, maps, faults)
		}
		var names []Name
		for range rapid.IntRange(0, 5).Draw(t, "names") {
			names = append(names, Name{
				rapid.SampledFrom([]string{"", "a"}).Draw(t, "map"), "*" + headerText.Draw(t, "name") + "x",
				rapid.SampledFrom(nameKinds).Draw(t, "kind"), "leeks", rapid.SampledFrom([]string{"", "1.5 L", "12 ea"}).Draw(t, "size"),
			})
		}
		gotNames, faults := ParseNames(string(PrintNames(names)))
		if faults != nil || !slices.Equal(gotNames, names) {
			t.Fatalf("read: %q\nwant: %q\n%v", gotNames, names, faults)
		}
	})
}

// FuzzParseMaps: no text makes the parsers panic, and what they take comes
// back from what is printed of it.
func FuzzParseMaps(f *testing.F) {
	f.Add(cornerMap)
	f.Add("map,for\n\"")
	f.Add("map,name,kind,item,size\n,Milk*,food,milk,1 L\n")
	f.Fuzz(func(t *testing.T, text string) {
		if maps, faults := ParseMaps(text); faults == nil {
			again, faults := ParseMaps(string(PrintMaps(maps)))
			if faults != nil || string(PrintMaps(again)) != string(PrintMaps(maps)) {
				t.Fatalf("%q became %q, %v", text, PrintMaps(maps), faults)
			}
		}
		if names, faults := ParseNames(text); faults == nil {
			again, faults := ParseNames(string(PrintNames(names)))
			if faults != nil || !slices.Equal(again, names) {
				t.Fatalf("%q became %q, %v", text, PrintNames(names), faults)
			}
		}
	})
}

func TestGlossary(t *testing.T) {
	names := mustNames(t, `,Oat*,food,oat-drink,1 L
,Oat drink barista,food,barista,
,*LEEK*,,leeks,
x,Oat*,food,own-oat,
y,Oat drink barista,food,other,
`)
	g := glossaryOf(names, "x", false)
	for text, want := range map[string]string{
		"Oat Drink BARISTA!": "barista", // a plain name before a pattern
		"OAT flakes":         "own-oat", // the map's own before everyone's
		"2 big leeks, org.":  "leeks",
		"Goat cheese":        "",
		"":                   "",
	} {
		got := ""
		for range 2 { // the second time from the cache
			if n := g.find(text); n != nil {
				got = n.Item
			}
		}
		if got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if strings.Contains(string(PrintNames(nil)), "\n,") {
		t.Error("no names print a row")
	}
}
