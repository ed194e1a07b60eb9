package main

import (
	"fmt"
	"iter"
	"strconv"
	"strings"

	"putby/ledger"
)

// A name tells a record: by its identifier, by identifier:part where two
// columns identify it (a receipt's line, a run's phase), or by @LINE of its
// file, which works for every kind.
type name struct {
	key  []string
	line int
}

func parseName(text string) (name, error) {
	if line, found := strings.CutPrefix(text, "@"); found {
		n, err := strconv.Atoi(line)
		if err != nil || n < 2 {
			return name{}, usageError{fmt.Errorf("%q is not @LINE, a line of the file from 2 on", text)}
		}
		return name{line: n}, nil
	}
	return name{key: strings.SplitN(text, ":", 2)}, nil
}

// find returns the lines of the records that a name tells. A first part alone
// tells all records that begin with it: a whole receipt.
func (n name) find(k ledger.Kind, rows iter.Seq2[int, map[string]string]) ([]int, error) {
	if n.line == 0 && (len(k.Key) == 0 || len(n.key) > len(k.Key)) {
		return nil, usageError{fmt.Errorf("a %s is told by @LINE of %s: see putby %s list", k.Name, k.File, k.Name)}
	}
	var lines []int
	for line, cells := range rows {
		if n.tells(k, line, cells) {
			lines = append(lines, line)
		}
	}
	if lines == nil {
		return nil, notFoundError{fmt.Sprintf("%s has no such %s", k.File, k.Name), "putby " + k.Name + " list shows what there is"}
	}
	return lines, nil
}

func (n name) tells(k ledger.Kind, line int, cells map[string]string) bool {
	if n.line > 0 {
		return n.line == line
	}
	for i, part := range n.key {
		if cells[k.Key[i]] != part {
			return false
		}
	}
	return true
}
