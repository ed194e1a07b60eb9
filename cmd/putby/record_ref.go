package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// howToName explains how records are named.
const howToName = `WHICH is what you know of the record: its identifier, or the number in it (48 for
c48); the name of a food, a shop or whatever else it names, in any case; a day; or
last, which is that of the latest day: where another was saved last, both are named,
and nothing is done. Several narrow the choice: "price strawberries last".
IDENTIFIER:PART is one line of several (r12:3 is line 3 of receipt r12), and @LINE a
line of the file. Where several records fit, they are listed with the command for each.`

// A recordRef names records of a kind that are to be changed or taken out.
type recordRef struct {
	entry.Ref
	kind  ledger.Kind
	verb  string
	exact bool            // it was told by its identifier
	joint *ledger.Ledger  // before the change; nil where the ledger has faults
	rec   *ledger.Records // the same
	at    entry.Moment
	dir   string // of the ledger
}

// refer reads the words of a command, of which it needs a kind and which one.
func refer(cmd *cobra.Command, args []string) (*recordRef, error) {
	r := &recordRef{Ref: entry.ParseRef(args), verb: cmd.Name()}
	settings := ledger.SettingsKind()
	if r.Kind == settings.Name && len(r.Words) == 0 && len(r.Sets) == 1 && r.verb == "edit" {
		setting, value, _ := strings.Cut(r.Sets[0], "=")
		return nil, mistyped("a setting is named first, and then its value", commandLine([]string{"putby", "edit", settings.Name, setting, "value=" + value}))
	}
	if r.Kind == "" || len(r.Words) == 0 {
		return nil, usageError{fmt.Errorf("%s takes KIND and WHICH, such as %s receipt last", cmd.Name(), cmd.Name())}
	}
	k, err := kindOf(r.Kind)
	r.kind = k
	return r, err
}

// look takes the records among which it is looked for.
func (r *recordRef) look(a *app, b *folder.Book) {
	r.dir = a.ledgerDir()
	r.rec, _ = b.Records() // what is changed may mend what is wrong with the rest
	r.at = a.at(r.rec)
}

// in takes the ledger in which it is looked for.
func (r *recordRef) in(a *app, b *folder.Book) {
	r.look(a, b)
	g, faults := ledger.Join(r.rec, ledger.Options{})
	if len(faults) == 0 {
		r.joint = g
	}
}

// find finds the records: those that one word tells as identifier or line, or
// else those that all words tell.
func (r *recordRef) find(tx *folder.Tx) ([]entry.Record, error) {
	var list []entry.Record
	for line, cells := range tx.Rows(r.kind) {
		list = append(list, entry.Record{Line: line, At: len(list), Cells: cells})
	}
	first := error(nil)
	if len(r.Words) == 1 {
		n, err := parseName(r.Words[0])
		if err != nil {
			return nil, err
		}
		lines, err := n.find(r.kind, tx.Rows(r.kind))
		if err == nil {
			r.exact = true
			return slices.DeleteFunc(list, func(o entry.Record) bool { return !slices.Contains(lines, o.Line) }), nil
		}
		first = err
	}
	found, err := entry.Pick(r.rec, r.at, r.kind, list, r.Words, r.newest(tx))
	if two := (*entry.TwoLastError)(nil); errors.As(err, &two) {
		return nil, r.twoLast(two)
	}
	if found != nil {
		return found, nil
	}
	if first == nil {
		first = notFound(fmt.Sprintf("%s has no %s of %s", r.kind.File, r.kind.Name, exact.Quote(strings.Join(r.Words, " "))),
			"putby "+r.kind.Name+" list, which shows what there is")
	}
	return nil, first
}

// mostLooked is how many changes are looked through for what was saved last.
const mostLooked = 100

// newest tells which records were saved last, by the history of the ledger.
func (r *recordRef) newest(tx *folder.Tx) func([]entry.Record) []entry.Record {
	return func(list []entry.Record) []entry.Record {
		changes, _ := folder.LastChanges(r.dir, mostLooked) // without them nothing tells
		text, _ := tx.ReadFile(r.kind.File)
		lines := strings.Split(string(text), "\n")
		for _, added := range folder.AddedTo(r.kind.File, changes) {
			found := slices.DeleteFunc(slices.Clone(list), func(o entry.Record) bool {
				return o.Line > len(lines) || !added[strings.TrimRight(lines[o.Line-1], "\r")]
			})
			if len(found) > 0 {
				return found
			}
		}
		return nil
	}
}

// twoLast lists the record that was saved last and that of the latest day.
func (r *recordRef) twoLast(two *entry.TwoLastError) error {
	e := &entry.AmbiguousError{What: "2 " + r.kind.Name + "s may be meant by last; say which:"}
	for i, o := range []entry.Record{two.Saved, two.Latest} {
		name := entry.NameOf(r.kind, o, r.kind.Name == "receipt")
		e.Choices = append(e.Choices, entry.Choice{
			What:    []string{"saved last: ", "of the latest day: "}[i] + r.head(o),
			Command: commandLine(append([]string{"putby", r.verb, r.kind.Name, name}, r.Sets...)),
		})
	}
	return e
}

// head tells a record in words, of a receipt as a whole.
func (r *recordRef) head(o entry.Record) string {
	if r.kind.Name != "receipt" {
		return r.words(o)
	}
	return r.label(o)
}

// label names a record, with its day where it has one.
func (r *recordRef) label(o entry.Record) string {
	words := r.kind.Name + " " + entry.NameOf(r.kind, o, r.kind.Name == "receipt")
	if date := o.Cells["date"]; date != "" {
		words += " of " + cellText(r.at.Locale, r.kind.Column("date"), date)
	}
	return words
}

// A staysError is the refusal of a change, with the record that it was of.
type staysError struct {
	record  string
	refusal *folder.Refusal
}

func (e staysError) Error() string { return e.record + ": " + e.refusal.Error() }
func (e staysError) Unwrap() error { return e.refusal }

// stays names the record in the refusal of a change.
func (r *recordRef) stays(found []entry.Record, err error) error {
	refusal := (*folder.Refusal)(nil)
	if !errors.As(err, &refusal) || refusal.Already || len(found) == 0 || errors.As(err, new(*entry.InUseError)) {
		return err
	}
	return staysError{r.label(found[0]), refusal}
}

// ambiguous lists the records that may be meant.
func (r *recordRef) ambiguous(found []entry.Record) error {
	return entry.Ambiguous(r.kind, found, r.words, func(name string) string {
		return commandLine(append([]string{"putby", r.verb, r.kind.Name, name}, r.Sets...))
	})
}

// words tells a record in words, or by its cells where the ledger has faults.
func (r *recordRef) words(o entry.Record) string {
	if r.joint != nil {
		if said := reports.OneLine(r.joint, reports.Written{Kind: r.kind.Name, At: o.At}); said != "" {
			return said
		}
	}
	var cells []string
	for _, c := range r.kind.Header() {
		if o.Cells[c] != "" {
			cells = append(cells, c+" "+o.Cells[c])
		}
	}
	return strings.Join(cells, "; ")
}

// said says what records come to, before they are changed.
func (r *recordRef) said(found []entry.Record) []string {
	if r.joint == nil {
		return nil
	}
	return reports.Saved(r.joint, written(r.kind, found))
}

func written(k ledger.Kind, found []entry.Record) []reports.Written {
	list := make([]reports.Written, len(found))
	for i, o := range found {
		list[i] = reports.Written{Kind: k.Name, At: o.At}
	}
	return list
}
