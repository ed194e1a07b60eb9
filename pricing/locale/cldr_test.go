package locale

import (
	"cmp"
	"encoding/xml"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// cldr is where Debian's package unicode-cldr-core has the repository.
const cldr = "/usr/share/unicode/cldr/common"

// TestAgainstCLDR holds every fact of the table to the repository itself, with
// what a locale leaves out taken from its parents, as Unicode Technical Standard
// 35, part 1, "Inheritance", says.
func TestAgainstCLDR(t *testing.T) {
	folder := cmp.Or(os.Getenv("PUTBY_CLDR"), cldr)
	if _, err := os.Stat(folder); err != nil {
		t.Skip("there is no repository: apt-get install unicode-cldr-core")
	}
	r := repository{folder: folder, parents: map[string]string{}, read: map[string]element{}}
	for _, p := range r.open(t, "supplemental/supplementalData.xml").all("parentLocales", "parentLocale") {
		for _, child := range strings.Fields(p.attr("locales")) {
			r.parents[child] = p.attr("parent")
		}
	}
	for i := range table {
		f := &table[i]
		symbol := func(name string) string {
			return r.find(t, f.tag, "numbers", "symbols[latn]", name)
		}
		pattern := func(kind string) string {
			text := r.find(t, f.tag, "numbers", kind+"Formats[latn]", kind+"FormatLength[]", kind+"Format["+map[bool]string{true: "standard"}[kind == "currency"]+"]", "pattern")
			return strings.ReplaceAll(text, nbsp, " ")
		}
		calendar := []string{"dates", "calendars", "calendar[gregorian]"}
		dates := func(length string) string {
			return r.find(t, f.tag, append(calendar, "dateFormats", "dateFormatLength["+length+"]", "dateFormat", "pattern")...)
		}
		month := func(id string) string {
			text := r.find(t, f.tag, append(calendar, "dateTimeFormats", "availableFormats", "dateFormatItem["+id+"]")...)
			return strings.ReplaceAll(text, "L", "M") // the month by itself, alike in numbers
		}
		date, ym := strings.ReplaceAll(dates("short"), "yy", "y"), month("yM")
		figures := ""
		if strings.HasPrefix(f.tag, "en-") {
			figures = date
			date, ym = dates("medium"), month("yMMM")
		}
		if slices.Contains([]string{"M.y", "MM.y", "MM.y."}, ym) {
			ym = "MM/y" // the table's own: 1.2025 reads as a decimal
		}
		number := strings.ReplaceAll(strings.ReplaceAll(pattern("currency"), "#,##,##0.00", "#"), "#,##0.00", "#")
		money, owed, _ := strings.Cut(number, ";")
		wide := map[int]string{0: "#,##0.###", 2: "#,##,##0.###"}[f.later]
		for what, is := range map[string][2]string{
			"point":    {f.point, symbol("decimal")},
			"group":    {f.group, symbol("group")},
			"minus":    {cmp.Or(f.minus, "-"), symbol("minusSign")},
			"sum's .":  {cmp.Or(f.moneyPoint, f.point), cmp.Or(symbol("currencyDecimal"), symbol("decimal"))},
			"sum's ,":  {cmp.Or(f.moneyGroup, f.group), cmp.Or(symbol("currencyGroup"), symbol("group"))},
			"number":   {wide, pattern("decimal")},
			"money":    {f.money, money},
			"owed":     {f.owed, owed},
			"percent":  {f.percent, strings.NewReplacer("#,##,##0", "#", "#,##0", "#").Replace(pattern("percent"))},
			"date":     {f.date, date},
			"figures":  {f.figures, figures},
			"month":    {f.month, ym},
			"currency": {f.sign, cmp.Or(r.find(t, f.tag, "numbers", "currencies", "currency["+f.currency+"]", "symbol[]"), f.currency)},
			"least":    {strings.Repeat("1", cmp.Or(f.least, 1)), strings.Repeat("1", int(r.find(t, f.tag, "numbers", "minimumGroupingDigits")[0]-'0'))},
		} {
			if is[0] != is[1] {
				t.Errorf("%s, %s: %q, and CLDR has %q", f.tag, what, is[0], is[1])
			}
		}
	}
}

// A repository is CLDR's folder as far as it was read.
type repository struct {
	folder  string
	parents map[string]string
	read    map[string]element
}

type element struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []element  `xml:",any"`
	Text     string     `xml:",chardata"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// all returns the elements at a path. A name may have the type, or what else
// tells it from its like, in brackets; empty ones want an element without.
func (e element) all(path ...string) (list []element) {
	if len(path) == 0 {
		return []element{e}
	}
	name, which, bracket := strings.Cut(path[0], "[")
	which = strings.TrimSuffix(which, "]")
	for _, c := range e.Children {
		told := cmp.Or(c.attr("numberSystem"), c.attr("id"), c.attr("alt"), c.attr("type"))
		if c.XMLName.Local == name && (!bracket || told == which) {
			list = append(list, c.all(path[1:]...)...)
		}
	}
	return list
}

func (r repository) open(t *testing.T, name string) element {
	t.Helper()
	if e, ok := r.read[name]; ok {
		return e
	}
	var e element
	data, err := os.ReadFile(filepath.Join(r.folder, name))
	if err == nil {
		err = xml.Unmarshal(data, &e)
	}
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	r.read[name] = e
	return e
}

// find returns the text at a path of a locale, or of the nearest parent that has
// one.
func (r repository) find(t *testing.T, tag string, path ...string) string {
	t.Helper()
	for at := strings.ReplaceAll(tag, "-", "_"); ; {
		for _, e := range r.open(t, "main/"+at+".xml").all(path...) {
			if text := strings.TrimFunc(e.Text, func(r rune) bool { return r == '\n' || r == '\t' }); text != "" && text != "↑↑↑" {
				return text
			}
		}
		parent, has := r.parents[at]
		language, _, region := strings.Cut(at, "_")
		switch {
		case at == "root":
			return ""
		case has:
			at = parent
		case region:
			at = language
		default:
			at = "root"
		}
	}
}
