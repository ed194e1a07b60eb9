package page

import (
	"bytes"
	"encoding/csv"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"putby/cmd/putby/internal/render"
	"putby/ledger/figures"
	"putby/ledger/report"
)

// html of a page.
func htmlOf(t testing.TB, r Reports) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, r, nightOf(r)); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// csvOf is a part of a report as the CSV export has it: rows by column.
func csvOf(t testing.TB, d report.Doc, section string) (rows []map[string]string) {
	t.Helper()
	var b bytes.Buffer
	if err := render.Render(&b, d, render.CSV, render.Options{Section: section}); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, record := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// A drawn part is a rectangle of a chart with what it says.
type drawn struct{ class, x, y, w, h, tip string }

var rectangle = regexp.MustCompile(`<rect class="part (\w+)" x="([\d.]+)%?" y="([\d.]+)" width="([\d.]+)%?" height="([\d.]+)"><title>([^<]*)</title></rect>`)

// drawnIn finds the parts of one chart in a page.
func drawnIn(t testing.TB, page, id string) (list []drawn) {
	t.Helper()
	_, chart, ok := strings.Cut(page, `<figure class="chart" id="`+id+`">`)
	if !ok {
		t.Fatalf("there is no chart %s", id)
	}
	chart, _, _ = strings.Cut(chart, "</figure>")
	for _, m := range rectangle.FindAllStringSubmatch(chart, -1) {
		list = append(list, drawn{m[1], m[2], m[3], m[4], m[5], html.UnescapeString(m[6])})
	}
	return list
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	n, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// monthKeys are the columns of the month report that the parts of columns are
// said to be.
var monthKeys = map[string]string{
	"food": "food_spent", "electricity": "electricity", "supplies": "supplies_spent", "services": "services_spent", "other": "other_spent",
	"saved": "saved", "lost, spoiled, missing": "lost", "spoiled in store": "spoiled", "missing": "missing", "fresh food spoiled": "fresh_spoiled",
}

// TestColumnsAreTheMonths reads the charts by months back from the page: every
// part says the figure of the report with all its digits, none is left out,
// and all are drawn to one scale.
func TestColumnsAreTheMonths(t *testing.T) {
	r := reportsOf(t, sampleDir)
	page, rows := htmlOf(t, r), csvOf(t, r.Month.Doc, "rows")
	for id, parts := range map[string][]partOf[figures.Tally]{"spent": spentParts, "saved": savedParts} {
		said, scale := map[string]bool{}, 0.0
		for _, d := range drawnIn(t, page, id) {
			said[d.tip] = true
			_, figure, _ := strings.Cut(d.tip, ": ")
			value := number(t, strings.TrimSuffix(figure, " CAD"))
			if h := number(t, d.h); h > 20 {
				if scale == 0 {
					scale = h / value
				}
				if math.Abs(h-value*scale) > 0.3 {
					t.Errorf("%s is %s pixels high, at %.4f pixels each it is %.1f", d.tip, d.h, scale, value*scale)
				}
			}
		}
		count := 0
		for _, row := range rows {
			for _, p := range parts {
				if strings.Trim(row[monthKeys[p.name]], "0.") == "" {
					continue
				}
				count++
				month := stacksOf(r.Month.Figures.Rows, parts)[0].month
				for ; month.String()[:7] != row["month"]; month = month.AddMonths(1) {
				}
				if tip := monthName(month) + ", " + p.name + ": " + row[monthKeys[p.name]] + " CAD"; !said[tip] {
					t.Errorf("chart %s does not say %q", id, tip)
				}
			}
		}
		if count == 0 || len(said) != count {
			t.Errorf("chart %s draws %d parts of %d figures", id, len(said), count)
		}
	}
}

var barItem = regexp.MustCompile(`<li[^>]*><b><bdi>([^<]*)</bdi>(?s:.*?)</li>`)

// saidInBars is what the bars of a chart say, behind the name of their row.
func saidInBars(t testing.TB, page, id string) map[string]bool {
	t.Helper()
	_, chart, ok := strings.Cut(page, `<figure class="chart" id="`+id+`">`)
	if !ok {
		t.Fatalf("there is no chart %s", id)
	}
	chart, _, _ = strings.Cut(chart, "</figure>")
	said := map[string]bool{}
	for _, item := range barItem.FindAllStringSubmatch(chart, -1) {
		for _, tip := range regexp.MustCompile(`<title>([^<]*)</title>`).FindAllStringSubmatch(item[0], -1) {
			if text := html.UnescapeString(tip[1]); !strings.HasPrefix(text, "in all: ") { // of a bar that is cut
				said[html.UnescapeString(item[1])+", "+text] = true
			}
		}
	}
	return said
}

// namesOfFoods are the names of the sample's foods by identifier: people read
// the one, CSV has the other.
func namesOfFoods(t *testing.T) map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join(sampleDir, "foods.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]string{}
	for _, row := range rows[1:] {
		names[row[0]] = row[1]
	}
	return names
}

// TestBarsAreTheFoods does the same for what a unit costs, part by part and
// beside the shelf price.
func TestBarsAreTheFoods(t *testing.T) {
	r := reportsOf(t, sampleDir)
	page := htmlOf(t, r)
	rows, parts := csvOf(t, r.Compare.Doc, "rows"), csvOf(t, r.Compare.Doc, "parts")
	names := namesOfFoods(t)
	for _, unit := range []string{"L", "kg", "ea"} {
		said := saidInBars(t, page, "per-"+unit)
		count := 0
		for i, row := range rows {
			if row["unit"] != unit {
				continue
			}
			for _, p := range costParts {
				if figure := parts[i][p.name+"_per_unit"]; strings.Trim(figure, "0.") != "" {
					count++
					if tip := names[row["item"]] + ", " + p.name + ": " + figure + " CAD per " + unit; !said[tip] {
						t.Errorf("the bars do not say %q", tip)
					}
				}
			}
			count++
			beside := ", shelf price: "
			if r.Compare.Figures.Foods[i].OfBatch { // no shop's price of it is known
				beside = ", what it is made of: "
			}
			if shelf := names[row["item"]] + beside + row["shelf_per_unit"] + " CAD per " + unit; !said[shelf] {
				t.Errorf("the page does not say %q", shelf)
			}
		}
		if count == 0 || len(said) != count {
			t.Errorf("per %s there are %d parts and prices of %d figures", unit, len(said), count)
		}
	}
}

// TestEveryFigureIsInATable finds every figure of the reports in the page's
// tables, shown and whole.
func TestEveryFigureIsInATable(t *testing.T) {
	r := reportsOf(t, sampleDir)
	page := htmlOf(t, r)
	for _, c := range []struct {
		d        report.Doc
		sections []string
	}{
		{r.Month.Doc, []string{"rows"}}, {r.Compare.Doc, []string{"rows", "parts", "spread"}},
		{r.OnHand.Doc, []string{"packs", "fresh", "running", "awaiting", "foods", "supplies", "machines"}}, {r.Payback.Doc, []string{"rows", "sooner", "foods"}},
	} {
		for _, section := range c.sections {
			table, _ := nodeOf(c.d.Fields, section).(*report.Table)
			for _, row := range table.Rows {
				for i, v := range row.Cells {
					if !v.IsNumber() || table.ValueColumns()[i].Title == "" {
						continue
					}
					whole, shown := v.Exact(c.d.Currency), v.Shown(c.d.Currency, c.d.Show)
					if !strings.Contains(page, `title="`+whole+`">`+shown) && (!sameFigure(whole, shown) || !strings.Contains(page, ">"+shown+"</t")) {
						cell := whole + ", shown as " + shown
						t.Fatalf("%s, %s: the page lacks %s", section, table.ValueColumns()[i].Key, cell)
					}
				}
			}
		}
	}
	for _, key := range []string{"net", "saved", "lost"} {
		v, _ := nodeOf(nodeOf(r.Month.Fields, "totals").(report.Object), key).(report.Value)
		if cell := `title="` + v.Exact(r.Month.Currency) + ` CAD">` + v.Shown(r.Month.Currency, r.Month.Show); !strings.Contains(page, cell) {
			t.Errorf("the account lacks %s", cell)
		}
	}
}

// nodeOf is a part of a report by its key.
func nodeOf(fields []report.Field, key string) report.Node {
	i := slices.IndexFunc(fields, func(f report.Field) bool { return f.Key == key })
	if i < 0 {
		return nil
	}
	return fields[i].Node
}

// sameFigure reports whether a figure as it is shown has all its digits.
func sameFigure(whole, shown string) bool {
	whole, shown = strings.TrimRight(whole, "0"), strings.TrimRight(shown, "0")
	return strings.TrimSuffix(whole, ".") == strings.TrimSuffix(shown, ".")
}

// TestPageKeepsItsPolicy holds a page to what its content policy says, so that
// a browser has nothing to refuse.
func TestPageKeepsItsPolicy(t *testing.T) {
	page := htmlOf(t, reportsOf(t, sampleDir))
	for _, never := range []string{"<script", " style=", "javascript:", " onload=", " onclick=", "src=\"", "@import", "<iframe", "<link rel=\"stylesheet"} {
		if strings.Contains(page, never) {
			t.Errorf("the page has %q", never)
		}
	}
	for _, link := range regexp.MustCompile(`(?i)(https?:)?//[^\s"')]+`).FindAllString(page, -1) {
		if !strings.HasPrefix(link, "http://www.w3.org/2000/svg") && strings.Contains(link, ":") {
			t.Errorf("the page names %s", link)
		}
	}
	_, style, _ := strings.Cut(page, "<style>")
	style, _, _ = strings.Cut(style, "</style>")
	if style != string(pageSheet(false).CSS) {
		t.Error("the styles are not those whose hash the policy has")
	}
	if again := htmlOf(t, reportsOf(t, sampleDir)); again != page {
		t.Error("the same ledger gives another page")
	}
}

// TestEmptyLedgerHasAPage writes the page of a ledger without a record.
func TestEmptyLedgerHasAPage(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(dir+"/settings.csv", []byte("setting,value\nformat,1\ncurrency,JPY\nzone,UTC\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	page := htmlOf(t, reportsOf(t, dir))
	for _, want := range []string{"</html>", "No pack is in store.", "No fresh food is in hand."} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(page, "<no value>") || strings.Contains(page, "2147483") {
		t.Error("the page shows what is not there")
	}
}
