package intake

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// This file opens a workbook of Office Open XML (ECMA-376 part 1): the package
// of parts, and of these the list of sheets and the shared texts.

// An xlsx is an .xlsx file, opened.
type xlsx struct {
	parts    map[string]*zip.File
	left     int64 // bytes that may still be unpacked
	sheets   []sheetEntry
	related  map[string]string // parts by the identifier that the workbook has for them
	from1904 bool
	texts    []string // shared by cells
}

// A sheetEntry is a sheet in the workbook's list.
type sheetEntry struct {
	Name string `xml:"name,attr"`
	ID   string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
	// Strict workbooks have another name space for the identifier.
	StrictID string `xml:"http://purl.oclc.org/ooxml/officeDocument/relationships id,attr"`
}

// A relationship says which part an identifier stands for.
type relationship struct {
	ID     string `xml:"Id,attr"`
	Type   string `xml:"Type,attr"`
	Target string `xml:"Target,attr"`
}

// openWorkbook opens a workbook that unpacks to at most most bytes.
func openWorkbook(data string, most int) (*xlsx, error) {
	z, err := zip.NewReader(strings.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	w := &xlsx{parts: map[string]*zip.File{}, left: int64(most), related: map[string]string{}}
	for _, f := range z.File {
		// Names of parts are alike in any case (ECMA-376 part 2); some programs part folders by backslashes.
		w.parts[strings.ToLower(strings.ReplaceAll(f.Name, `\`, "/"))] = f
	}
	list, err := w.relationships("")
	if err != nil {
		return nil, err
	}
	for _, r := range list {
		if strings.HasSuffix(r.Type, "/officeDocument") {
			return w, w.open(r.Target)
		}
	}
	return nil, errors.New("it has no list of sheets")
}

// open reads the list of sheets and the shared texts.
func (w *xlsx) open(part string) error {
	var book struct {
		Properties struct {
			Date1904 string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []sheetEntry `xml:"sheets>sheet"`
	}
	if err := w.decode(part, &book); err != nil {
		return err
	}
	w.sheets = book.Sheets
	w.from1904, _ = strconv.ParseBool(book.Properties.Date1904) // absent: false
	list, err := w.relationships(part)
	if err != nil {
		return err
	}
	for _, r := range list {
		w.related[r.ID] = r.Target
		// All of them before any sheet: a cell may refer to any.
		if strings.HasSuffix(r.Type, "/sharedStrings") {
			if err := w.readTexts(r.Target); err != nil {
				return err
			}
		}
	}
	return nil
}

// relationships reads what a part is related to, an empty name being the
// package; their targets become names of parts.
func (w *xlsx) relationships(part string) ([]relationship, error) {
	var all struct {
		List []relationship `xml:"Relationship"`
	}
	dir, file := path.Split(part)
	if err := w.decode(path.Join(dir, "_rels", file+".rels"), &all); err != nil {
		return nil, err
	}
	for i := range all.List {
		r := &all.List[i]
		if !strings.HasPrefix(r.Target, "/") {
			r.Target = path.Join("/", dir, r.Target)
		}
		r.Target = strings.TrimPrefix(path.Clean(r.Target), "/")
	}
	return all.List, nil
}

// decode reads a whole part.
func (w *xlsx) decode(part string, into any) error {
	r, err := w.part(part)
	if err != nil {
		return err
	}
	defer r.Close()
	return xml.NewDecoder(r).Decode(into)
}

var errUnpacked = errors.New("it unpacks to more than is sane")

// part opens a part. What is read of all parts together is bounded.
func (w *xlsx) part(name string) (io.ReadCloser, error) {
	f := w.parts[strings.ToLower(name)]
	if f == nil {
		return nil, fmt.Errorf("it has no part %s", name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	return &boundedPart{r, w}, nil
}

type boundedPart struct {
	io.ReadCloser
	w *xlsx
}

// Read reads on, unless too much has been read.
func (b *boundedPart) Read(p []byte) (int, error) {
	n, err := b.ReadCloser.Read(p)
	if b.w.left -= int64(n); b.w.left < 0 {
		return 0, errUnpacked
	}
	return n, err
}

// A richText is a text, whole or in runs of one format each. How it is spoken,
// which East Asian workbooks add, is no part of it.
type richText struct {
	Text string `xml:"t"`
	Runs []struct {
		Text string `xml:"t"`
	} `xml:"r"`
}

func (t *richText) String() string {
	s := t.Text
	for _, r := range t.Runs {
		s += r.Text
	}
	return unescaped(s)
}

// readTexts reads the texts that cells share.
func (w *xlsx) readTexts(part string) error {
	r, err := w.part(part)
	if err != nil {
		return err
	}
	defer r.Close()
	d := xml.NewDecoder(r)
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if start, ok := token.(xml.StartElement); ok && start.Name.Local == "si" {
			var text richText
			if err := d.DecodeElement(&text, &start); err != nil {
				return err
			}
			w.texts = append(w.texts, text.String())
		}
	}
}

// unescaped writes characters that XML cannot hold, such as _x000D_, as they
// are (ECMA-376 part 1, 22.4.2.4).
func unescaped(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for s != "" {
		if len(s) >= 7 && s[:2] == "_x" && s[6] == '_' {
			if n, err := strconv.ParseUint(s[2:6], 16, 16); err == nil {
				b.WriteRune(rune(n))
				s = s[7:]
				continue
			}
		}
		b.WriteByte(s[0])
		s = s[1:]
	}
	return b.String()
}
