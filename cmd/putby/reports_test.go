package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/clipperhouse/displaywidth"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/ledgertest"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const sampleDir = "../../testdata/sample"

// everyReport builds the reports of a household in the ways they are asked.
func everyReport(t *testing.T, dir string) []reports.Doc {
	t.Helper()
	g, faults, err := folder.Load(dir, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate, Itemize: true})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	q := figures.Query{}
	var list []reports.Doc
	add := func(d reports.Doc, err error) {
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, d)
	}
	var budgets figures.Budgets
	budgets[figures.FoodSpent], budgets[figures.ElectricitySpent] = exact.Some(exact.MustMoney("80")), exact.Some(exact.MustMoney("4.5"))
	for _, each := range []figures.Each{figures.EachMonth, figures.EachYear, figures.EachShop, figures.EachKind} {
		add(reports.Month(g, figures.MonthQuery{Query: q, Each: each, Budgets: budgets}))
	}
	add(reports.Month(g, figures.MonthQuery{Query: q, Each: figures.EachWeek}))
	add(reports.Compare(g, figures.CompareQuery{Query: q, Rank: figures.CostPer1000Kcal}))
	add(question.OnHand(g, figures.OnHandQuery{Query: q}))
	add(question.OnHand(g, figures.OnHandQuery{Query: q, Due: exact.Some(600)}))
	add(reports.Payback(g, figures.PaybackQuery{Query: q}))
	for _, name := range []string{g.Receipts.At(0).Receipt, g.Records.Runs[0].ID, g.Records.Packs.At(g.Records.Packs.Len() - 1).ID} {
		add(question.Trace(g, figures.TraceQuery{Name: name}))
	}
	return append(list, powerReports(t, g)...)
}

func rendered(t *testing.T, d reports.Doc, f render.Format, o render.Options) string {
	t.Helper()
	var out bytes.Buffer
	if err := render.Render(&out, d, f, o); err != nil {
		t.Fatalf("%s: %v", d.Title, err)
	}
	return out.String()
}

// Every figure of every table of the household's reports is the same in JSON,
// CSV, Markdown, HTML and on the terminal: exact for machines, rounded by the
// rule of its kind for people.
func TestReportsAgreeInAllFormats(t *testing.T) {
	for _, d := range everyReport(t, sampleDir) {
		var fromJSON map[string]any
		dec := json.NewDecoder(strings.NewReader(rendered(t, d, render.JSON, render.Options{})))
		dec.UseNumber()
		if err := dec.Decode(&fromJSON); err != nil {
			t.Fatal(err)
		}
		html := rendered(t, d, render.HTML, render.Options{})
		markdown := lineFields(strings.NewReplacer("|", " ", "\\", "").Replace(rendered(t, d, render.Markdown, render.Options{})))
		terminal := lineFields(rendered(t, d, render.Table, render.Options{}))
		for _, f := range d.Fields {
			if tab, ok := f.Node.(*reports.Table); ok && f.Key != "" {
				agreesForMachines(t, d, f.Key, tab, fromJSON[f.Key])
				if f.Title != "" {
					agreesForPeople(t, d, tab, html, markdown, terminal)
				}
			}
		}
	}
}

// lineFields are the words of each line, with one space between.
func lineFields(s string) []string {
	var list []string
	for line := range strings.Lines(s) {
		list = append(list, strings.Join(strings.Fields(line), " "))
	}
	return list
}

