package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// byHousehold is the word for rows that are each the sums of a household.
const byHousehold = "household"

const householdsLong = `

With --households the same is asked of every ledger in that folder. Each row
begins with whose it is, in order of name, and the sums over all come last:
--table sums shows them alone, --by household those of each. Of a report of several
tables the first is shown, or the one that --table names; JSON has everything. Every
ledger stands at its own day; currencies and units are never added up. A ledger with
faults is named and left out, and the exit status is 3.`

// across is a report that many households are asked for at once.
type across struct {
	*reporting
	by   *string // --by: that of the report, else its own
	dir  string  // --households
	sums bool    // a row for each household
}

func (h *across) add(cmd *cobra.Command) {
	cmd.Long += householdsLong
	f := cmd.Flags()
	f.StringVar(&h.dir, "households", "", "of all ledgers in this `folder`, each a folder of its own")
	_ = cmd.MarkFlagDirname("households")
	if h.by == nil {
		h.by = new(string)
		f.StringVar(h.by, "by", "", "with --households: `household`, a row for each")
		fixed(cmd, "by", byHousehold)
	}
}

// errOneOrMany refuses a ledger and a folder of ledgers at once.
var errOneOrMany = misused("--ledger is one household and --households are many: give one of the two")

// read tells what is asked of one ledger from what is asked of many.
func (h *across) read(cmd *cobra.Command) error {
	if !h.many {
		return nil
	}
	f := cmd.Flags()
	by, asked := f.Lookup("by"), f.Changed("households")
	h.sums = *h.by == byHousehold
	switch {
	case asked && h.dir == "":
		return question.OptionFault("households", "the folder in which the ledgers lie, each in a folder of its own", "no folder is named")
	case asked && f.Changed("ledger"):
		return errOneOrMany
	case h.sums && !asked:
		return question.OptionFault("by", "give the folder in which the ledgers of several lie, by --households", "there is one household here")
	case !h.sums && by.DefValue == "" && *h.by != "":
		return question.OptionFault("by", byHousehold+", with --households", "%s is not a grouping", exact.Quote(*h.by))
	case h.sums:
		*h.by = by.DefValue
	}
	return nil
}

// An answered is what one of many households comes to.
type answered struct {
	piece    *render.Piece
	currency exact.Currency
	share    reports.Share
	none     error // it has no answer, such as to a question about a food that it does not have
	left     *leftOut
}

// ask joins one household's ledger, and lets it go once its report is ready.
func (h *across) ask(a *app, out *render.Stream, one folder.Household, answer answer) answered {
	if one.Err != nil {
		return answered{left: leaveOut(one, one.Err)}
	}
	s, err := a.standIn(one.Dir, h.on.asOf)
	if err != nil {
		return unanswered(one, err)
	}
	g, d, err := h.report(s, answer)
	if err != nil {
		return unanswered(one, err)
	}
	currency := d.Currency
	if h.sums {
		d = reports.ByHousehold(d)
	}
	piece, err := out.Piece(one.Name, withLeftOut(g, d))
	if err != nil {
		return answered{left: leaveOut(one, err)}
	}
	return answered{piece: piece, currency: currency, share: d.Share}
}

// unanswered tells a question that a household has no answer to, such as one about a
// food that it does not have, from a ledger that cannot be read.
func unanswered(one folder.Household, err error) answered {
	status := statusOf(err)
	if status == exitUsage || status == exitNone && !errors.Is(err, folder.ErrNotLedger) {
		return answered{none: err}
	}
	return answered{left: leaveOut(one, err)}
}

// run prints the report on all households, in order of name, as they get ready.
func (h *across) run(a *app, answer answer) error {
	list, err := folder.Households(h.dir)
	if err != nil {
		return err
	}
	format, err := render.ParseFormat(h.on.format)
	if err != nil {
		return misused("%v", err)
	}
	to := &besideProgress{w: a.stdout, show: a.progress(fmt.Sprintf("of %d households read", len(list)))}
	out := render.NewStream(to, format, a.rendering(h.on.output))
	got := gathered{all: len(list)}
	for one, of := range ledger.InOrder(list, func(one folder.Household) answered { return h.ask(a, out, one, answer) }) {
		if got.add(one, of); of.piece != nil {
			if err := out.Add(of.piece); err != nil {
				return err
			}
		}
		to.reached(got.read)
	}
	to.clear()
	return got.end(out)
}

// gathered is what households come to, one after another.
type gathered struct {
	all, read    int
	sums         reports.Sums
	left, silent []reports.Aside
	why          leftOutError
	none         error // of the first that has no answer
}

func (h *gathered) add(one folder.Household, of answered) {
	h.read++
	switch {
	case of.left != nil:
		h.left = append(h.left, reports.Aside{Name: one.Name, Why: of.left.why, Faults: of.left.faults})
		h.why.list = append(h.why.list, *of.left)
	case of.none != nil:
		h.silent = append(h.silent, reports.Aside{Name: one.Name, Why: whyNone(of.none)})
		h.none = cmp.Or(h.none, of.none)
	default:
		h.sums.Add(of.currency, of.share)
	}
}

// end writes the sums, and says as the error who is in none of them.
func (h *gathered) end(out *render.Stream) error {
	switch {
	case h.sums.Households() > 0:
		err := out.Close(reports.OverHouseholds(&h.sums, h.left, h.silent))
		if errors.Is(err, render.ErrSection) {
			return misused("%v", err)
		}
		if err != nil {
			return err
		}
	case len(h.left) == 0:
		return h.none
	}
	if len(h.left) == 0 {
		return nil
	}
	h.why.of = h.all
	return &h.why
}

// whyNone is why a household has no answer, without the option that asked.
func whyNone(err error) string {
	if query := question.OptionOf(err); query.Field != "" {
		return query.What
	}
	return err.Error()
}

// besideProgress writes where a person may be shown how far the work is, too.
type besideProgress struct {
	w     io.Writer
	show  func(done, all int)
	shown bool
}

func (p *besideProgress) Write(text []byte) (int, error) {
	p.clear()
	return p.w.Write(text)
}

func (p *besideProgress) reached(n int) {
	p.show(n, -1)
	p.shown = true
}

func (p *besideProgress) clear() {
	if p.shown {
		p.show(0, 0)
		p.shown = false
	}
}
