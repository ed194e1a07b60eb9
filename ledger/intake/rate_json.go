package intake

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
)

// maxFaults is how many faults of one file are told.
const maxFaults = 50

// readJSON reads one JSON value of at most limit bytes, its numbers kept as
// written.
func readJSON(r io.Reader, limit int64) (jsonNode, error) {
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return jsonNode{}, fmt.Errorf("reading the rate: %w", err)
	}
	if int64(len(data)) > limit {
		return jsonNode{}, &ledger.Fault{Line: 1, Column: 1, What: fmt.Sprintf("the file is larger than %d MB", limit>>20)}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return jsonNode{}, jsonFault(data, err, d.InputOffset())
	}
	if _, err := d.Token(); err != io.EOF {
		return jsonNode{}, jsonFault(data, errors.New("there is more after the end of the rate"), d.InputOffset())
	}
	return jsonNode{"$", v}, nil
}

// jsonFault places an error of the decoder.
func jsonFault(data []byte, err error, offset int64) error {
	problem := err.Error()
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &syntax):
		offset = max(syntax.Offset-1, 0)
	case errors.Is(err, io.EOF):
		problem = "the file is empty"
	case errors.Is(err, io.ErrUnexpectedEOF):
		offset, problem = int64(len(data)), "the file ends in the middle"
	}
	before := data[:min(int(offset), len(data))]
	line := bytes.Count(before, []byte{'\n'}) + 1
	column := len(before) - (bytes.LastIndexByte(before, '\n') + 1) + 1
	return &ledger.Fault{Line: line, Column: column, What: "not JSON: " + clean(problem)}
}

// A jsonNode is a value in a JSON file and its path.
type jsonNode struct {
	path  string
	value any
}

// given reports whether there is a value, and not null.
func (n jsonNode) given() bool { return n.value != nil }

// field returns a field of an object, not given where there is none.
func (n jsonNode) field(name string) jsonNode {
	object, _ := n.value.(map[string]any)
	return jsonNode{n.path + "." + name, object[name]}
}

func (n jsonNode) isObject() bool {
	_, ok := n.value.(map[string]any)
	return ok
}

func (n jsonNode) isNumber() bool {
	_, ok := n.value.(json.Number)
	return ok
}

// list returns the elements of a list.
func (n jsonNode) list() ([]jsonNode, bool) {
	values, ok := n.value.([]any)
	nodes := make([]jsonNode, len(values))
	for i, v := range values {
		nodes[i] = jsonNode{fmt.Sprintf("%s[%d]", n.path, i), v}
	}
	return nodes, ok
}

// text returns a string or a number as it is written.
func (n jsonNode) text() string {
	switch v := n.value.(type) {
	case string:
		return v
	case json.Number:
		return v.String()
	}
	return ""
}

// number reads a number as records write it.
func (n jsonNode) number() (exact.Number, error) {
	v, ok := n.value.(json.Number)
	if !ok {
		return exact.Number{}, errors.New("it must be a number")
	}
	return exact.ParseNumber(v.String())
}

// hasAmount reports whether a value holds a number other than 0 anywhere.
func (n jsonNode) hasAmount() bool {
	switch v := n.value.(type) {
	case json.Number:
		return strings.Trim(v.String(), "-0.") != ""
	case []any:
		list, _ := n.list()
		for _, e := range list {
			if e.hasAmount() {
				return true
			}
		}
	case map[string]any:
		return n.field("rate").hasAmount() || n.field("adj").hasAmount()
	}
	return false
}

// clean makes text from a file fit for a terminal: no control characters, no
// line breaks, not too long.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return ' '
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 400 {
		return string(r[:400]) + "…"
	}
	return s
}
