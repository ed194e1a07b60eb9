package intake

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/pricing/exact"
)

// maxFaults is how many faults of one file are told.
const maxFaults = 50

// A jsonNode is a value in a JSON file, nil where there is none, and its path.
type jsonNode struct {
	path string
	*jsonValue
}

// is reports whether there is a value of a kind.
func (n jsonNode) is(kind jsonKind) bool { return n.jsonValue != nil && n.kind == kind }

// given reports whether there is a value, and not null.
func (n jsonNode) given() bool { return n.jsonValue != nil && n.kind != jsonNull }

// field returns a field of an object, the last of its name, not given where there
// is none.
func (n jsonNode) field(name string) jsonNode {
	f := jsonNode{path: n.path + "." + name}
	if n.is(jsonObject) {
		for i, part := range slices.Backward(n.parts) {
			if n.names[i] == name {
				f.jsonValue = part
				break
			}
		}
	}
	return f
}

// list returns the elements of a list.
func (n jsonNode) list() ([]jsonNode, bool) {
	if !n.is(jsonList) {
		return nil, false
	}
	nodes := make([]jsonNode, len(n.parts))
	for i, part := range n.parts {
		nodes[i] = jsonNode{fmt.Sprintf("%s[%d]", n.path, i), part}
	}
	return nodes, true
}

// said returns a string or a number as it is written.
func (n jsonNode) said() string {
	if n.is(jsonText) || n.is(jsonNumber) {
		return n.text
	}
	return ""
}

// number reads a number as records write it.
func (n jsonNode) number() (exact.Number, error) {
	if !n.is(jsonNumber) {
		return exact.Number{}, errors.New("it must be a number")
	}
	return exact.ParseNumber(n.text)
}

// hasAmount reports whether a value holds a number other than 0 anywhere.
func (n jsonNode) hasAmount() bool {
	list, _ := n.list()
	return n.is(jsonNumber) && strings.Trim(n.text, "-0.") != "" || slices.ContainsFunc(list, jsonNode.hasAmount) ||
		n.is(jsonObject) && (n.field("rate").hasAmount() || n.field("adj").hasAmount())
}
