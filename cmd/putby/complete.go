package main

import (
	"maps"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// A blankError names all that an add lacks.
type blankError struct {
	kind    ledger.Kind
	columns []string
}

// Error lists the flags that would give it.
func (e *blankError) Error() string {
	flags := make([]string, len(e.columns))
	for i, c := range e.columns {
		flags[i] = "--" + flagName(c)
	}
	return "a " + e.kind.Name + " needs " + strings.Join(flags, ", ")
}

// complete fills in what a record lacks: from what the ledger suggests, and by
// asking where a person can be asked. What may not be blank and still is, is
// named all at once.
func (a *app) complete(k ledger.Kind, rec *ledger.Records, given map[string]string) (map[string]string, error) {
	cells := maps.Clone(given)
	suggested := entry.Suggest(k, rec, given, a.today(rec))
	var lacking []string
	for _, c := range k.Columns {
		if _, ok := cells[c.Name]; ok || !c.Need {
			continue
		}
		if a.ask {
			answer, err := a.askFor(c, suggested[c.Name])
			if err != nil {
				return nil, err
			}
			cells[c.Name] = answer
			continue
		}
		if s := suggested[c.Name]; s != "" && entry.Sure(c.Name, k) {
			cells[c.Name] = s
			continue
		}
		lacking = append(lacking, c.Name)
	}
	if lacking != nil {
		return nil, usageError{&blankError{k, lacking}}
	}
	return cells, nil
}
