package page

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// hostile are words that somebody may have put where a name belongs.
var hostile = []string{
	`</title></svg></style><script>document.title="owned"</script>`,
	`"><img src=x onerror="document.title='owned'">`,
	`{{.Sheet}} ${7*7} <!-- --> ]]> &lt;b&gt; javascript:alert(1)`,
	"\u202Egnirts desrever\u202C", "ملفوف مخلل وطماطم", "👩‍🌾🫙🇨🇦", "e\u0301\u0301\u0301\u0301",
	strings.Repeat("Donaudampfschifffahrtsgulasch", 12),
	"=HYPERLINK(\"http://evil.example\")", "tab\there", "line\u2028end",
}

// hostileLedger is a ledger whose every free text is hostile.
func hostileLedger(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	quote := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
	foods := "food,name,basis,density,fresh_days,keep_months,caution\n"
	receipts := "receipt,date,shop,line,kind,item,count,size,price,note\n"
	packs := "pack,item,date,count,each,dry,cost,place\n"
	shelf := "date,shop,item,size,price,terms\n"
	for i, words := range hostile {
		id := "food-" + string(rune('a'+i)) + strings.Repeat("-long", 11)
		foods += id + "," + quote(words) + ",mass,,5,12," + quote(words) + "\n"
		receipts += "r" + string(rune('a'+i)) + ",2025-01-02," + quote(words) + ",1,food," + id + ",1,1 kg,2.00," + quote(words) + "\n"
		packs += "pack-" + string(rune('a'+i)) + "," + id + ",2025-01-03,2,500 g,50 g,3.00," + quote(words) + "\n"
		shelf += "2025-01-01," + quote(words) + "," + id + ",1 kg,9.00,regular\n" + "2025-02-01," + quote(words) + "," + id + ",1 kg,7.00,offer\n"
	}
	for name, text := range map[string]string{
		"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,UTC\n",
		"foods.csv":    foods, "receipts.csv": receipts, "packs.csv": packs, "shelf.csv": shelf,
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// TestHostileNamesStayHarmless opens a page and labels full of hostile words.
func TestHostileNamesStayHarmless(t *testing.T) {
	dir := hostileLedger(t)
	file := written(t, reportsOf(t, dir))
	tab := browser.Start(t).Open(360)
	tab.Go("file://" + file)
	checkHarmless(t, tab, "file://"+file)
	checkWidth(t, tab, 360)
	checkNamed(t, tab)
	picture(t, tab, "page-hostile")

	g, faults, err := folder.Load(dir, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	d, err := report.Labels(g, figures.LabelQuery{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := WriteLabels(&b, shorten(d, grids["large"].most), LabelOptions{Paper: "a4", Size: "large"}); err != nil {
		t.Fatal(err)
	}
	labels := filepath.Join(t.TempDir(), "labels.html")
	if err := os.WriteFile(labels, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	next := browser.Start(t).Open(1000)
	next.Go("file://" + labels)
	checkHarmless(t, next, "file://"+labels)
	var spills []string
	next.Eval(`[...document.querySelectorAll(".label")].filter(e => e.scrollHeight > e.clientHeight + 1 || e.scrollWidth > e.clientWidth + 1).map(e => e.innerText)`, &spills)
	if len(spills) > 0 {
		t.Errorf("%d labels spill: %q", len(spills), spills[0])
	}
}

// shorten cuts cautions to what a label takes.
func shorten(d report.Told[[]report.Label], most int) report.Told[[]report.Label] {
	for i := range d.Figures {
		words := d.Figures[i].Caution
		for wide(words) > most {
			words = words[:len(words)-1]
		}
		d.Figures[i].Caution = strings.ToValidUTF8(words, "")
	}
	return d
}

// checkHarmless fails when words have become markup, or the browser found
// anything to refuse.
func checkHarmless(t *testing.T, tab *browser.Tab, self string) {
	t.Helper()
	checkQuiet(t, tab, self)
	var strange []string
	tab.Eval(`[...document.querySelectorAll("script, img, iframe, object, embed, [onerror], [onload], a[href^=javascript]")].map(e => e.outerHTML)`, &strange)
	for _, s := range strange {
		t.Errorf("words became markup: %s", s)
	}
	var title, text string
	if tab.Eval("document.title", &title); title == "owned" {
		t.Error("a script has run")
	}
	tab.Eval("document.documentElement.innerHTML", &text)
	for _, r := range []string{"\u202E", "\u2028"} {
		if strings.Contains(text, r) {
			t.Errorf("%+q is in the page", r)
		}
	}
}
