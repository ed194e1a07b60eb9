package render

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// writeJSON writes the whole of d as one object, its keys in the report's
// order.
func writeJSON(w io.Writer, d report.Doc) error {
	j := jsonWriter{currency: d.Currency}
	j.object(wholeDoc(d))
	j.WriteByte('\n')
	_, err := j.WriteTo(w)
	return err
}

// A jsonWriter writes indented JSON whose keys keep their order, which
// encoding/json has only for structs.
type jsonWriter struct {
	bytes.Buffer
	currency exact.Currency
	depth    int // brackets that are open round what is written, two spaces each
}

func (j *jsonWriter) node(n report.Node) {
	switch n := n.(type) {
	case report.Value:
		j.value(n)
	case report.Object:
		j.object(n)
	case report.List:
		j.array(len(n), func(i int) { j.value(n[i]) })
	case *report.Table:
		j.table(n)
	case *report.Series:
		j.table(seriesTable(n))
	}
}

func (j *jsonWriter) object(o report.Object) {
	list := make(report.Object, 0, len(o))
	for _, f := range o {
		if f.Key != "" {
			list = append(list, f)
		}
	}
	j.sequence('{', '}', len(list), func(i int) {
		j.key(list[i].Key)
		j.node(list[i].Node)
	})
}

func (j *jsonWriter) table(t *report.Table) {
	keys, cells := keyed(t.Columns)
	count := 0
	j.open('[')
	for row := range t.All() {
		j.item(count)
		count++
		j.sequence('{', '}', len(keys), func(i int) {
			j.key(keys[i])
			if cells[i] < 0 {
				j.array(len(row.Notes), func(n int) { j.string(row.Notes[n]) })
			} else {
				j.value(row.Cells[cells[i]])
			}
		})
	}
	j.shut(']', count)
}

func (j *jsonWriter) value(v report.Value) {
	switch v.Kind() {
	case report.Null:
		j.WriteString("null")
	case report.Count:
		j.WriteString(v.Number().String())
	case report.YesNo:
		j.WriteString(strconv.FormatBool(!v.Number().IsZero()))
	default:
		j.string(v.Exact(j.currency))
	}
}

func (j *jsonWriter) array(n int, item func(i int)) { j.sequence('[', ']', n, item) }

// sequence writes n items on lines of their own between brackets.
func (j *jsonWriter) sequence(open, shut byte, n int, item func(i int)) {
	j.open(open)
	for i := range n {
		j.item(i)
		item(i)
	}
	j.shut(shut, n)
}

func (j *jsonWriter) open(bracket byte) {
	j.WriteByte(bracket)
	j.depth++
}

// item begins the line of the i-th item.
func (j *jsonWriter) item(i int) {
	if i > 0 {
		j.WriteByte(',')
	}
	j.line()
}

// shut ends a sequence of n items.
func (j *jsonWriter) shut(bracket byte, n int) {
	j.depth--
	if n > 0 {
		j.line()
	}
	j.WriteByte(bracket)
}

func (j *jsonWriter) line() {
	j.WriteByte('\n')
	j.WriteString(strings.Repeat("  ", j.depth))
}

func (j *jsonWriter) key(k string) {
	j.string(k)
	j.WriteString(": ")
}

// string writes s as JSON. Markup is left as it is, for people who read it;
// what a terminal would act on is written as \u escapes, which any reader of
// JSON turns back.
func (j *jsonWriter) string(s string) {
	if plainJSON(s) {
		j.WriteByte('"')
		j.WriteString(s)
		j.WriteByte('"')
		return
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(strings.ToValidUTF8(s, "\uFFFD")); err != nil {
		panic(err) // a string always encodes
	}
	for _, r := range strings.TrimSuffix(b.String(), "\n") {
		switch {
		case r > 0xFFFF && unicode.Is(unicode.Cf, r):
			r -= 0x10000 // written as a surrogate pair (RFC 8259, 7)
			fmt.Fprintf(j, `\u%04x\u%04x`, 0xD800+r>>10, 0xDC00+r&0x3FF)
		case cleanRune(r) < 0:
			fmt.Fprintf(j, `\u%04x`, r)
		case r == '\u0085': // next line: to cleanRune it is a space, to a terminal it is not
			j.WriteString(`\u0085`)
		default:
			j.WriteRune(r)
		}
	}
}

// plainJSON reports whether s stands in JSON as it is; nearly all strings do.
func plainJSON(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] > '~' || s[i] == '"' || s[i] == '\\' {
			return false
		}
	}
	return true
}
