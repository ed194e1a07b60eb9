package main

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

const receiptAddLong = `Add a receipt, each line in quotes as you would say it:

  "2 lb strawberries 5.98"           SIZE FOOD PRICE: of the whole line
  "3 x 454 g strawberries 3.99"      COUNT x SIZE FOOD PRICE: of each
  "12 eggs 3.49", "6 jars 12.60"     a number without x: of all of them
  "6 jars at 2.10"                   after at, or before each: of each
  "3 x 454 g strawberries for 9.97"  after for, or in all: of all of them
  "1.234 kg pears 2.49/kg"           by weight; also 2.49 per kg
  "oat milk 2 for 5.00"              so many packages for so much
  "3 x oat milk 2.79 3 for 2"        the price before an offer, and the offer
  "soap 1.99"                        what is not known: spending only
  "coupon 2.00", "coupon strawberries 1.00", "discount 1.00 on 1,2"
  "tax 1.20", "delivery 4.90", "deposit 8 x 0.10", "bottle return 0.80"

An offer is worded as the shelf words it: 3 for 2, buy 2 get 1 free, 20% off,
2nd half price, 0.50 off. on offer says that it is off the price already.

The price stands last, or anywhere behind the name, and so may the size and a
count with x: strawberries 3 x 454 g 3.99, or strawberries 454 g 3.99 x 3. In any
order may follow: less AMOUNT, tax AMOUNT (of the whole line), regular, note TEXT.
A number may have a decimal comma and the sign of the currency.

A thing is found by its name or identifier, in any case and in the plural, or by
what shops call it (names.csv of import); the longest name counts. What nothing is
called by you are asked about once on a terminal, and the answer is kept in
names.csv. A food without a size takes the package of last time, and says so.
other, food, supply, service or machine in front say what a line is.

The total is what is printed, and must add up; else you are told by how much it
does not, and by which line that may be.

A regular price that you paid for a food counts as what the shelf asks (a row in
shelf.csv), which costs are compared with. It does not where something came off
it, where it is said to be on offer, or where it is lower than the regular price
known of that shop, or else of any: say regular behind it if the shelf price came
down. Taxes on top are left out. --no-shelf: none of them.

The flags --food, --supply, --other, --discount ... say what a line is, and --food
refuses what the ledger does not know. Lines in quotes are numbered first.

Supplies that the shop takes back have a count below 0: --supply "-3 x jar-1l at
1.55".
Food that goes back is taken off the receipt on which it was bought (putby edit
receipt).

A receipt with the shop, date and lines of one that is there is asked about on a
terminal, and refused otherwise unless --again.

Without lines, on a terminal, you are asked for them one by one.`

// receiptOptions are a receipt as it is typed.
type receiptOptions struct {
	saving
	columnFlags                 // of columns that lines do not say
	in          entry.ReceiptIn // with the lines of flags
}

// lineFlag appends to the lines, so that the order of different flags is kept.
type lineFlag struct {
	kind  ledger.ReceiptKind
	lines *[]entry.TypedLine
}

func (f lineFlag) String() string { return "" }
func (f lineFlag) Type() string   { return "line" }
func (f lineFlag) Set(text string) error {
	*f.lines = append(*f.lines, entry.TypedLine{Kind: f.kind.String(), Text: text})
	return nil
}

func newReceiptAddCommand(a *app) *cobra.Command {
	o := &receiptOptions{}
	cmd := &cobra.Command{
		Use: "add [LINE...]", Short: "add a receipt, line by line as you would say it", Long: receiptAddLong,
		Example: `  putby receipt add --shop "Muddleby Foods" "1.234 kg apples 3.28/kg" \
    "2 x 5 kg carrots 5.99 2 for 10.00" "12 eggs 3.49" "bus fare 2.40" \
    "coupon carrots 1.00" --total 18.94
  putby receipt add --shop "Quirk & Thimble" "3 lb onions at 2.10" "soap 1.99"
  putby receipt add --shop "Muddleby Foods" --food "2 kg carrots at 3.29"`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd, a, args) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.in.Shop, "shop", "", "`who` sold it")
	f.StringVar(&o.in.Date, "date", "", "`day` of purchase (today)")
	f.StringVar(&o.in.Receipt, "receipt", "", "`identifier` (as the shop's last, with the day or the next number)")
	for _, kind := range ledger.ReceiptKinds() {
		f.Var(lineFlag{kind, &o.in.Lines}, kind.String(), lineHelp[kind])
	}
	k := ledger.MustKind("receipt")
	for _, column := range entry.NotInLines() {
		o.column(a, cmd, k.Column(column))
	}
	f.BoolVar(&o.in.NoShelf, "no-shelf", false, "do not take regular prices that were paid for what the shelf asks")
	f.StringVar(&o.in.Offer, "offer", "", "`offer` on the one thing bought, such as \"3 for 5.00\"")
	for _, name := range []string{"shop", "date", "receipt"} {
		a.completeColumn(cmd, k.Column(name))
	}
	a.addMeant(cmd, k)
	o.saving.add(cmd)
	return cmd
}

