package figures

import (
	"cmp"
	"errors"
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Query says what part of a ledger figures are of. Its zero value asks for
// everything.
type Query struct {
	From, To exact.Date // inclusive; NoDate is open
	AsOf     exact.Date // later records are left out; NoDate: none are
	Item     string     // only this food, by its identifier or name; empty is all
}

// StandAt has the query stand at a day.
func (q *Query) StandAt(day exact.Date) { q.AsOf = day }

// A Scope is a query held against a ledger.
type Scope struct {
	First, Last exact.Date // inclusive
	Food        int        // position in Foods; -1: all
	// Machine is the identifier of a machine, or empty for what none has dried: fresh
	// food, opening stock. Not given: all.
	Machine exact.Opt[string]
}

// Always is the scope of all dates, of one food or of all where it is -1.
func Always(food int) Scope { return Scope{Last: exact.LastDate, Food: food} }

// In finds the food that a query names. The error is an [*UnknownError] or a
// [*FactError].
func (q Query) In(g *ledger.Ledger) (Scope, error) {
	s := Scope{First: q.From, Last: min(orLast(q.To), orLast(q.AsOf)), Food: -1}
	if orLast(q.To) < q.From {
		return s, &FactError{Fact: ToFact, Fault: Backwards, Day: q.To, Than: q.From}
	}
	if q.Item == "" {
		return s, nil
	}
	food, ok := foodNamed(g, q.Item)
	if !ok {
		return s, unknown(ledger.Foods, q.Item)
	}
	s.Food = food
	return s, nil
}

// foodNamed is the food that a person calls by a name or identifier.
func foodNamed(g *ledger.Ledger, name string) (food int, ok bool) {
	id, _ := ledger.Meant(name, g.NamedFoods())
	return g.FindFood(id)
}

// orLast is the last date of all where none is given.
func orLast(d exact.Date) exact.Date { return cmp.Or(d, exact.LastDate) }

// Covers reports whether a date is within the scope.
func (s Scope) Covers(d exact.Date) bool { return s.First <= d && d <= s.Last }

// Wants reports whether the scope is about a food.
func (s Scope) Wants(food int) bool { return s.Food < 0 || s.Food == food }

// On reports whether the scope is about what a machine dried; an empty identifier
// is of none.
func (s Scope) On(machine string) bool {
	m, asked := s.Machine.Get()
	return !asked || m == machine
}

// wantsPack reports whether the scope is about a pack.
func (s Scope) wantsPack(g *ledger.Ledger, pack int) bool {
	return s.Wants(g.Packs[pack].Food) && (!s.Machine.Given() || s.On(machineOf(g, pack)))
}

// machineOf is the identifier of the machine that dried a pack; empty where none
// did.
func machineOf(g *ledger.Ledger, pack int) string {
	run, ok := g.FindRun(g.Records.Packs.At(pack).Run)
	if !ok {
		return ""
	}
	return g.Records.Runs[run].Machine
}

// An UnknownError says that the ledger has no record of a name.
type UnknownError struct {
	Of      []ledger.Thing // any of which it could have been
	Name    string
	Receipt string // of which Name would be a line; else empty
}

// unknown is the error of a thing that the ledger does not have.
func unknown(of ledger.Thing, name string) error {
	return &UnknownError{Of: []ledger.Thing{of}, Name: name}
}

// Error names what there is none of.
func (e *UnknownError) Error() string {
	what := ledger.Either(kinds(e.Of))
	if e.Receipt != "" {
		what = "line of " + what + " " + e.Receipt
	}
	return fmt.Sprintf("there is no %s called %s", what, exact.Quote(e.Name))
}

// ErrUnbalanced says that an identity does not hold. That is an error of this
// program, never of the records.
var ErrUnbalanced = errors.New("the books do not balance: this is a defect of putby, please report it")
