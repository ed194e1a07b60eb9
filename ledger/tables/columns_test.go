package tables

import (
	"slices"
	"testing"

	"putby/ledger"
)

// exported says of the kinds of which a table has a row for each record how columns are
// there that go by another name, or why they are not there.
var exported = map[string]struct {
	table string
	as    map[string]string // name in the table; "": not there
}{
	"food": {"foods", map[string]string{
		"food": "item", "basis": "unit",
		"caution": "", // words for people, no fact to add up
	}},
	"supply":  {"supplies", map[string]string{"capacity": ""}},                                                              // with each container that it is of, in packs
	"machine": {"machines", map[string]string{"with": "supplies_per_run", "trays": "", "load_volume": "", "load_mass": ""}}, // limits, which no cost rests on
	"receipt": {"purchases", map[string]string{"on": ""}},                                                                   // in the costs of the lines that it names
	"price":   {"prices", map[string]string{"makes": "", "note": ""}},                                                       // in per_unit
	"batch":   {"batches", map[string]string{"item": "item", "quantity": "made", "cost": "own", "from": "", "note": ""}},    // in lots and draws
	"run":     {"runs", map[string]string{"start": "started", "end": "hours", "hands": "labour", "tariff": "electricity"}},
	"load":    {"loads", map[string]string{"receipt": "", "line": "", "trays": "", "wet": "wet_kg", "dry": "dry_kg", "lost": "lost_quantity"}}, // the lots are in food's cost
	"pack":    {"packs", map[string]string{"dry": "", "with": "supplies_each", "cost": "total", "packed": ""}},
	"draw":    {"draws", map[string]string{"note": ""}},
}

// untold are the kinds of which no table has a row for each record, and what tells of them.
var untold = map[string]string{
	"phase":   "hours and electricity of runs",
	"wattage": "the electricity of runs",
	"tariff":  "the electricity of runs",
	"holiday": "the electricity of runs",
	"frozen":  "no sum rests on where fresh food waits",
	"count":   "what is missing is in draws",
}

// Every kind of record has a table, or it is said why not: so that a new one is not
// forgotten.
func TestEveryKindIsExported(t *testing.T) {
	for _, k := range ledger.Kinds() {
		_, has := exported[k.Name]
		if why := untold[k.Name]; has == (why != "") {
			t.Errorf("%s: add it to the tables, or say in untold why not; in a table %v, untold %q", k.Name, has, why)
		}
	}
}

// Every column of such a kind is in its table, or said not to be: so that one that is
// added is not forgotten.
func TestEveryColumnIsExported(t *testing.T) {
	for name, of := range exported {
		k := ledger.MustKind(name)
		at := slices.IndexFunc(All(), func(table Table) bool { return table.Name == of.table })
		if at < 0 {
			t.Errorf("there is no table %s", of.table)
			continue
		}
		there := func(column string) bool {
			return slices.ContainsFunc(All()[at].Columns, func(c Column) bool { return c.Name == column })
		}
		for _, column := range k.Header() {
			as, other := of.as[column]
			if !other {
				as = column
			}
			if as != "" && !there(as) {
				t.Errorf("%s of a %s is not in the table %s: add it to the table's function, or say here why not", column, name, of.table)
			}
		}
		for column := range of.as {
			if !k.Has(column) {
				t.Errorf("a %s has no column %s", name, column)
			}
		}
	}
}
