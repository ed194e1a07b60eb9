package main

import (
	"io"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const pageLong = `Write one HTML page of the whole ledger, to look at on a phone or a desk, or to
print: what was saved so far, what is in the larder and what to use first, what
a litre costs taken apart beside the shelf price, money out and savings month
by month, what the machine has earned back, and how prices went.

The page is a single file that needs nothing else. It has no script, asks the
network for nothing, and carries a content policy that holds it to that. The
switch "all digits" above a table shows every digit of its figures.`

type pageOptions struct {
	queryFlags
	toFile
}

func newPageCommand(a *app) *cobra.Command {
	o := &pageOptions{}
	cmd := &cobra.Command{
		Use:   "page -o FILE",
		Short: "one page of charts and tables, to look at or print",
		Long:  pageLong,
		Example: `  putby page -o larder.html
  putby page -o larder.html --force --as-of 2025-06-30`,
		Args: arguments(),
		RunE: func(*cobra.Command, []string) error { return runPage(a, o) },
	}
	o.queryFlags.add(cmd)
	o.toFile.add(cmd, "the page")
	return cmd
}

func runPage(a *app, o *pageOptions) error {
	q, err := o.part(a.now())
	if err != nil {
		return err
	}
	if o.path == "" && a.terminal {
		return misused("a page is no use on a terminal: name a file with -o")
	}
	if o.path != "" {
		if err := a.mayWrite(o.toFile); err != nil {
			return err // before the work
		}
	}
	r, now, err := a.pageReports(q, o.asOf)
	if err != nil {
		return err
	}
	return a.writeOut(o.toFile, func(w io.Writer) error { return page.Write(w, r, now) })
}

// pageReports makes the reports of a page from the ledger as it is now, as they
// stand on the day of --as-of, and the moment of it.
func (a *app) pageReports(q figures.Query, asOf string) (r page.Reports, now time.Time, err error) {
	s, err := a.stand(asOf)
	if err != nil {
		return r, now, err
	}
	q.AsOf = s.day
	r, err = page.ReportsAt(func(through exact.Date) (*ledger.Ledger, error) {
		return s.join(ledger.Options{Through: through, PricesThrough: s.day})
	}, q)
	if r.Ledger != nil {
		err = question.Wrong(r.Ledger, err)
	}
	if err == nil && q.Item == "" {
		var card reports.Told[reports.ShopCard]
		card, err = question.Card(r.Ledger, figures.CardQuery{AsOf: s.day, Now: s.begins})
		r.Card = &card
	}
	return r, s.at.Now, err
}