var lineHelp = map[ledger.ReceiptKind]string{
	ledger.FoodLine: "a food bought", ledger.SupplyLine: "jars, bags, absorbers ... bought", ledger.MachineLine: "a machine bought",
	ledger.ServiceLine: "work paid for, such as a repair of a machine", ledger.OtherLine: "anything else bought",
	ledger.DiscountLine: "an amount off", ledger.TaxLine: "a tax on top", ledger.ChargeLine: "a charge on top, such as delivery",
	ledger.DepositLine: "a deposit paid, such as 8 x 0.10; -8 x 0.10 when bottles go back", ledger.TotalLine: "the printed total",
}

// run records the receipt, its lines that stand alone before those of flags. Where none
// were given it asks for them.
func (o *receiptOptions) run(cmd *cobra.Command, a *app, args []string) (err error) {
	in, ctx := o.in, cmd.Context()
	in.Lines, in.More = nil, o.given(cmd)
	for _, text := range args {
		in.Lines = append(in.Lines, entry.TypedLine{Text: text})
	}
	in.Lines = append(in.Lines, o.in.Lines...)
	if in.Names, err = entry.KeptNames(a.ledgerDir()); err != nil {
		return err
	}
	if len(in.Lines) == 0 && a.ask {
		return a.add(ctx, o.saving, nil, func(t *ask.Talk, b *entry.Base) (*draft, error) { return o.draft(t, b, in) })
	}
	if a.ask && !o.dryRun {
		if err := a.askUnknown(&in); err != nil {
			return err
		}
	}
	return a.act(ctx, o.saving, entry.AboutReceipt(in, a.at), func(b *entry.Base) (*entry.Draft, error) {
		d, err := entry.AddReceipt(b, in)
		if err != nil && len(in.Lines) == 0 && in.Shop == "" {
			return nil, mistyped("a receipt needs lines and --shop", "putby "+commandLine(append([]string{"receipt", "add"}, exampleReceipt(b.Records)...)))
		}
		return d, unknownItem(err)
	})
}

// exampleReceipt is a receipt that can be typed: of a food of the household's.
func exampleReceipt(rec *ledger.Records) []string {
	line := "soap 2"
	if len(rec.Foods) > 0 {
		line = strings.TrimPrefix("1 "+rec.Foods[0].Basis.String()+" ", "1 ea ") + rec.Foods[0].ID + " 3"
	}
	return []string{"--shop", cmp.Or(entry.LastShop(rec), "Corner shop"), line}
}

// draft makes the receipt by asking for its lines.
func (o *receiptOptions) draft(t *ask.Talk, b *entry.Base, in entry.ReceiptIn) (*draft, error) {
	r := &entry.Receipt{Currency: b.Records.Settings.Currency, Locale: b.Records.Settings.Locale, More: in.More}
	if err := o.head(t, b, r); err != nil {
		return &draft{args: receiptArgs(r)}, err
	}
	return o.ask(t, b, r, in.Names)
}

// head fills in whose receipt it is, and of when.
func (o *receiptOptions) head(t *ask.Talk, b *entry.Base, r *entry.Receipt) error {
	k := ledger.MustKind("receipt")
	if err := b.At.AheadCell(k.Column("date"), b.At.Dated(o.in.Date)); err != nil {
		return err // before anybody is asked
	}
	for _, cell := range []struct {
		column, typed string
		into          *string
		offer         func() string
	}{
		{"shop", o.in.Shop, &r.Shop, func() string { return entry.LastShop(b.Records) }},
		{"date", b.At.Dated(o.in.Date), &r.Date, b.At.Today.String},
		{"receipt", o.in.Receipt, &r.ID, func() string { return entry.NextReceipt(b.Records, r.Shop, b.At.Day(r.Date)) }},
	} {
		if *cell.into = cell.typed; cell.typed != "" {
			continue
		}
		*cell.into = cell.offer()
		q := cellQuestion(b, k, nil, k.Column(cell.column))
		q.What, q.Offer = cell.column, *cell.into
		answer, err := t.Ask(q)
		if err != nil {
			return err
		}
		*cell.into = answer
	}
	return o.notInLines(t, b, r)
}

// notInLines reads the columns that no line says, and asks for those that a person is
// asked for and no flag gave.
func (o *receiptOptions) notInLines(t *ask.Talk, b *entry.Base, r *entry.Receipt) error {
	f := newForm(t, b, ledger.MustKind("receipt"), r.More)
	for _, column := range entry.NotInLines() {
		c := f.kind.Column(column)
		switch _, given := f.cells[column]; {
		case given:
			if err := b.CheckCell(f.kind, c, f.cells[column]); err != nil {
				return fmt.Errorf("--%s: %w", flagName(column), err)
			}
		case c.Ask > 0:
			if err := f.ask(c); err != nil {
				return err
			}
		}
	}
	r.More = f.cells
	return nil
}
