package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/advice"
)

// read reads a line. What the ledger has no name for is asked about: nothing becomes
// spending alone without a word.
func (d *lineDialogue) read(text string) (entry.Line, error) {
	l, kinds, err := d.itemNames().Strange(text)
	if err != nil || kinds == nil {
		return l, err
	}
	answer, err := askWhat(d.t, d.key+"/what", d.base.With(d.rec), l.Item, kinds)
	if err != nil {
		return l, err
	}
	had := len(d.in.Things)
	d.in.AddAnswer(answer)
	for _, row := range d.in.Things[had:] {
		rec, faults := d.rec.With(row.Kind, row.Cells)
		if len(faults) > 0 {
			return l, faults
		}
		d.rec = rec
	}
	l, _, err = d.itemNames().Strange(text)
	return l, err
}

// rest asks for what a line lacks, offering the size and price of last time; of
// a line that is no more than a name, for the count too.
func (d *lineDialogue) rest(l *entry.Line) error {
	lacks := l.Lacks()
	if l.Kind == ledger.SupplyLine && l.Size == "" {
		lacks = append([]string{"size"}, lacks...)
	}
	if l.Bare() && l.Kind != ledger.MachineLine {
		lacks = append([]string{"count"}, lacks...)
	}
	if lacks == nil {
		return nil
	}
	size, price, why := entry.LastBought(d.rec, d.r.Shop, l.Item)
	if why != "" {
		d.t.Tell("  last time %s at %s (%s)", strings.TrimSpace(size+" "+l.Item), price, strings.TrimPrefix(why, "as "))
	}
	for _, part := range []struct {
		column, what, offer string
		into                *string
	}{{"count", "  how many", "1", &l.Count}, {"size", "  size of one", size, &l.Size}, {"price", "  price of one", price, &l.Price}} {
		if !slices.Contains(lacks, part.column) {
			continue
		}
		text, err := d.t.Ask(ask.Question{Key: d.key + "/" + part.column, What: part.what, Offer: part.offer, Check: d.readPart(part.column)})
		if err != nil {
			return err
		}
		*part.into = text
	}
	return nil
}

// readPart reads a count, a size or a price, of which a price may not be blank.
func (d *lineDialogue) readPart(column string) func(string) (string, error) {
	k := ledger.MustKind("receipt")
	read := cellQuestion(d.base.With(d.rec), k, nil, k.Column(column)).Check
	return func(answer string) (string, error) {
		if column == "price" && answer == "" {
			return "", errors.New("it needs a price; 0 for a gift or from the garden")
		}
		return read(answer)
	}
}

// look shows the receipt once more.
func (d *lineDialogue) look() []string {
	sum, _ := d.r.Sum()
	list := []string{fmt.Sprintf("%s, %s, %s", d.r.ID, d.r.Date, d.r.Shop)}
	for i := range d.r.Lines {
		if l := &d.r.Lines[i]; l.Kind != ledger.TotalLine {
			list = append(list, fmt.Sprintf("  %d\t%v %s\t%s", i+1, l.Kind, d.r.Typed(l), d.r.Amount(sum.Lines[i])))
		}
	}
	return append(list, fmt.Sprintf("  \tin all\t%s\t%s", d.r.Amount(sum.Total), d.r.Currency.Code()))
}

// receiptArgs writes a receipt as a command line that needs no asking.
func receiptArgs(r *entry.Receipt) []string {
	args := []string{"receipt", "add", "--shop", r.Shop, "--date", r.Date, "--receipt", r.ID}
	for _, column := range entry.NotInLines() {
		if text := r.More[column]; text != "" {
			args = append(args, "--"+flagName(column), text)
		}
	}
	for i := range r.Lines {
		args = append(args, "--"+r.Lines[i].Kind.String(), r.Typed(&r.Lines[i]))
	}
	return args
}

// unknownItem says what to do about lines, given as flags, of things that the ledger
// does not have.
func unknownItem(err error) error {
	bad := slices.Clone(entry.WrongsOf(err))
	for i, w := range bad {
		if f := (*ledger.Fault)(nil); errors.As(w.Err, &f) && f.Kind == entry.ErrItem {
			hint := f.Hint
			if f.Do != nil {
				hint = advice.After(commands{}, "", f.Do) + " makes it known; --other takes it as spending only"
			}
			bad[i].Err = notFound("--"+f.Field+": "+f.What, hint)
		}
	}
	return bad.Err()
}
