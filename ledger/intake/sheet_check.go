package intake

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// checkSheets reads the XML of all sheets before the library reads one. The
// library takes a sheet that is no XML from some row on for one that ends
// there, and puts rows and cells that are out of order together: rows would be
// lost or mixed up without a word.
func checkSheets(book *excelize.File) (err error) {
	book.Pkg.Range(func(name, part any) bool {
		if text, ok := part.([]byte); ok && strings.HasPrefix(name.(string), "xl/worksheets/") {
			d := xml.NewDecoder(bytes.NewReader(text))
			d.CharsetReader = book.CharsetReader
			err = checkSheet(d)
		}
		return err == nil
	})
	return err
}

// checkSheet holds a sheet to be XML to its end, and its rows and cells to be
// in order. Those that do not say their place follow the one before.
func checkSheet(d *xml.Decoder) error {
	row, column := 0, 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "row":
			n, err := strconv.Atoi(attribute(start, "r", row+1))
			if err != nil || n <= row {
				return fmt.Errorf("a row numbered %s follows row %d", attribute(start, "r", 0), row)
			}
			row, column = n, 0
		case "c":
			n, err := columnOf(attribute(start, "r", 0), column)
			if err != nil || n <= column {
				return fmt.Errorf("in row %d a cell %s follows column %d", row, attribute(start, "r", 0), column)
			}
			column = n
		}
	}
}

// columnOf returns the column of a cell's name, or the one after last where it
// has none.
func columnOf(name string, last int) (int, error) {
	if name == "0" {
		return last + 1, nil
	}
	column, _, err := excelize.CellNameToCoordinates(name)
	return column, err
}

// attribute returns an attribute's text, or the number that stands for it.
func attribute(e xml.StartElement, name string, otherwise int) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return strconv.Itoa(otherwise)
}
