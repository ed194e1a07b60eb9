package intake

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// The files of a ledger that tell how foreign ones are read.
const (
	MapsFile  = "maps.csv"
	NamesFile = "names.csv"
)

// The headers of the two files.
var (
	mapColumns  = []string{"map", "for", "column", "from", "value", "how"}
	nameColumns = []string{"map", "name", "kind", "item", "size"}
)

// fileSettings are the words under column that are about the file as a whole,
// in the order in which they are printed.
var fileSettings = []string{"encoding", "separator", "sheet", "decimal", "dates"}

// sheetReader reads the rows of one of the two files.
type sheetReader struct {
	file   string
	line   int // at which the row being read begins, from 1
	faults ledger.Faults
}

func (r *sheetReader) fail(field, what, hint string) {
	r.faults = append(r.faults, ledger.Fault{File: r.file, Line: r.line, Field: field, What: what, Hint: hint})
}

// rows calls each with the cells of every row, in the order of columns.
func (r *sheetReader) rows(text string, columns []string, each func(cells []string)) {
	plain, err := decodeUTF8(text)
	if err != nil {
		r.fail("", err.Error(), "save it as UTF-8")
		return
	}
	s := newScanner(plain, 0)
	s.settleByHeader()
	var at []int // of each column; -1 for one that may be missing
	width := 0
	for s.next() {
		r.line = s.first
		switch cells := s.cells; {
		case s.why != "":
			r.fail("", s.why, s.hint)
		case at == nil:
			for _, name := range columns {
				at = append(at, slices.IndexFunc(cells, func(c string) bool { return strings.TrimSpace(c) == name }))
			}
			if width = len(cells); at[0] < 0 || at[1] < 0 { // the others may be missing, which is as blank
				r.fail("", "the header needs "+columns[0]+" and "+columns[1], "it is: "+strings.Join(columns, ","))
				return
			}
		case strings.Trim(strings.Join(cells, ""), " \t") == "":
		case len(cells) > width && strings.Join(cells[width:], "") != "":
			r.fail("", "the row has more cells than the header", "a cell with a comma needs quotes around it")
		default:
			row := make([]string, len(columns))
			for i := range row {
				row[i] = ledger.UnescapeFormula(cellAt(cells, at[i]))
			}
			each(row)
		}
	}
}

// ParseMaps reads [MapsFile]. Its header is map,for,column,from,value,how; a
// row fills one column of the ledger, or says something of the file as a whole
// where column is encoding, separator, sheet, decimal or dates, or which rows
// are taken where it is only. All faults come at once; with any, there are no
// maps.
func ParseMaps(text string) ([]Map, ledger.Faults) {
	r := &sheetReader{file: MapsFile}
	var maps []Map
	r.rows(text, mapColumns, func(cells []string) { maps = r.mapRow(maps, cells) })
	if r.faults != nil {
		return nil, r.faults
	}
	return maps, nil
}

// mapRow adds a row to the map that it names.
func (r *sheetReader) mapRow(maps []Map, cells []string) []Map {
	name, target := cells[0], cells[1]
	if err := ledger.CheckID(name); err != nil {
		r.fail("map", "the map's name: "+err.Error(), "use letters, digits, '-', '_' and '.', at most 64")
		return maps
	}
	i := slices.IndexFunc(maps, func(m Map) bool { return m.Name == name })
	if i < 0 {
		t, err := parseTarget(target)
		if err != nil {
			r.fail("for", err.Error(), "")
			return maps
		}
		maps, i = append(maps, Map{Name: name, Target: t}), len(maps)
	} else if target != "" && target != maps[i].Target.String() {
		r.fail("for", "the map "+name+" is for "+maps[i].Target.String()+" already", "give each map one name")
		return maps
	}
	r.mapRule(&maps[i], cells[2], cells[3], cells[4], cells[5])
	return maps
}