func agreesForMachines(t *testing.T, d reports.Doc, key string, tab *reports.Table, fromJSON any) {
	t.Helper()
	rows, _ := fromJSON.([]any)
	records, err := csv.NewReader(strings.NewReader(rendered(t, d, render.CSV, render.Options{Section: key}))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != len(tab.Rows) || len(records) != len(tab.Rows)+1 {
		t.Fatalf("%s: %s has %d rows, JSON %d, CSV %d", d.Title, key, len(tab.Rows), len(rows), len(records)-1)
	}
	for r, row := range tab.Rows {
		for c, column := range tab.ValueColumns() {
			if column.Key == "" {
				continue
			}
			want := row.Cells[c].Exact(d.Currency)
			have := rows[r].(map[string]any)[column.Key]
			if number, ok := have.(json.Number); ok {
				have = number.String()
			}
			if yes, ok := have.(bool); ok {
				have = reports.YesNoOf(yes).Text()
			}
			if have == nil != row.Cells[c].IsNull() || have != nil && have != want {
				t.Errorf("%s: JSON has %v for %s of row %d of %s, not %q", d.Title, have, column.Key, r, key, want)
			}
			if have := records[r+1][slices.Index(records[0], column.Key)]; have != want {
				t.Errorf("%s: CSV has %q for %s of row %d of %s, not %q", d.Title, have, column.Key, r, key, want)
			}
		}
	}
}

func agreesForPeople(t *testing.T, d reports.Doc, tab *reports.Table, html string, markdown, terminal []string) {
	t.Helper()
	all := append(slices.Clone(tab.Rows), tab.Totals...)
	for _, row := range all {
		if row.Minor || row.Spare && !slices.ContainsFunc(row.Cells, moves) {
			continue
		}
		var words []string
		for c, column := range tab.ValueColumns() {
			v := row.Cells[c]
			shown := v.Shown(d.Currency, d.Show)
			if column.Title == "" || v.IsNull() && len(tab.Totals) > 0 {
				continue // a total has no "-"
			}
			if column.Spare && !slices.ContainsFunc(all, func(r reports.Row) bool { return moves(r.Cells[c]) }) {
				continue
			}
			words = append(words, shown)
			if v.IsNumber() && !strings.Contains(html, titled(v.Exact(d.Currency), shown)) {
				t.Errorf("%s: HTML has no %s", d.Title, titled(v.Exact(d.Currency), shown))
			}
		}
		line := strings.Join(words, " ")
		for where, lines := range map[string][]string{"Markdown": markdown, "the terminal": terminal} {
			if !slices.ContainsFunc(lines, func(l string) bool {
				return strings.HasPrefix(strings.ReplaceAll(l, " - ", " "), strings.ReplaceAll(line, " - ", " "))
			}) {
				t.Errorf("%s: %s has no line %q", d.Title, where, line)
			}
		}
	}
}

// titled is a figure's cell in HTML from its title on: one that hides no digits
// has none.
func titled(whole, shown string) string {
	digits := func(s string) string {
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		return s
	}
	if digits(whole) == digits(shown) {
		return ">" + shown + "<"
	}
	return fmt.Sprintf("title=%q>%s<", whole, shown)
}

// moves reports whether a figure has a digit other than 0: people are spared
// columns and rows that may be missing and have none.
func moves(v reports.Value) bool {
	return v.IsNumber() && strings.Trim(v.Exact(exact.MustCurrency("EUR")), "-0.") != ""
}

// Names may be anything: markup, quotes, formulas, letters from right to left,
// emoji, commands to the terminal.
var nastyNames = []string{
	`<script>alert("x")</script>`, `O'Brien & "Sons"`, "=HYPERLINK(A1)", "-2+3", "@sum", "חנות הפינה", "👩‍🌾 farm", "red \x1b[31m bell\a", "pipe | bar", "\u202Eevil",
}

// nastyLedger is the small ledger with such names wherever a name is free.
func nastyLedger(t *testing.T, name string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../testdata/small")); err != nil {
		t.Fatal(err)
	}
	quoted := `"` + strings.ReplaceAll(name, `"`, `""`) + `"`
	for file, replace := range map[string]string{ledger.ReceiptsFile: "Corner shop", ledger.PacksFile: "shelf", ledger.DrawsFile: "two bottles for supper", ledger.FoodsFile: "Bring to the boil before eating."} {
		path := filepath.Join(dir, file)
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, bytes.ReplaceAll(text, []byte(replace), []byte(quoted)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestReportsKeepNamesHarmless(t *testing.T) {
	names := nastyNames
	if ledgertest.Small() {
		names = names[len(names)-2:]
	}
	for _, name := range names {
		for _, d := range everyReport(t, nastyLedger(t, name)) {
			for width := 20; width <= 200; width += 45 {
				noControls(t, name, rendered(t, d, render.Table, render.Options{Width: width, Chart: true}))
			}
			if html := rendered(t, d, render.HTML, render.Options{}); strings.Contains(html, "<script") || strings.Contains(html, "</script") {
				t.Errorf("%q: the markup is live", name)
			}
			noFormulas(t, name, d)
		}
	}
}

func noControls(t *testing.T, name, out string) {
	t.Helper()
	for _, r := range out {
		if unicode.IsControl(r) && r != '\n' || unicode.Is(unicode.Bidi_Control, r) && r != '\u200E' {
			t.Fatalf("%q: %U reaches the terminal", name, r)
		}
	}
}

// noFormulas holds that no text of a CSV table begins as a formula does, and
// that numbers, negative ones too, are as they are.
func noFormulas(t *testing.T, name string, d reports.Doc) {
	t.Helper()
	for _, f := range d.Fields {
		tab, ok := f.Node.(*reports.Table)
		if !ok || f.Key == "" {
			continue
		}
		records, err := csv.NewReader(strings.NewReader(rendered(t, d, render.CSV, render.Options{Section: f.Key}))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range tab.Rows {
			for c, column := range tab.ValueColumns() {
				if column.Key == "" {
					continue
				}
				cell := records[r+1][slices.Index(records[0], column.Key)]
				if v := row.Cells[c]; v.IsNumber() && cell != v.Exact(d.Currency) {
					t.Errorf("%q: %s is written %q", name, v.Exact(d.Currency), cell)
				} else if v.Kind() == reports.Text && cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
					t.Errorf("%q: %q begins like a formula", name, cell)
				}
			}
		}
	}
}

// A report fits the terminal, whatever its width; only a number is never cut.
func TestReportsFitTheTerminal(t *testing.T) {
	for _, d := range everyReport(t, sampleDir) {
		for _, width := range []int{40, 60, 80, 120} {
			for line := range strings.Lines(rendered(t, d, render.Table, render.Options{Width: width, Chart: true})) {
				if w := displaywidth.String(strings.TrimSuffix(line, "\n")); w > width {
					t.Errorf("%s at %d columns has a line of %d: %s", d.Title, width, w, line)
				}
			}
		}
	}
}

// Every example in the help of the household's reports runs on the sample.
func TestReportExamplesRun(t *testing.T) {
	var quiet bytes.Buffer
	env := environment{stdin: strings.NewReader(""), stdout: &quiet, stderr: &quiet, getenv: func(string) string { return "" }, now: time.Now}
	root := newRootCommand(&app{environment: env})
	for _, name := range []string{"month", "compare", "onhand", "payback", "trace"} {
		cmd, _, err := root.Find([]string{name})
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(cmd.Example) {
			args := append(strings.Fields(line)[1:], "--ledger", sampleDir)
			quiet.Reset()
			if status := run(t.Context(), args, env); status != exitDone {
				t.Errorf("%s ends with %d: %s", strings.TrimSpace(line), status, quiet.String())
			}
		}
	}
}
