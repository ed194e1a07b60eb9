package intake

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// workbook makes an .xlsx file of one sheet; from1904 sets its calendar.
func workbook(t testing.TB, sheet string, from1904 bool, rows ...[]any) []byte {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	if err := book.SetSheetName("Sheet1", sheet); err != nil {
		t.Fatal(err)
	}
	if err := book.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &from1904}); err != nil {
		t.Fatal(err)
	}
	for i, row := range rows {
		cell, _ := excelize.CoordinatesToCellName(1, i+1)
		if err := book.SetSheetRow(sheet, cell, &row); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	if err := book.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestReadWorkbook(t *testing.T) {
	data := workbook(t, "Bons", false,
		[]any{"Date", "Item", "Price"}, nil, []any{45718, "Oat drink", 2.99}, []any{45719.770833333336, "", 0.1 + 0.2}, []any{nil, "late"})
	table, err := Read(bytes.NewReader(data), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if f := table.Form; !f.Workbook || f.Sheet != "Bons" || f.From1904 || f.String() != `workbook, sheet "Bons"` {
		t.Errorf("form %+v", f)
	}
	want := []Row{
		{1, 1, []string{"Date", "Item", "Price"}},
		{3, 3, []string{"45718", "Oat drink", "2.99"}},
		{4, 4, []string{"45719.7708333333", "", "0.3"}}, // the library cuts to 15 digits too
		{5, 5, []string{"", "late"}},
	}
	if table.Len() != len(want) {
		t.Fatalf("rows %v", table)
	}
	for i := range want {
		r := table.Row(i)
		if r.Line != want[i].Line || strings.Join(r.Cells, "|") != strings.Join(want[i].Cells, "|") {
			t.Errorf("row %v, want %v", r, want[i])
		}
	}
}

// TestWorkbookDates: dates come out the same from both calendars.
func TestWorkbookDates(t *testing.T) {
	m := Map{Name: "x", Target: Prices, Fills: []Fill{
		{Column: "date", From: "Date"}, {Column: "item", From: "Item"}, {Column: "size", Value: "1 kg"}, {Column: "shop", Value: "Hofladen"},
		{Column: "price", From: "Price"},
	}}
	for _, c := range []struct {
		from1904 bool
		serial   float64
	}{{false, 45718}, {true, 44256}} {
		data := workbook(t, "S", c.from1904, []any{"Date", "Item", "Price"}, []any{c.serial, "leeks", 2.9900000000000002},
			[]any{"2025-03-02", "leeks", 3}, []any{20250302, "leeks", "4,50 €"}, []any{60, "leeks", 5})
		table, err := Read(bytes.NewReader(data), Options{Sheet: "s"})
		if err != nil {
			t.Fatal(err)
		}
		plan, err := m.Plan(table, PlanOptions{Records: foods("leeks")})
		if err != nil {
			t.Fatal(err)
		}
		got := rowsOf(plan, "shelf.csv", "date", "price")
		want := "2025-03-02 2.99; 2025-03-02 3; 2025-03-02 4.50"
		if c.from1904 {
			want += "; 1904-03-01 5"
		}
		if got != want {
			t.Errorf("1904 %v: %s, want %s", c.from1904, got, want)
		}
		if bad := len(plan.Bad); bad != 1 && !c.from1904 || bad > 0 && c.from1904 {
			t.Errorf("bad: %v", plan.Bad)
		}
	}
}

// TestWorkbookNumbers: stored numbers have a point whatever texts beside them
// have, and what may be either is refused.
func TestWorkbookNumbers(t *testing.T) {
	data := workbook(t, "S", false, []any{"Date", "Item", "Price"}, []any{45718, "a", "1.234,50"}, []any{45718, "b", 2.5},
		[]any{45718, "c", "3,20 €"}, []any{45718, "d", 1.234})
	table, err := Read(bytes.NewReader(data), Options{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := Propose(table, Receipts, "x", nil)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := m.Plan(table, PlanOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if got := rowsOf(plan, "receipts.csv", "item", "price"); got != "a 1234.50; b 2.5; c 3.20" {
		t.Errorf("rows: %s", got)
	}
	if len(plan.Bad) != 1 || plan.Bad[0].Line != 5 || !strings.Contains(plan.Bad[0].What, "stored number or a text") {
		t.Errorf("bad: %v", plan.Bad)
	}
}

func TestReadRefuses(t *testing.T) {
	good := workbook(t, "Bons", false, []any{"a", "b"}, []any{1, 2})
	wide := make([]any, MaxCells+1)
	for i := range wide {
		wide[i] = i
	}
	for _, c := range []struct {
		name string
		data string
		o    Options
		kind error
		says string
	}{
		{"no such sheet", string(good), Options{Sheet: "Taxes"}, ErrNoSheet, `no sheet "Taxes"`},
		{"cut", string(good[:len(good)/2]), Options{}, ErrFormat, "the workbook cannot be read"},
		{"a zip of something else", zipOf(t, "readme.txt", "hello"), Options{}, ErrFormat, "the workbook cannot be read"},
		{"an older workbook", oleMagic + "rest", Options{}, ErrFormat, "older format"},
		{"wide", string(workbook(t, "S", false, wide)), Options{}, ErrTooLarge, "line 1: the row has more than 1,000 cells"},
		{"long cell", string(workbook(t, "S", false, []any{"a"}, []any{strings.Repeat("x", 32767)})) + "", Options{}, nil, ""},
		{"empty", "", Options{}, ErrFormat, "the file has no rows"},
		{"blank", "\n ,, \n,,\n", Options{}, ErrFormat, "the file has no rows"},
		{"empty sheet", string(workbook(t, "S", false)), Options{}, ErrFormat, "the file has no rows"},
	} {
		_, err := Read(strings.NewReader(c.data), c.o)
		if !errors.Is(err, c.kind) || c.kind != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func zipOf(t testing.TB, name, text string) string {
	t.Helper()
	return string(packed(t, map[string]string{name: text}))
}

// sheetXML makes a workbook whose only sheet has the given rows as XML.
func sheetXML(t testing.TB, rows string) []byte {
	t.Helper()
	const main = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	return packed(t, map[string]string{
		"[Content_Types].xml":        `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
		"_rels/.rels":                `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook ` + main + `><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   `<worksheet ` + main + `><sheetData>` + rows + `</sheetData></worksheet>`,
	})
}

func TestSheetXML(t *testing.T) {
	table, err := Read(bytes.NewReader(sheetXML(t, `<row r="7"><c r="B7"><v>5</v></c></row>`)), Options{})
	if err != nil || table.Len() != 1 || table.Row(0).Line != 7 || strings.Join(table.Row(0).Cells, "|") != "|5" {
		t.Fatalf("%+v, %v", table, err)
	}
}

// TestBrokenSheet: a sheet that is no XML from some row on, or whose rows or
// cells are out of order, is refused; the library would lose or mix up rows
// without a word.
func TestBrokenSheet(t *testing.T) {
	for _, rows := range []string{
		`<row r="1"><c><v>1</v></c></row><row r="2"><c><v>2</v></d></row><row r="3"><c><v>3</v></c></row>`,
		`<row r="1"><c><v>1</v></c></row><row r="2"><c><v>2</v></c></row></sheetData><!-- `,
		`<row r="1"><c><v>1</v></c></row><row r="2" & ><c><v>2</v></c></row>`,
		`<row r="3"><c><v>3</v></c></row><row r="2"><c><v>2</v></c></row>`,
		`<row r="3"><c><v>3</v></c></row><row r="3"><c><v>2</v></c></row>`,
		`<row r="1"><c r="C1"><v>3</v></c><c r="B1"><v>2</v></c></row>`,
		`<row r="1"><c r="1C"><v>3</v></c></row>`,
	} {
		if table, err := Read(bytes.NewReader(sheetXML(t, rows)), Options{}); !errors.Is(err, ErrFormat) {
			t.Errorf("%s: %v, %v", rows, table, err)
		}
	}
}

// TestBombs: small workbooks that unpack to more than is sane are refused, not
// unpacked. The limits are smaller than those in use, for speed alone.
func TestBombs(t *testing.T) {
	most := &limits{file: 64 << 10, plain: 1 << 20, table: 64 << 10}
	for _, c := range []struct{ name, rows, says string }{
		{"large once unpacked", strings.Repeat(" ", most.plain), "the workbook cannot be read"},
		{"too many cells", strings.Repeat(`<row><c r="AAA1"><v>1</v></c></row>`, most.table/600), "too many cells"},
		{"too much text", `<row><c t="inlineStr"><is><t>` + strings.Repeat("x", 32<<10) + `</t></is></c></row>`, ""},
		{"row beyond the last", `<row r="1048577"><c><v>1</v></c></row>`, "the workbook cannot be read"},
	} {
		data := sheetXML(t, c.rows)
		_, err := Read(bytes.NewReader(data), Options{limits: most})
		if (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %d bytes: %v", c.name, len(data), err)
		}
	}
	text := strings.Repeat("1,2,3,4,5,6,7,8,9\n", most.table/9+1)
	if _, err := Read(strings.NewReader(text), Options{limits: &limits{1 << 20, 1 << 20, most.table}}); !errors.Is(err, ErrTooLarge) {
		t.Errorf("too many cells of text: %v", err)
	}
	if _, err := Read(endless{}, Options{limits: most}); !errors.Is(err, ErrTooLarge) {
		t.Errorf("a file without an end: %v", err)
	}
}

func TestProgress(t *testing.T) {
	text := "a,b\n" + strings.Repeat("1,2\n", 3*reportEvery)
	var seen [][2]int
	progress := func(done, all int) { seen = append(seen, [2]int{done, all}) }
	table, err := Read(strings.NewReader(text), Options{Progress: progress})
	if err != nil {
		t.Fatal(err)
	}
	if end := 3*reportEvery + 1; len(seen) != 4 || seen[2] != [2]int{3 * reportEvery, 0} || seen[3] != [2]int{end, end} {
		t.Errorf("reading was reported at %v", seen)
	}
	seen = nil
	m := mustMap(t, "x,receipts,price,a,,\nx,receipts,date,,2025-03-14,\n")
	if _, err := m.Plan(table, PlanOptions{Progress: progress}); err != nil {
		t.Fatal(err)
	}
	if all := 3 * reportEvery; len(seen) != 4 || seen[0] != [2]int{reportEvery, all} || seen[3] != [2]int{all, all} {
		t.Errorf("planning was reported at %v", seen)
	}
	seen = nil
	if _, err := Read(strings.NewReader("a,b\n1,2\n"), Options{Progress: progress}); err != nil || seen != nil {
		t.Errorf("a short file was reported at %v, %v", seen, err)
	}
}

type failingReader struct{}

var errPulled = errors.New("the stick was pulled")

func (failingReader) Read([]byte) (int, error) { return 0, errPulled }

func TestReadFails(t *testing.T) {
	if _, err := Read(failingReader{}, Options{}); !errors.Is(err, errPulled) {
		t.Error(err)
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	return copy(p, bytes.Repeat([]byte("a,b\n"), len(p)/4+1)), nil
}

func BenchmarkReadWorkbook(b *testing.B) {
	var rows strings.Builder
	for range 100_000 {
		rows.WriteString(`<row><c><v>45718.25</v></c><c t="inlineStr"><is><t>leeks</t></is></c><c><v>1.5</v></c><c><v>2</v></c></row>`)
	}
	data := sheetXML(b, rows.String())
	for b.Loop() {
		if _, err := Read(bytes.NewReader(data), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
