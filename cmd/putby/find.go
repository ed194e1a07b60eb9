package main

import (
	"cmp"
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
	text string
	key  []string
	line int
}

func parseName(text string) (name, error) {
	if line, found := strings.CutPrefix(text, "@"); found {
		n, err := strconv.Atoi(line)
		if err != nil || n < 2 {
			return name{}, usageError{fmt.Errorf("%q is not @LINE, a line of the file from 2 on", text)}
		}
		return name{text: text, line: n}, nil
	}
	return name{text: text, key: strings.SplitN(text, ":", 2)}, nil
}

// find returns the lines of the records that a name tells. A first part alone
// tells all records that begin with it: a whole receipt.
func (n name) find(k ledger.Kind, rows iter.Seq2[int, map[string]string]) ([]int, error) {
	if n.line == 0 && (len(k.Key) == 0 || len(n.key) > len(k.Key)) {
		return nil, mistyped(fmt.Sprintf("a %s has no name: it is told by @LINE of %s", k.Name, k.File), "putby "+k.Name+" list, which shows the lines")
	}
	var lines []int
	var names []string
	for line, cells := range rows {
		if n.tells(k, line, cells) {
			lines = append(lines, line)
		}
		if n.line == 0 {
			names = append(names, cells[k.Key[0]])
		}
	}
	if lines != nil {
		return lines, nil
	}
	near := ""
	if n.line == 0 {
		near = ledger.Nearest(n.key[0], names)
	}
	if near == n.text || n.line == 0 && near == n.key[0] {
		near = "" // it is the part that there is not
	}
	return nil, notFound(fmt.Sprintf("%s has no %s %s", k.File, k.Name, n.text), cmp.Or(near, "putby "+k.Name+" list, which shows what there is"))
}

func (n name) tells(k ledger.Kind, line int, cells map[string]string) bool {
	if n.line > 0 {
		return n.line == line
	}
	for i, part := range n.key {
		if strings.TrimSpace(cells[k.Key[i]]) != part {
			return false
		}
	}
	return true
}
