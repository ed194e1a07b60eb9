package question

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// What is wrong with a question, for errors.Is.
var (
	// ErrOption is the kind of a [ledger.Fault] of an option, as [OptionFault] makes them.
	ErrOption = errors.New("an option cannot be met")
	// ErrMissing is that of a [*MissingError].
	ErrMissing = errors.New("some facts are missing")
)

// OptionFault says that an option of a question cannot be met, and why; the hint is
// what to type instead. Option is without dashes: "item", "from" ... The fault has it as
// its Field, and What begins with it as a command line has it.
func OptionFault(option, hint, format string, args ...any) error {
	return &ledger.Fault{Kind: ErrOption, Field: option, What: Flag(option) + ": " + fmt.Sprintf(format, args...), Hint: hint}
}

// OptionOf is the fault of an option, whose What is without it. Of any other error
// there is no Field.
func OptionOf(err error) (option ledger.Fault) {
	if f := (*ledger.Fault)(nil); errors.As(err, &f) && f.Kind == ErrOption {
		option = *f
		option.What = strings.TrimPrefix(f.What, Flag(f.Field)+": ")
	}
	return option
}

// Flag is an option as a command line has it.
func Flag(option string) string { return "--" + option }

// A MissingError names all the facts that a question lacks, each with what
// would give it: a form says that by its fields.
type MissingError struct {
	Facts []MissingFact
	Hint  string // what to type instead; may be empty
}

// A MissingFact is one of them.
type MissingFact struct {
	What   string
	Give   []advice.Part // options that would give it, any of them; nil: Record alone does
	Record string        // the record that would give it; may be empty
}

// flags are the options that would give it, as a command line has them.
func (f MissingFact) flags() string {
	ways := make([]string, len(f.Give))
	for i, p := range f.Give {
		ways[i] = strings.TrimRight(Flag(p.Name)+" "+p.Value, " ")
	}
	return strings.Join(ways, " or ")
}

// give is an option that gives a fact.
func give(option string, value ...string) []advice.Part { return advice.Only(option, value...).Parts }

// Error lists the facts, one a line.
func (e *MissingError) Error() string {
	lines := []string{"some facts are missing:"}
	for _, f := range e.Facts {
		lines = append(lines, "  "+f.String())
	}
	return strings.Join(lines, "\n")
}

// Is reports whether it is asked for by its kind.
func (e *MissingError) Is(kind error) bool { return kind == ErrMissing }

// String says what is missing and what would give it.
func (f MissingFact) String() string {
	switch {
	case f.Record == "":
		return fmt.Sprintf("%s: give %s", f.What, f.flags())
	case f.Give == nil:
		return fmt.Sprintf("%s: record %s", f.What, f.Record)
	}
	return fmt.Sprintf("%s: give %s, or record %s", f.What, f.flags(), f.Record)
}

// Wrong turns what figures or reports cannot answer into what is wrong with an
// option: a food that is not there, a fact that cannot be used, too many labels. Any other error is returned as it is.
func Wrong(g *ledger.Ledger, err error) error {
	var unknown *figures.UnknownError
	switch {
	case errors.As(err, &unknown) && unknown.Of[0] == ledger.Foods:
		return OptionFault("item", nearFood(g.Records, unknown.Name), "no food is called %s", exact.Quote(unknown.Name))
	case errors.Is(err, report.ErrManyLabels):
		return OptionFault("from", fmt.Sprintf("name fewer packs, or give %s and %s", g.Settings.Say(advice.Only("from")), g.Settings.Say(advice.Only("to"))), "%v", err)
	}
	return factWords(g, &figures.WorthQuery{}, err)
}

// Asked is a report whose errors are as [Wrong] has them.
func Asked[Q, R any](lay func(*ledger.Ledger, Q) (R, error)) func(*ledger.Ledger, Q) (R, error) {
	return func(g *ledger.Ledger, q Q) (R, error) {
		d, err := lay(g, q)
		return d, Wrong(g, err)
	}
}

// nearFood says which food was probably meant, or where they are.
func nearFood(rec *ledger.Records, id string) string {
	var names []string
	for i := range rec.Foods {
		names = append(names, rec.Foods[i].ID)
	}
	return cmp.Or(ledger.Nearest(id, names), "foods are listed in "+ledger.FoodsFile)
}
