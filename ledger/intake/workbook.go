package intake

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// What the first bytes tell of a file.
const (
	zipMagic = "PK\x03\x04"                       // an .xlsx workbook
	oleMagic = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" // an older workbook, or one with a password
)

// isWorkbook reports whether the bytes are a packed workbook.
func isWorkbook(data []byte) bool { return bytes.HasPrefix(data, []byte(zipMagic)) }

// readWorkbook reads one sheet, cell values as they are stored: numbers and
// dates unformatted, of formulas the result kept with them.
func readWorkbook(t *Table, data []byte, o Options) (err error) {
	// The library is given files of strangers; what makes it panic is, to the
	// user, a file that cannot be read.
	defer func() {
		if r := recover(); r != nil {
			err = workbookError(fmt.Errorf("%v", r))
		}
	}()
	book, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{
		RawCellValue: true, UnzipSizeLimit: int64(t.most.plain), UnzipXMLSizeLimit: int64(t.most.plain),
	})
	if err != nil {
		return workbookError(err)
	}
	defer book.Close()
	if err := checkSheets(book); err != nil {
		return workbookError(err)
	}
	if t.Form.Sheet, err = sheetOf(book, o.Sheet); err != nil {
		return err
	}
	if props, err := book.GetWorkbookProps(); err == nil && props.Date1904 != nil {
		t.Form.From1904 = *props.Date1904
	}
	return readSheet(t, book, o)
}

// sheetOf finds a sheet by name, in any case; no name means the first.
func sheetOf(book *excelize.File, name string) (string, error) {
	sheets := book.GetSheetList()
	for _, s := range sheets {
		if name == "" || strings.EqualFold(s, strings.TrimSpace(name)) {
			return s, nil
		}
	}
	if name == "" {
		return "", workbookError(errors.New("it has no sheet"))
	}
	return "", &Error{
		Kind: ErrNoSheet, What: fmt.Sprintf("the workbook has no sheet %q", name),
		Hint: "its sheets are: " + strings.Join(sheets, ", "),
	}
}

func readSheet(t *Table, book *excelize.File, o Options) error {
	rows, err := book.Rows(t.Form.Sheet)
	if err != nil {
		return workbookError(err)
	}
	defer rows.Close()
	line := 0
	for rows.Next() {
		line++
		cells, err := rows.Columns()
		if err != nil {
			return workbookError(err)
		}
		if line > excelize.TotalRows {
			return &Error{Kind: ErrTooLarge, Line: line, What: "the sheet has more rows than a workbook may"}
		}
		if len(cells) > MaxCells {
			return &Error{Kind: ErrTooLarge, Line: line, What: "the row has more than 1,000 cells"}
		}
		for i := range cells {
			if len(cells[i]) > MaxCell {
				return &Error{Kind: ErrTooLarge, Line: line, What: "a cell is longer than 64 KiB"}
			}
		}
		if err := t.add(Row{Line: line, Last: line, Cells: cells}); err != nil {
			return err
		}
		o.report(line, 0)
	}
	if err := rows.Error(); err != nil {
		return workbookError(err)
	}
	o.reported(line)
	return nil
}

func workbookError(err error) error {
	if errors.As(err, new(*Error)) {
		return err
	}
	return &Error{
		Kind: ErrFormat, What: "the workbook cannot be read", Err: err,
		Hint: "open it in a spreadsheet and save it again as .xlsx, or as CSV",
	}
}
