package intake

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"putby/ledger"
)

// isJSON reports whether a file is JSON, by its first character.
func isJSON(data []byte) bool {
	data = bytes.TrimLeft(bytes.TrimPrefix(data, []byte(byteOrderMark)), " \t\r\n")
	return len(data) > 0 && (data[0] == '{' || data[0] == '[')
}

// A jsonKind is what a value in JSON is.
type jsonKind uint8

const (
	jsonNull jsonKind = iota
	jsonTruth
	jsonText
	jsonNumber
	jsonList
	jsonObject
)

// A jsonValue is a value in JSON that knows its line.
type jsonValue struct {
	kind  jsonKind
	line  int          // at which its first token ends, from 1
	text  string       // of a scalar; a number as it is written
	names []string     // of an object's fields
	parts []*jsonValue // of an object or a list
}

// scalar reports whether the value is neither an object nor a list.
func (v *jsonValue) scalar() bool { return v.kind < jsonList }

// deepest is how many levels of a file are read.
const deepest = 32

// A jsonReader makes a tree of JSON.
type jsonReader struct {
	data []byte
	d    *json.Decoder
	line int   // of the token read last, from 1
	seen int64 // up to where lines are counted
}

// readJSON reads one value. Its error is a [ledger.Fault]. The text is gone through
// as a whole first, since an error of that has the place of the very character: one of
// [json.Decoder.Token] counts from the value that it is in.
func readJSON(data []byte) (*jsonValue, error) {
	data = bytes.TrimPrefix(data, []byte(byteOrderMark))
	d := json.NewDecoder(bytes.NewReader(data))
	var whole json.RawMessage
	err := d.Decode(&whole)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("there is more after its end")
		}
	}
	r := &jsonReader{data: data, d: json.NewDecoder(bytes.NewReader(whole)), line: 1}
	r.d.UseNumber()
	var root *jsonValue
	if err == nil {
		root, err = r.value(0)
	}
	if err != nil {
		return nil, jsonFault(data, err, d.InputOffset())
	}
	return root, nil
}

// jsonFault places an error of the decoder.
func jsonFault(data []byte, err error, offset int64) error {
	problem := err.Error()
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &syntax):
		offset = max(syntax.Offset-1, 0) // Offset is behind the wrong character
	case errors.Is(err, io.EOF):
		problem = "the file is empty"
	case errors.Is(err, io.ErrUnexpectedEOF):
		offset, problem = int64(len(data)), "the file ends in the middle"
	}
	before := data[:min(int(offset), len(data))]
	line := bytes.Count(before, []byte{'\n'}) + 1
	column := len(before) - bytes.LastIndexByte(before, '\n')
	return &ledger.Fault{Kind: ErrFormat, Line: line, Column: column, What: "not JSON: " + clean(problem)}
}

// value reads the next value.
func (r *jsonReader) value(depth int) (*jsonValue, error) {
	token, err := r.d.Token()
	if err != nil {
		return nil, err
	}
	at := r.d.InputOffset()
	r.line += bytes.Count(r.data[r.seen:at], []byte("\n"))
	r.seen = at
	v := &jsonValue{line: r.line}
	switch token := token.(type) {
	case json.Delim:
		v.kind = jsonList
		if token == '{' {
			v.kind = jsonObject
		}
		return v, r.inside(v, depth)
	case string:
		v.kind, v.text = jsonText, token
	case json.Number:
		v.kind, v.text = jsonNumber, token.String()
	case bool:
		v.kind, v.text = jsonTruth, fmt.Sprint(token)
	}
	return v, nil
}

// inside reads what is in an object or a list, and its end.
func (r *jsonReader) inside(v *jsonValue, depth int) error {
	if depth > deepest {
		return errors.New("it is nested too deeply")
	}
	for r.d.More() {
		if v.kind == jsonObject {
			name, err := r.d.Token()
			if err != nil {
				return err
			}
			v.names = append(v.names, fmt.Sprint(name))
		}
		part, err := r.value(depth + 1)
		if err != nil {
			return err
		}
		v.parts = append(v.parts, part)
	}
	_, err := r.d.Token()
	return err
}
