package intake

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// What a sheet may have (ECMA-376 part 1, 18.3.1.73 and 18.3.1.4; the numbers
// are those that programs keep to).
const (
	lastSheetRow    = 1_048_576
	lastSheetColumn = 16_384
)

// sheetRows reads the rows of one sheet in order.
type sheetRows struct {
	w    *xlsx
	part io.ReadCloser
	xml  *xml.Decoder
	row  int // the number of the row read last
}

// A sheetRow is a row of a sheet: its cells as they are stored.
type sheetRow struct {
	number int // as the sheet counts its rows, from 1; blank rows may be left out
	cells  []string
	bad    string // what is wrong with a cell; empty if nothing is
}

// sheet opens a sheet of the workbook's list.
func (w *xlsx) sheet(s sheetEntry) (*sheetRows, error) {
	id := s.ID + s.StrictID // of which a workbook has one
	part, err := w.part(w.related[id])
	if err != nil {
		return nil, err
	}
	return &sheetRows{w: w, part: part, xml: xml.NewDecoder(part)}, nil
}

// Close closes the sheet.
func (s *sheetRows) Close() error { return s.part.Close() }

// next reads the next row; [io.EOF] is the end of a sheet that is whole. Rows
// that are out of order would be mixed up or lost, so they end the reading.
func (s *sheetRows) next() (sheetRow, error) {
	for {
		token, err := s.xml.Token()
		if err != nil {
			return sheetRow{}, err
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "row" {
			continue
		}
		number, err := strconv.Atoi(attribute(start, "r", strconv.Itoa(s.row+1)))
		if err != nil || number <= s.row || number > lastSheetRow {
			return sheetRow{}, fmt.Errorf("a row numbered %s follows row %d", attribute(start, "r", "beyond the last"), s.row)
		}
		s.row = number
		return s.cells(sheetRow{number: number})
	}
}

// cells reads the cells of a row, to its end.
func (s *sheetRows) cells(row sheetRow) (sheetRow, error) {
	for {
		token, err := s.xml.Token()
		switch token := token.(type) {
		case xml.EndElement:
			if token.Name.Local == "row" {
				return row, nil
			}
		case xml.StartElement:
			if token.Name.Local == "c" {
				err = s.cell(&row, token)
			}
		}
		switch {
		case errors.Is(err, io.EOF): // within a row, and not where the sheet ends
			return row, io.ErrUnexpectedEOF
		case err != nil:
			return row, err
		}
	}
}

// cell reads a cell.
func (s *sheetRows) cell(row *sheetRow, start xml.StartElement) error {
	name := attribute(start, "r", "")
	column, ok := len(row.cells)+1, true
	if name != "" {
		column, ok = columnOf(name)
	}
	if !ok || column <= len(row.cells) || column > lastSheetColumn {
		return fmt.Errorf("in row %d a cell %s follows column %d", row.number, name, len(row.cells))
	}
	var content struct {
		Value  string   `xml:"v"`
		Inline richText `xml:"is"`
	}
	if err := s.xml.DecodeElement(&content, &start); err != nil {
		return err
	}
	for len(row.cells) < column {
		row.cells = append(row.cells, "")
	}
	text, err := s.w.text(attribute(start, "t", "n"), content.Value, &content.Inline)
	if err != nil && row.bad == "" {
		row.bad = fmt.Sprintf("the cell in column %d %v", column, err)
	}
	row.cells[column-1] = text
	return nil
}

// text returns what a cell of a type holds (18.18.11): a number by its digits
// that count, a shared text, a text of its own, or what a formula came to.
func (w *xlsx) text(cellType, value string, inline *richText) (string, error) {
	switch cellType {
	case "n":
		if n, ok := stored(value); ok {
			return n.String(), nil
		}
		return value, nil
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(value))
		if err != nil || i < 0 || i >= len(w.texts) {
			return "", fmt.Errorf("refers to text %s of the workbook, which has %d", value, len(w.texts))
		}
		return w.texts[i], nil
	case "inlineStr":
		return inline.String(), nil
	}
	return unescaped(value), nil
}

// columnOf returns the column of a cell's name, such as 28 of AB7.
func columnOf(name string) (column int, ok bool) {
	letters := strings.TrimRight(name, "0123456789")
	if letters == "" || letters == name || len(letters) > 3 {
		return 0, false
	}
	for _, c := range []byte(strings.ToUpper(letters)) {
		if c < 'A' || c > 'Z' {
			return 0, false
		}
		column = column*26 + int(c-'A') + 1
	}
	return column, true
}

// attribute returns an attribute's text, or what stands for one that is not
// there.
func attribute(e xml.StartElement, name, otherwise string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return otherwise
}
