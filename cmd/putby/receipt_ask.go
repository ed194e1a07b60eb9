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
	"putby/ledger/intake"
	"putby/pricing"
)

// howToWriteLines opens the dialogue about lines.
const howToWriteLines = `A line: "2 lb carrots 5.98", "2 x 5 kg carrots 5.99" of each, or no more than
"carrots" to be asked for the rest; "other bus fare 2.40"; "coupon 1.00 on 1".
After "back", - takes a line out. An empty line ends.`

// A lineDialogue asks for the lines of a receipt.
type lineDialogue struct {
	t    *ask.Talk
	base *entry.Base
	in   entry.ReceiptIn // with the answers so far
	rec  *ledger.Records // with the new ones
	r    *entry.Receipt
	key  string // of the line that is asked for
}

// itemNames are what things are called, those too that an answer made known.
func (d *lineDialogue) itemNames() *entry.ItemNames {
	return entry.NewItemNames(d.rec, slices.Concat(d.in.New, d.in.Names))
}

// ask asks for the lines.
func (o *receiptOptions) ask(t *ask.Talk, b *entry.Base, r *entry.Receipt, names []intake.Name) (*draft, error) {
	d := &lineDialogue{t: t, base: b, rec: b.Records, r: r, in: entry.ReceiptIn{Names: names}}
	t.Tell("%s", howToWriteLines)
	err := d.lines()
	if err == nil && o.in.Offer != "" {
		err = r.Offer(o.in.Offer)
	}
	if err == nil {
		err = d.total()
	}
	had := &draft{args: receiptArgs(r)}
	if err != nil {
		return had, err
	}
	rows, err := r.Rows()
	if err != nil {
		return had, err
	}
	had.Rows, had.Names, had.look = append(d.in.Things, rows...), d.in.New, d.look()
	if !o.in.NoShelf {
		seen, notes := r.ShelfPrices(d.rec, b.At)
		had.Rows, had.Notes = append(had.Rows, seen...), notes
	}
	return had, nil
}

// lines asks for lines until an empty one.
func (d *lineDialogue) lines() error {
	for n := 1; ; n++ {
		d.key = fmt.Sprintf("line %d", n)
		names, _ := entry.Names(d.rec, ledger.MustKind("receipt").Column("item"))
		text, err := d.t.Ask(ask.Question{
			Key: d.key, What: fmt.Sprintf("line %d", len(d.r.Lines)+1), Dash: true, Names: names,
			Help: howToWriteLines, Check: d.check,
		})
		switch {
		case err != nil || text == "":
			return err
		case text == "-":
			continue
		}
		l, err := d.line(text)
		if err != nil && !ask.Ends(err) {
			err = d.t.Wrong(err, d.key)
		}
		if err != nil {
			return err
		}
		d.t.Settle(d.key, d.r.Typed(&l))
	}
}

// check reads a line as far as that needs no more questions.
func (d *lineDialogue) check(text string) (string, error) {
	switch text {
	case "":
		if len(d.r.Lines) == 0 {
			return "", errors.New("there is no line yet; Ctrl-C ends it")
		}
		return "", nil
	case "-":
		return text, nil
	}
	_, _, err := d.itemNames().Read(text)
	return text, err
}

// total asks for the printed total, where no line gave it, and holds the lines
// against it. Where they do not come to it, it goes on to ask for lines.
func (d *lineDialogue) total() error {
	sum, err := d.r.Sum()
	if err != nil {
		return err
	}
	if _, given := sum.Printed.Get(); !given {
		text, err := d.t.Ask(ask.Question{
			Key: "total", What: "printed total", Offer: d.r.Amount(sum.Total),
			Help: "What the receipt says in all. - where it says nothing.", Check: readTotal,
		})
		if err != nil || text == "" {
			return err
		}
		l, err := entry.ParseLine(ledger.TotalLine, text)
		if err != nil {
			return err
		}
		d.r.Lines = append(d.r.Lines, l)
		if sum, err = d.r.Sum(); err != nil {
			return err
		}
	}
	err = d.r.Adds()
	if errors.Is(err, entry.ErrTotal) {
		d.r.DropTotal()
		err = d.t.Wrong(fmt.Errorf("%w: add what is missing, or go back to a line; %s", err, strings.ReplaceAll(hintOf(err), "\n", "; or ")), d.key, "total")
	}
	return err
}

func readTotal(answer string) (string, error) {
	if answer == "" {
		return "", nil
	}
	_, err := entry.ParseLine(ledger.TotalLine, answer)
	return answer, err
}

// line reads a line, asks for what it lacks, and adds it.
func (d *lineDialogue) line(text string) (entry.Line, error) {
	l, err := d.read(text)
	if err == nil {
		err = d.rest(&l)
	}
	if err != nil {
		return l, err
	}
	d.r.Lines = append(d.r.Lines, l)
	sum, err := d.r.Sum()
	if err != nil && !errors.Is(err, pricing.ErrNoLines) { // which may be still to come
		d.r.Lines = d.r.Lines[:len(d.r.Lines)-1]
		return l, err
	}
	d.t.Tell("  %s: %s   so far %s", d.r.Typed(&l), d.r.Amount(sum.Lines[len(d.r.Lines)-1]), d.r.Amount(sum.Total))
	return l, nil
}

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
