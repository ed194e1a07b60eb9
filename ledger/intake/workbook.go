package intake

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"putby/ledger"
)

// What the first bytes tell of a file.
const (
	zipMagic = "PK\x03\x04"                       // an .xlsx workbook
	oleMagic = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" // an older workbook, or one with a password
)

// isWorkbook reports whether the bytes are a packed workbook.
func isWorkbook(data string) bool { return strings.HasPrefix(data, zipMagic) }

// readWorkbook reads one sheet, cell values as they are stored: numbers and
// dates unformatted, of formulas the result kept with them.
func readWorkbook(t *Table, data string, o Options) error {
	book, err := openWorkbook(data, t.most.plain)
	if err != nil {
		return workbookError(err)
	}
	sheet, err := book.find(o.Sheet)
	if err != nil {
		return err
	}
	t.Form.Sheet, t.Form.From1904 = sheet.Name, book.from1904
	rows, err := book.sheet(sheet)
	if err != nil {
		return workbookError(err)
	}
	defer rows.Close()
	return readSheet(t, rows, o)
}

// find finds a sheet by name, in any case; no name means the first.
func (w *xlsx) find(name string) (sheetEntry, error) {
	var names []string
	for _, s := range w.sheets {
		if name == "" || strings.EqualFold(s.Name, strings.TrimSpace(name)) {
			return s, nil
		}
		names = append(names, s.Name)
	}
	if name == "" {
		return sheetEntry{}, workbookError(errors.New("it has no sheet"))
	}
	return sheetEntry{}, &ledger.Fault{
		Kind: ErrNoSheet, What: fmt.Sprintf("the workbook has no sheet %q", name),
		Hint: "its sheets are: " + strings.Join(names, ", "),
	}
}

func readSheet(t *Table, rows *sheetRows, o Options) error {
	for n := 1; ; n++ {
		row, err := rows.next()
		if errors.Is(err, io.EOF) {
			o.reported(n - 1)
			return nil
		}
		if err != nil {
			return workbookError(err)
		}
		if len(row.cells) > MaxCells {
			return &ledger.Fault{Kind: ErrTooLarge, Line: row.number, What: "the row has more than 1,000 cells"}
		}
		if slices.ContainsFunc(row.cells, func(cell string) bool { return len(cell) > MaxCell }) {
			return &ledger.Fault{Kind: ErrTooLarge, Line: row.number, What: "a cell is longer than 64 KiB"}
		}
		if row.bad != "" {
			t.Bad = append(t.Bad, ledger.Fault{Line: row.number, What: row.bad, Hint: "save the workbook again in a spreadsheet, or write the cell anew"})
		} else if some, err := t.counts(row.number, row.cells); err != nil {
			return err
		} else if some {
			t.rows = append(t.rows, Row{Line: row.number, Last: row.number, Cells: row.cells})
		}
		o.report(n, 0)
	}
}

func workbookError(err error) error {
	if errors.As(err, new(*ledger.Fault)) {
		return err
	}
	return &ledger.Fault{
		Kind: ErrFormat, What: "the workbook cannot be read", Err: err,
		Hint: "open it in a spreadsheet and save it again as .xlsx, or as CSV",
	}
}
