package main

import (
	"errors"
	"fmt"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// howToWriteLines opens the dialogue about lines.
const howToWriteLines = `A line: "2 x 5 kg carrots at 5.99", or no more than "carrots" to be asked for
the rest; "other bus fare at 2.40"; "discount 1.00 on 1". "back" takes the last
one back; an empty line ends.`

// A lineDialogue asks for the lines of a receipt.
type lineDialogue struct {
	a   *app
	rec *ledger.Records // with what was made known on the way
	r   *entry.Receipt
	new []entry.Row // foods and supplies that the receipt brings
}

// ask asks for the lines.
func (o *receiptOptions) ask(a *app, rec *ledger.Records, r *entry.Receipt) (*draft, error) {
	d := &lineDialogue{a: a, rec: rec, r: r}
	a.tell("%s", howToWriteLines)
	if err := d.lines(o.offer); err != nil {
		return nil, err
	}
	rows, err := r.Rows()
	if err != nil {
		return nil, err
	}
	return &draft{rows: append(d.brought(), rows...), asked: true, args: receiptArgs(r), look: d.look()}, nil
}

// lines asks for lines until they make a receipt that adds up.
func (d *lineDialogue) lines(offer string) error {
	for {
		text, err := d.a.question(fmt.Sprintf("line %d", len(d.r.Lines)+1), "", nil)
		switch {
		case err != nil:
			return err
		case text != "":
			err = d.line(text)
		default:
			err = d.end(offer)
			if err == nil {
				return nil
			}
		}
		if errors.Is(err, errNotAnswered) {
			return err
		}
		if err != nil {
			d.a.tell("  %v", err)
		}
	}
}

// end closes the receipt, if it adds up.
func (d *lineDialogue) end(offer string) error {
	if len(d.r.Lines) == 0 {
		return errors.New("there is no line yet; Ctrl-C breaks off")
	}
	if offer != "" {
		if err := d.r.Offer(offer); err != nil {
			return err
		}
	}
	sum, err := d.r.Sum()
	if err != nil {
		return err
	}
	printed, given := sum.Printed.Get()
	if !given {
		text, err := d.a.question("printed total", sum.Total.Fixed(d.r.Currency.Minor()), readNumber)
		if err != nil || text == "" {
			return err
		}
		l, err := entry.ParseLine(ledger.TotalLine, text)
		if err != nil {
			return err
		}
		d.r.Lines = append(d.r.Lines, l)
		sum, _ = d.r.Sum()
		printed, _ = sum.Printed.Get()
	}
	if printed.Equal(sum.Total) {
		return nil
	}
	d.r.DropTotal()
	err = fmt.Errorf("the lines come to %s and the receipt says %s: add what is missing, or take lines back", d.money(sum.Total), d.money(printed))
	if hint := ledger.RoundingHint(sum.Total, printed, d.bought(), d.r.Currency.Minor()); hint != "" {
		err = fmt.Errorf("%w; %s", err, hint)
	}
	return err
}

// bought is how many lines there are of things bought.
func (d *lineDialogue) bought() (n int) {
	for i := range d.r.Lines {
		if d.r.Lines[i].Kind.Bought() {
			n++
		}
	}
	return n
}

func readNumber(answer string) (string, error) {
	if answer == "" {
		return "", nil
	}
	_, err := exact.ParseNumber(answer)
	return answer, err
}

func (d *lineDialogue) money(m exact.Money) string { return m.Fixed(d.r.Currency.Minor()) }

// line reads a line, asks for what it lacks, and adds it; or takes one back.
func (d *lineDialogue) line(text string) error {
	if text == "back" {
		return d.back()
	}
	l, err := d.read(text)
	if err != nil {
		return err
	}
	if err := d.known(&l); err != nil {
		return err
	}
	if err := d.rest(&l); err != nil {
		return err
	}
	d.r.Lines = append(d.r.Lines, l)
	sum, err := d.r.Sum()
	if err != nil && !errors.Is(err, pricing.ErrNoLines) { // which may be still to come
		d.r.Lines = d.r.Lines[:len(d.r.Lines)-1]
		return err
	}
	last := len(d.r.Lines) - 1
	d.a.tell("  %s: %s   so far %s", l.String(), d.money(sum.Lines[last]), d.money(sum.Total))
	return nil
}

// back takes the last line back.
func (d *lineDialogue) back() error {
	n := len(d.r.Lines)
	if n == 0 {
		return errors.New("there is no line to take back")
	}
	d.a.tell("  taken back: %s", d.r.Lines[n-1].String())
	d.r.Lines = d.r.Lines[:n-1]
	return nil
}
