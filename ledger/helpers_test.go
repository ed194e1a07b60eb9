package ledger_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// base is a ledger in which nothing has happened yet. The machine belongs to
// no receipt, electricity is 0.25 a kWh at any time.
const base = `-- settings.csv --
setting,value
format,1
currency,EUR
zone,UTC
tariff,flat
-- tariffs.csv --
tariff,rate
flat,0.25
-- foods.csv --
food,basis,density,piece_kg,refuse
stock,volume,1.02,,
leek,mass,,,20
soup,volume,,,
egg,count,,0.05,
-- supplies.csv --
supply,kind,uses,price
jar,jar,20,2.00
lid,lid,1,0.10
oil,oil,25,
-- machines.csv --
machine,cycles
dryer,100
`

// files returns the base with the files that text has after "-- name --"
// lines; they stand in for those of the base.
func files(text string) map[string]string {
	all := map[string]string{}
	for _, part := range strings.Split("\n"+base+text, "\n-- ")[1:] {
		name, body, ok := strings.Cut(part, " --\n")
		if !ok {
			panic("no name: " + part)
		}
		all[name] = strings.TrimSuffix(body, "\n") + "\n"
	}
	return all
}

// records reads a ledger without a fault.
func records(t testing.TB, text string) *ledger.Records {
	t.Helper()
	rec, faults, err := ledgertest.Read(files(text))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return rec
}

// book joins a ledger without a fault, and proves its identities.
func book(t testing.TB, text string) *ledger.Ledger {
	t.Helper()
	return bookAt(t, text, whole)
}

func bookAt(t testing.TB, text string, o ledger.Options) *ledger.Ledger {
	t.Helper()
	g, faults := ledger.Join(records(t, text), o)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	prove(t, g)
	return g
}

// fataler is a test, or one of many that rapid makes.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// prove holds the ledger to its identities.
func prove(t fataler, g *ledger.Ledger) {
	t.Helper()
	for _, identity := range g.Identities() {
		if !identity.Holds() {
			t.Fatalf("as of %v the identity of %s does not hold: %v is not %v", g.AsOf, identity.Name, identity.In, identity.Out)
		}
	}
}

// asOf are the options of a join up to a date.
func asOf(date string) ledger.Options {
	d := exact.MustDate(date)
	return ledger.Options{Through: d, PricesThrough: d}
}

// wantFaults holds all faults of a ledger to lines of "file:line field what".
// What follows the field need only begin so.
func wantFaults(t *testing.T, text string, want ...string) {
	t.Helper()
	rec, read, err := ledgertest.Read(files(text))
	if err != nil {
		t.Fatal(err)
	}
	_, faults := ledger.Join(rec, ledger.Options{Read: read, Through: exact.NoDate, PricesThrough: exact.NoDate})
	var have []string
	for _, f := range faults {
		have = append(have, fmt.Sprintf("%s:%d %s %s", f.File, f.Line, f.Field, f.What))
		if f.What == "" || strings.HasSuffix(f.What, ".") {
			t.Errorf("not a message: %q", f.What)
		}
	}
	if !slices.EqualFunc(have, want, strings.HasPrefix) {
		t.Errorf("faults:\n\t%s\nwant:\n\t%s", strings.Join(have, "\n\t"), strings.Join(want, "\n\t"))
	}
}

// figures holds named figures to what they print as.
func figures(t *testing.T, have map[string]any, want map[string]string) {
	t.Helper()
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if h, ok := have[name]; !ok || fmt.Sprint(h) != want[name] {
			t.Errorf("%s is %v, want %s", name, h, want[name])
		}
	}
}

// noted writes notes by their kinds and what they are of.
func noted(g *ledger.Ledger, notes []ledger.Note) string {
	list := make([]string, len(notes))
	for i, n := range notes {
		switch n.Kind {
		case ledger.OfElectricity:
			list[i] = map[energy.NoteKind]string{energy.AtStart: "priced at its start", energy.NothingYet: "nothing yet", energy.PhasesYet: "phases yet"}[n.Power.Kind]
		case ledger.NoReceiptOf:
			list[i] = "no receipt of " + g.Machines[n.At].ID
		case ledger.CyclesUsedUp:
			list[i] = "no cycle left of " + g.Machines[n.At].ID
		case ledger.AtListPrice:
			list[i] = "list price of " + g.Supplies[n.At].ID
		case ledger.NotDry:
			list[i] = "not dry: " + g.Records.Packs.At(n.At).ID
		case ledger.RepairOfNoCycle:
			list[i] = "repair of no cycle of " + g.Machines[n.At].ID
		case ledger.TakenBackFor:
			list[i] = g.Supplies[n.At].ID + " taken back for less by " + n.Less.String()
		}
	}
	return strings.Join(list, "|")
}

// run returns what a run cost, by its identifier.
func run(t testing.TB, g *ledger.Ledger, id string) *ledger.RunCost {
	t.Helper()
	i, ok := g.FindRun(id)
	if !ok {
		t.Fatalf("no run %s", id)
	}
	return &g.Runs[i]
}

// pack returns what a pack cost, by its identifier.
func pack(t testing.TB, g *ledger.Ledger, id string) *ledger.PackCost {
	t.Helper()
	i, ok := g.FindPack(id)
	if !ok {
		t.Fatalf("no pack %s", id)
	}
	return &g.Packs[i]
}

// foodStock returns what is in hand of a food.
func foodStock(t testing.TB, g *ledger.Ledger, id string) *ledger.Stock {
	t.Helper()
	i, ok := g.FindFood(id)
	if !ok {
		t.Fatalf("no food %s", id)
	}
	return g.FoodStock(i)
}

// costs of the moves, in order.
func moved(g *ledger.Ledger) string {
	var list []string
	for _, m := range g.Moves {
		list = append(list, fmt.Sprintf("%v %v for %v", m.Reason, m.Quantity, m.Cost))
	}
	return strings.Join(list, ", ")
}
