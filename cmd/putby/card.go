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
)

const cardLong = `Say, for the foods that you dry, up to which price of a package buying it in bulk
pays: to take to the shop, before you see a sale.

Each food is listed by name with its usual packages (the newest that you bought
and the newest that a shop asked a price for). "pays up to" is the highest price
at which some number of packages saves, with all that drying costs; "buy" is how
many that takes, "at most" how many the machine and your use allow: the runs are to end
before the day on which the food turns, while a run of food in hand may begin on it.
It is what
"putby worth" answers with nothing eaten fresh and no limit of the shop's.
The last offer seen and the lowest price paid in a year are beside it.

--format html is a card for a phone, which needs no network, or for the wallet:
print it.`

type cardOptions struct {
	reportFlags
	toFile
	as, size string
	shown    reports.ShopCard
}

func newCardCommand(a *app) *cobra.Command {
	o := &cardOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "card",
		Short: "up to which price each food is worth buying, for the shop",
		Long:  cardLong,
		Example: `  putby card
  putby card --format html -o card.html
  putby card --item strawberries --size 1kg
  putby card --item eggs --as beaten-egg`,
		Args: arguments(),
	}, reporting{on: &o.reportFlags, flags: o.flags, ask: o.ask, file: &o.toFile,
		html: func(w io.Writer, d reports.Doc) error {
			return page.WriteCard(w, reports.Told[reports.ShopCard]{Doc: d, Figures: o.shown}, false)
		}})
}

func (o *cardOptions) flags(cmd *cobra.Command) {
	o.toFile.add(cmd, "the card")
	f := cmd.Flags()
	f.StringVar(&o.item, "item", "", "only this `food`, whether or not it was dried before")
	f.StringVar(&o.as, "as", "", "with --item: the `food` that it is dried as, such as beaten-egg")
	f.StringVar(&o.size, "size", "", "with --item: `amount` in a package as bought, such as 500g")
	addAsOf(f, &o.asOf)
}

// ask reads the flags.
func (o *cardOptions) ask(time.Time, []string) (answer, error) {
	q := figures.CardQuery{Item: o.item, As: o.as}
	var err error
	for _, option := range [][2]string{{"as", o.as}, {"size", o.size}} {
		if option[1] != "" && o.item == "" {
			return nil, question.OptionFault(option[0], "name the food with --item", "it is about one food")
		}
	}
	if q.Size, err = question.ParsePackage("size", o.size); err != nil {
		return nil, err
	}
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		q.AsOf, q.Now = s.day, s.begins
		t, err := question.Card(g, q)
		o.shown = t.Figures
		return t.Doc, err
	}, nil
}