// mapRule adds what a row says to its map.
func (r *sheetReader) mapRule(m *Map, column, from, value, how string) {
	switch {
	case slices.Contains(fileSettings, column):
		if err := m.set(column, value); err != nil {
			r.fail("value", err.Error(), "")
		}
		return
	case column == "only":
		r.only(m, from, value)
		return
	case !slices.Contains(m.Target.Columns(), column):
		r.fail("column", exact.Quote(column)+" is no column to fill", "columns are: "+strings.Join(m.Target.Columns(), ", ")+
			"; of the file: "+strings.Join(fileSettings, ", ")+", only")
		return
	case m.fills(column):
		r.fail("column", "the map fills "+column+" twice", "")
		return
	case from == "" && value == "":
		r.fail("from", "nothing fills "+column, "name the foreign column under from, or write what it always is under value")
		return
	}
	h, err := ParseHow(how)
	if err != nil {
		r.fail("how", err.Error(), "")
		return
	}
	m.Fills = append(m.Fills, Fill{column, from, value, h})
}

func (r *sheetReader) only(m *Map, from, value string) {
	values := strings.Split(value, "|")
	for i, v := range values {
		values[i] = strings.TrimSpace(v)
	}
	if from == "" {
		r.fail("from", "only needs a foreign column to look at", "")
		return
	}
	m.Only = append(m.Only, Only{from, values})
}

// set takes one of the settings of the file as a whole.
func (m *Map) set(setting, value string) (err error) {
	switch setting {
	case "encoding":
		m.Encoding, err = ParseEncoding(value)
	case "separator":
		m.Separator, err = ParseSeparator(value)
	case "sheet":
		m.Sheet = value
	case "decimal":
		m.Decimal, err = ParseDecimal(value)
	case "dates":
		m.Dates, err = ParseOrder(value)
	}
	return err
}

// setting returns one of the settings of the file as a whole, as it is written.
func (m Map) setting(name string) string {
	switch name {
	case "encoding":
		return m.Encoding.String()
	case "separator":
		return separatorWord(m.Separator)
	case "sheet":
		return m.Sheet
	case "decimal":
		return m.Decimal.String()
	}
	return m.Dates.String()
}

// PrintMaps writes [MapsFile] as [ParseMaps] reads it.
func PrintMaps(maps []Map) []byte {
	rows := [][]string{mapColumns}
	for _, m := range maps {
		for _, name := range fileSettings {
			if value := m.setting(name); value != "" {
				rows = append(rows, []string{m.Name, m.Target.String(), name, "", value, ""})
			}
		}
		for _, o := range m.Only {
			rows = append(rows, []string{m.Name, m.Target.String(), "only", o.From, strings.Join(o.Values, " | "), ""})
		}
		for _, f := range m.Fills {
			rows = append(rows, []string{m.Name, m.Target.String(), f.Column, f.From, f.Value, f.How.String()})
		}
	}
	return printRows(rows)
}

// ParseNames reads [NamesFile]. Its header is map,name,kind,item,size. All
// faults come at once; with any, there are no names.
func ParseNames(text string) ([]Name, ledger.Faults) {
	r := &sheetReader{file: NamesFile}
	var names []Name
	r.rows(text, nameColumns, func(cells []string) {
		n := Name{cells[0], cells[1], cells[2], cells[3], cells[4]}
		if column, what, hint := checkName(n); what != "" {
			r.fail(column, what, hint)
		}
		names = append(names, n)
	})
	if r.faults != nil {
		return nil, r.faults
	}
	return names, nil
}

// PrintNames writes [NamesFile] as [ParseNames] reads it.
func PrintNames(names []Name) []byte {
	rows := [][]string{nameColumns}
	for _, n := range names {
		rows = append(rows, []string{n.Map, n.Name, n.Kind, n.Item, n.Size})
	}
	return printRows(rows)
}

func printRows(rows [][]string) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	for _, row := range rows {
		guarded := make([]string, len(row))
		for i, text := range row {
			guarded[i] = ledger.EscapeFormula(text)
		}
		_ = w.Write(guarded) // a buffer takes everything
	}
	w.Flush()
	return out.Bytes()
}
