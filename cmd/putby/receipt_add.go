package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

const receiptAddLong = `Add a receipt with all its lines in one go. Each line is a flag, in the order of
the receipt:

  --food, --supply, --machine, --service, --other
      "[COUNT x] [SIZE] ITEM at PRICE[/UNIT] [less AMOUNT] [offer OFFER] [tax AMOUNT] [note TEXT]"
  --discount, --tax, --charge
      "AMOUNT", for the whole receipt, or "AMOUNT on 1,2" for those lines
  --deposit
      "[COUNT x] AMOUNT"
  --total
      "AMOUNT"; the total is what is printed, and must add up

Supplies that the shop takes back have a count below 0, "-3 x jar-1l at 1.55",
and so has a deposit that is paid back, "-8 x 0.10". Food that goes back is taken
off the receipt on which it was bought (putby receipt amend).

The price is that of one package; 1.234 kg pears at 2.49/kg is one by weight.
OFFER is what the shelf says: "3 for 5.00", "3 for 2", "25% off", "every 2nd
half price". It becomes the line's discount.

A receipt with the shop, date and lines of one that is there is asked about on a
terminal, and refused otherwise unless --again.

Without lines, on a terminal, you are asked for them one by one, with the size
and price of last time, a running total and a last look before it is saved.`

// receiptOptions are a receipt as it is typed.
type receiptOptions struct {
	saving
	receipt, date, shop, offer string
	lines                      []typedLine
}

// A typedLine is a flag that makes a line.
type typedLine struct {
	kind ledger.ReceiptKind
	text string
}

// lineFlag appends to the lines, so that the order of different flags is kept.
type lineFlag struct {
	kind  ledger.ReceiptKind
	lines *[]typedLine
}

func (f lineFlag) String() string { return "" }
func (f lineFlag) Type() string   { return "line" }
func (f lineFlag) Set(text string) error {
	*f.lines = append(*f.lines, typedLine{f.kind, text})
	return nil
}

func newReceiptAddCommand(a *app) *cobra.Command {
	o := &receiptOptions{}
	cmd := &cobra.Command{
		Use: "add", Short: "add a receipt with all its lines", Long: receiptAddLong,
		Example: `  putby receipt add --shop "Marrowby Foods" \
    --food "2 x 5 kg carrots at 5.99 offer 2 for 10.00" \
    --food "1.234 kg apples at 3.28/kg" --other "bus fare at 2.40" \
    --discount "1.00 on 1" --total 15.45`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.add(cmd.Context(), o.saving, o.draft)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.shop, "shop", "", "`who` sold it")
	f.StringVar(&o.date, "date", "", "`day` of purchase (today)")
	f.StringVar(&o.receipt, "receipt", "", "`identifier` (as the shop's last, with the day or the next number)")
	for _, kind := range ledger.ReceiptKinds() {
		f.Var(lineFlag{kind, &o.lines}, kind.String(), lineHelp[kind])
	}
	f.StringVar(&o.offer, "offer", "", "`offer` on the one thing bought, such as \"3 for 5.00\"")
	for _, name := range []string{"shop", "date", "receipt"} {
		a.completeColumn(cmd, ledger.MustKind("receipt").Column(name))
	}
	a.addMeant(cmd, ledger.MustKind("receipt"))
	o.saving.add(cmd)
	return cmd
}

var lineHelp = map[ledger.ReceiptKind]string{
	ledger.FoodLine: "a food bought", ledger.SupplyLine: "jars, bags, absorbers ... bought", ledger.MachineLine: "a machine bought",
	ledger.ServiceLine: "work paid for, such as a repair of a machine", ledger.OtherLine: "anything else bought",
	ledger.DiscountLine: "an amount off", ledger.TaxLine: "a tax on top", ledger.ChargeLine: "a charge on top, such as delivery",
	ledger.DepositLine: "a deposit paid, such as 8 x 0.10; -8 x 0.10 when bottles go back", ledger.TotalLine: "the printed total",
}

// draft makes the receipt, asking for its lines where none were given.
func (o *receiptOptions) draft(t *ask.Talk, b *entry.Base) (*draft, error) {
	if len(o.lines) > 0 {
		t = nil
	} else if t == nil {
		return nil, usageError{errors.New("a receipt needs lines, such as --food or --other")}
	}
	r := &entry.Receipt{Currency: b.Records.Settings.Currency}
	if err := o.head(t, b, r); err != nil {
		return &draft{args: receiptArgs(r)}, err
	}
	if t != nil {
		return o.ask(t, b, r)
	}
	return o.read(b.Records, r)
}

// head fills in whose receipt it is, and of when.
func (o *receiptOptions) head(t *ask.Talk, b *entry.Base, r *entry.Receipt) error {
	k := ledger.MustKind("receipt")
	if o.shop == "" && t == nil {
		return usageError{&blankError{k, []string{"shop"}}}
	}
	if err := b.At.AheadCell(k.Column("date"), b.At.Dated(o.date)); err != nil {
		return err // before anybody is asked
	}
	for _, cell := range []struct {
		column string
		typed  string
		into   *string
		offer  func() string
	}{
		{"shop", o.shop, &r.Shop, func() string { return entry.LastShop(b.Records) }},
		{"date", b.At.Dated(o.date), &r.Date, b.At.Today.String},
		{"receipt", o.receipt, &r.ID, func() string { return entry.NextReceipt(b.Records, r.Shop, b.At.Day(r.Date)) }},
	} {
		*cell.into = cell.typed
		if cell.typed != "" {
			continue
		}
		*cell.into = cell.offer()
		if t == nil {
			continue
		}
		q := cellQuestion(b, k, nil, k.Column(cell.column))
		q.What, q.Offer = cell.column, *cell.into
		answer, err := t.Ask(q)
		if err != nil {
			return err
		}
		*cell.into = answer
	}
	return nil
}

// read reads the lines that were given as flags.
func (o *receiptOptions) read(rec *ledger.Records, r *entry.Receipt) (*draft, error) {
	var notes []string
	for _, typed := range o.lines {
		l, err := entry.ParseLine(typed.kind, typed.text)
		if err != nil {
			return nil, usageError{err}
		}
		if err := l.Know(rec); err != nil {
			return nil, unknownItem(err)
		}
		if lacks := l.Lacks(); lacks != nil {
			return nil, usageError{lacksError(l.String(), lacks)}
		}
		if kind, id, known := entry.FindItem(rec, l.Item); known && l.Kind == ledger.OtherLine {
			notes = append(notes, fmt.Sprintf("%s is spending only here, though the ledger has the %v %s: --%v puts it in store.", l.Item, kind, id, kind))
		}
		r.Lines = append(r.Lines, l)
	}
	if o.offer != "" {
		if err := r.Offer(o.offer); err != nil {
			return nil, usageError{err}
		}
	}
	if _, err := r.Sum(); err != nil {
		return nil, usageError{err}
	}
	rows, err := r.Rows()
	if err != nil {
		return nil, usageError{err}
	}
	return &draft{Draft: entry.Draft{Rows: rows, Notes: notes}}, nil
}
