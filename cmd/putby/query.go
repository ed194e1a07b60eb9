package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/pricing"
	"putby/pricing/exact"
)

// queryFlags are --from, --to, --as-of and --item. The day of --as-of needs the
// ledger, see [app.stand].
type queryFlags struct{ from, to, asOf, item string }

func (q *queryFlags) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&q.from, "from", "", "first `date` that counts, or a month or year, from its first day")
	f.StringVar(&q.to, "to", "", "last `date` that counts, or a month or year, to its last day")
	addAsOf(f, &q.asOf)
	f.StringVar(&q.item, "item", "", "only this `food`")
}

// addAsOf adds the flag --as-of.
func addAsOf(f *pflag.FlagSet, into *string) {
	f.StringVar(into, "as-of", "", "the `day` to stand at, today, yesterday or a date: later records are left out (today, or the setting as_of)")
}

// part turns the flags into a query, which stands at no day yet.
func (q *queryFlags) part(now time.Time) (figures.Query, error) {
	at := entry.Moment{Now: now, Today: exact.DateIn(now)}
	r := figures.Query{}
	r.Item = q.item
	for _, d := range []struct {
		option, text string
		into         *exact.Date
	}{{"from", q.from, &r.From}, {"to", q.to, &r.To}} {
		if d.text == "" {
			continue
		}
		first, last, ok := at.Period(d.text)
		if !ok {
			why, hint := notPeriod(d.text, "date", "a date such as 2025-10-31, a month such as october or 2025-10, today, yesterday or last sat")
			return r, question.OptionFault(d.option, hint, "%s", why)
		}
		if *d.into = first; d.option == "to" {
			*d.into = last
		}
	}
	return r, nil
}

// notPeriod says that a text is none of a sort of time, and what to write: the month that a
// word is nearest to, or else the forms that there are.
func notPeriod(text, sort, forms string) (why, hint string) {
	var months []string
	for m := time.January; m <= time.December; m++ {
		months = append(months, strings.ToLower(m.String()))
	}
	if near := ledger.Nearest(text, months); near != "" {
		return "no month is called " + exact.Quote(text), near
	}
	return exact.Quote(text) + " is not a " + sort, forms
}

// costView are --without and --against: which elements of cost count, and beside which
// form of a food on the shelf.
type costView struct {
	without []string
	against string
}

func (v *costView) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringSliceVar(&v.without, "without", nil, "leave out `elements`: "+strings.Join(ledger.ElementNames(), ", "))
	f.StringVar(&v.against, "against", "fresh", "the shelf price of which `form`: fresh or preserved")
	fixed(cmd, "against", forms()...)
}

// read reads the flags.
func (v *costView) read() (without []ledger.Element, against pricing.Form, err error) {
	for _, name := range v.without {
		i := slices.Index(ledger.ElementNames(), name)
		if i < 0 {
			return nil, against, question.OptionFault("without", strings.Join(ledger.ElementNames(), ", "), "%s is no element of cost", exact.Quote(name))
		}
		without = append(without, ledger.Elements()[i])
	}
	against, err = parseForm("against", v.against)
	return without, against, err
}

func parseForm(option, name string) (pricing.Form, error) {
	if i := slices.Index(forms(), name); i >= 0 {
		return pricing.Form(i), nil
	}
	return pricing.Fresh, question.OptionFault(option, ledger.Either(forms()), "%s is not a form", exact.Quote(name))
}

// forms are the words of the forms of a food on the shelf.
func forms() []string { return ledger.MustKind("price").Column("form").Words }

// fixed offers the words of a flag to the shell.
func fixed(cmd *cobra.Command, flag string, words ...string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// oneOf adds a flag that takes one of some words; its usage names them at %s.
func oneOf(cmd *cobra.Command, on *string, flag, usage string, words []string) {
	cmd.Flags().StringVar(on, flag, "", fmt.Sprintf(usage, entry.OrList(words)))
	fixed(cmd, flag, words...)
}

// alsoNamed has a flag taken by the name too that another command has for the same; help
// shows its own alone.
func alsoNamed(f *pflag.FlagSet, flag, other string) {
	f.SetNormalizeFunc(func(_ *pflag.FlagSet, name string) pflag.NormalizedName {
		if name == other {
			name = flag
		}
		return pflag.NormalizedName(name)
	})
}
