package main

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

const receiptAddLong = `Add a receipt with all its lines in one go. Each line is a flag, in the order of
the receipt:

  --food, --supply, --machine, --service, --other
      "[COUNT x] [SIZE] ITEM at PRICE [less AMOUNT] [offer OFFER] [tax AMOUNT]"
  --discount, --tax, --charge
      "AMOUNT", for the whole receipt, or "AMOUNT on 1,2" for those lines
  --deposit, --total
      "AMOUNT"; the total is what is printed, and must add up

OFFER is what the shelf says, such as "3 for 5.00" or "25% off": it becomes the
line's discount. Without lines, on a terminal, you are asked for them one by one
with a running total, and have a last look before it is saved.`

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
		Example: `  putby receipt add --shop "Corner shop" \
    --food "2 x 2 kg carrots at 2.80 offer 2 for 5.00" \
    --other "bus fare at 2.40" --discount "1.00 on 1" --total 6.40`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error { return runReceiptAdd(cmd, a, o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.receipt, "receipt", "", "`identifier` (the next one)")
	f.StringVar(&o.date, "date", "", "`day` of purchase (today)")
	f.StringVar(&o.shop, "shop", "", "who sold it")
	f.StringVar(&o.offer, "offer", "", "of the one line that there is, such as \"3 for 5.00\"")
	for _, kind := range ledger.ReceiptKinds() {
		f.Var(lineFlag{kind, &o.lines}, kind.String(), "a "+kind.String()+" `line`")
	}
	o.saving.add(cmd)
	return cmd
}

func runReceiptAdd(cmd *cobra.Command, a *app, o *receiptOptions) error {
	return a.withBook(cmd.Context(), func(b *folder.Book) error {
		rec, _ := b.Records()
		k, _ := ledger.KindOf("receipt")
		suggested := entry.Suggest(k, rec, nil, a.today(rec))
		asked := len(o.lines) == 0
		if asked && !a.ask {
			return usageError{fmt.Errorf("a receipt needs lines: --food, --supply, --other and so on")}
		}
		for _, head := range []struct {
			column string
			into   *string
		}{{"receipt", &o.receipt}, {"date", &o.date}, {"shop", &o.shop}} {
			if *head.into != "" {
				continue
			}
			*head.into = suggested[head.column]
			if asked {
				answer, err := a.question(head.column, suggested[head.column])
				if err != nil {
					return err
				}
				*head.into = answer
			} else if head.column == "shop" {
				return usageError{&blankError{k, []string{"shop"}}}
			}
		}
		rows, err := a.receiptRows(o, rec, asked)
		if err != nil {
			return err
		}
		if asked {
			if err := a.confirm("save it"); err != nil {
				return err
			}
		}
		return a.saveRows(b, o.saving, rows)
	})
}

// receiptRows turns the typed lines, or those that are asked for, into rows.
func (a *app) receiptRows(o *receiptOptions, rec *ledger.Records, asked bool) ([]entry.Row, error) {
	r := entry.NewReceipt(o.receipt, o.date, o.shop, rec.Settings.Currency)
	for _, line := range o.lines {
		if err := r.Add(line.kind, line.text); err != nil {
			return nil, usageError{err}
		}
	}
	if o.offer != "" {
		if err := r.Offer(o.offer); err != nil {
			return nil, usageError{err}
		}
	}
	if asked {
		if err := a.askLines(r); err != nil {
			return nil, err
		}
	}
	if total, err := r.Total(); err == nil {
		fmt.Fprintf(a.stderr, "%s lines, %s %s in all\n", strconv.Itoa(r.Lines()), total.Fixed(rec.Settings.Currency.Minor()), rec.Settings.Currency.Code())
	}
	return r.Rows(), nil
}

// askLines asks for line after line until an empty one, with a running total.
func (a *app) askLines(r *entry.Receipt) error {
	fmt.Fprintln(a.stderr, `Lines such as "food 2 x 500 g carrots at 1.99 offer 2 for 3.00", "other bus fare at 2.40", "discount 1.00", "total 12.34"; an empty one ends.`)
	for {
		sum := exact.Money{}
		if total, err := r.Total(); err == nil {
			sum = total
		}
		answer, err := a.question(fmt.Sprintf("line %d (so far %v)", r.Lines()+1, sum), "")
		if err != nil {
			return err
		}
		if answer == "" {
			return nil
		}
		if err := r.AddWords(answer); err != nil {
			fmt.Fprintln(a.stderr, "  "+printable(err.Error()))
		}
	}
}
