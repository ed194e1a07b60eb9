package intake

import (
	"archive/zip"
	"bytes"
	"strings"
	"testing"
)

// Parts of a workbook in the strict form of the standard, with absolute names
// of parts, texts in runs, and one spoken: what other programs write.
var strictParts = map[string]string{
	"_rels/.rels": `<Relationships><Relationship Id="r1" Type="http://purl.oclc.org/ooxml/officeDocument/relationships/officeDocument" Target="/xl/Workbook.xml"/></Relationships>`,
	"xl/workbook.xml": `<workbook xmlns="http://purl.oclc.org/ooxml/spreadsheetml/main" xmlns:r="http://purl.oclc.org/ooxml/officeDocument/relationships">` +
		`<workbookPr date1904="true"/><sheets><sheet name="Bons" sheetId="1" r:id="a"/><sheet name="Rest" sheetId="2" r:id="b"/></sheets></workbook>`,
	"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="a" Type="x/worksheet" Target="/xl/worksheets/one.xml"/>` +
		`<Relationship Id="b" Type="x/worksheet" Target="worksheets/../worksheets/two.xml"/><Relationship Id="c" Type="x/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
	"xl/sharedStrings.xml": `<sst><si><t>Leeks</t></si><si><r><t xml:space="preserve">Oat </t></r><r><rPr><b/></rPr><t>drink</t></r></si>` +
		`<si><t>梨</t><rPh sb="0" eb="1"><t>なし</t></rPh></si><si><t>two_x000A_lines _xyz_</t></si></sst>`,
	"xl/worksheets/one.xml": `<worksheet><sheetData>` +
		`<row><c t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="s"><v>2</v></c><c t="s"><v>3</v></c></row>` +
		`<row r="3"><c r="B3"><f>1+2</f><v>3.0000000000000004</v></c><c t="str"><f>A1</f><v>Leeks</v></c><c t="b"><v>1</v></c><c r="F3" t="e"><v>#N/A</v></c></row>` +
		`<row><c t="s"><v>4</v></c></row><row><c t="s"><v>-1</v></c></row><row><c t="s"><v>x</v></c><c><v>7</v></c></row>` +
		`<row><c><v>1E-3</v></c><c/></row></sheetData></worksheet>`,
	"xl/worksheets/two.xml": `<worksheet><sheetData><row><c><v>1</v></c></row></sheetData></worksheet>`,
}

func packed(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range parts {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestStrictWorkbook(t *testing.T) {
	table, err := Read(bytes.NewReader(packed(t, strictParts)), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if f := table.Form; f.Sheet != "Bons" || !f.From1904 {
		t.Errorf("form %+v", f)
	}
	var got []string
	for r := range table.From(0) {
		got = append(got, strings.Join(r.Cells, "|"))
	}
	want := []string{"Leeks|Oat drink|梨|two\nlines _xyz_", "|3|Leeks|1||#N/A", "0.001|"}
	if strings.Join(got, "; ") != strings.Join(want, "; ") {
		t.Errorf("rows %q, want %q", got, want)
	}
	if len(table.Bad) != 3 {
		t.Fatalf("bad rows %v", table.Bad)
	}
	for i, want := range []string{
		"line 4: the cell in column 1 refers to text 4 of the workbook, which has 4",
		"line 5: the cell in column 1 refers to text -1 of the workbook, which has 4",
		"line 6: the cell in column 1 refers to text x of the workbook, which has 4",
	} {
		if got := table.Bad[i].Error(); got != want {
			t.Errorf("bad row %q, want %q", got, want)
		}
	}
	if table, err = Read(bytes.NewReader(packed(t, strictParts)), Options{Sheet: " rest"}); err != nil || table.Row(0).Cells[0] != "1" {
		t.Errorf("second sheet: %+v, %v", table, err)
	}
}

// A workbook that lacks a part says which.
func TestWorkbookWithoutPart(t *testing.T) {
	for name := range strictParts {
		if name == "xl/worksheets/two.xml" {
			continue
		}
		parts := map[string]string{}
		for other, text := range strictParts {
			if other != name {
				parts[other] = text
			}
		}
		if len(parts) == len(strictParts) {
			t.Fatalf("%s is not left out", name)
		}
		_, err := Read(bytes.NewReader(packed(t, parts)), Options{})
		if err == nil || !strings.Contains(strings.ToLower(err.Error()), "it has no part "+strings.ToLower(name)) {
			t.Errorf("without %s: %v", name, err)
		}
	}
}

// FuzzReadWorkbook: whatever the sheet and the shared texts hold, reading ends
// in rows, bad rows or an error.
func FuzzReadWorkbook(f *testing.F) {
	f.Add(strictParts["xl/worksheets/one.xml"], strictParts["xl/sharedStrings.xml"])
	f.Add(`<sheetData><row r="1048577"/></sheetData>`, `<sst/>`)
	f.Fuzz(func(t *testing.T, sheet, texts string) {
		parts := map[string]string{}
		for name, text := range strictParts {
			parts[name] = text
		}
		parts["xl/worksheets/one.xml"], parts["xl/sharedStrings.xml"] = sheet, texts
		table, err := Read(bytes.NewReader(packed(t, parts)), Options{limits: &limits{1 << 20, 1 << 20, 1 << 16}})
		if err != nil {
			return
		}
		last := 0
		for r := range table.From(0) {
			if r.Line <= last {
				t.Fatalf("row %d after row %d", r.Line, last)
			}
			last = r.Line
		}
	})
}
