package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// read reads a line. What the ledger has no name for is asked about: nothing becomes
// spending alone without a word.
func (d *lineDialogue) read(text string) (entry.Line, error) {
	x := d.lexicon()
	l, known, err := x.Read(text)
	if err != nil {
		return l, err
	}
	if known {
		return l, d.mend(&l)
	}
	if l, err = x.ParseLine(ledger.FoodLine, text); err != nil { // without a number in front
		return d.newThing(text)
	}
	name, err := d.meant(l.Item)
	if err != nil {
		return l, err
	}
	if kind, id, known := entry.FindItem(d.rec, name); known {
		l.Kind, l.Item = kind, id
		return l, nil
	}
	return d.newThing(text)
}

// newThing asks what kind of thing a line is of that the ledger does not have.
func (d *lineDialogue) newThing(text string) (entry.Line, error) {
	l, err := d.lexicon().ParseLine(ledger.OtherLine, text) // the name in all its words
	if err != nil {
		return l, err
	}
	word, err := d.choose("sort", l.Item+" is new: is it a food, a supply, a service or other (spending only)", "other", "food", "supply", "service", "other")
	if err != nil {
		return l, err
	}
	kind, _ := entry.ParseKind(word)
	if kind == ledger.OtherLine {
		d.learned = append(d.learned, entry.Answer{Name: l.Item})
	}
	return d.lexicon().ParseLine(kind, text)
}

// meant asks whether a name that the ledger has was meant.
func (d *lineDialogue) meant(item string) (string, error) {
	names, _ := entry.Names(d.rec, ledger.MustKind("receipt").Column("item"))
	near := ledger.Nearest(item, names)
	if near == "" {
		return item, nil
	}
	answer, err := d.choose("meant", fmt.Sprintf("the ledger has no %s; is it %s", item, near), "yes", "yes", "no")
	if answer == "yes" {
		item = near
	}
	return item, err
}

// mend asks, of a line that began with its kind, whether a name that the ledger
// has was meant.
func (d *lineDialogue) mend(l *entry.Line) (err error) {
	if !l.Named() {
		return nil
	}
	_, id, known := entry.FindItem(d.rec, l.Item)
	if l.Item = id; !known {
		l.Item, err = d.meant(l.Item)
	}
	return err
}

// brought are the new things that lines are of; a line that was taken back
// takes its own with it.
func (d *lineDialogue) brought() []entry.Row {
	return slices.DeleteFunc(d.new, func(r entry.Row) bool {
		return !slices.ContainsFunc(d.r.Lines, func(l entry.Line) bool { return l.Item == r.Cells[r.Kind.Name] })
	})
}

// known makes an item known that the ledger does not have, in the same change.
func (d *lineDialogue) known(l *entry.Line) error {
	column := map[ledger.ReceiptKind]string{ledger.FoodLine: "basis", ledger.SupplyLine: "kind", ledger.MachineLine: ""}
	need, named := column[l.Kind]
	kind, _, ok := entry.FindItem(d.rec, l.Item)
	switch {
	case !named || ok && kind == l.Kind:
		return nil
	case ok:
		return fmt.Errorf("%s is a %v, not a %v", l.Item, kind, l.Kind)
	case need == "":
		return fmt.Errorf("the ledger has no machine %s: putby machine add makes it known", l.Item)
	}
	k := ledger.MustKind(l.Kind.String())
	cells := map[string]string{}
	if ledger.CheckID(l.Item) != nil {
		id, err := d.identify(k, l.Item)
		if err != nil {
			return err
		}
		cells["name"], l.Item = l.Item, id
	}
	text, err := d.cell(k, k.Column(need), fmt.Sprintf("%s is new; add it: %s", l.Item, k.Column(need).Prompt()), "")
	if err != nil {
		return err
	}
	cells[k.Name], cells[need] = l.Item, text
	rec, faults := d.rec.With(k, cells)
	if len(faults) > 0 {
		return faults
	}
	d.rec, d.new = rec, append(d.new, entry.Row{Kind: k, Cells: cells})
	return nil
}

// identify asks by which identifier the ledger is to know a thing that is called
// by words.
func (d *lineDialogue) identify(k ledger.Kind, name string) (string, error) {
	return d.cell(k, k.Column(k.Name), "  its identifier", entry.Slug(name))
}

// cell asks for a cell of something that is made known.
func (d *lineDialogue) cell(k ledger.Kind, c *ledger.Column, what, offer string) (string, error) {
	q := cellQuestion(d.base.With(d.rec), k, nil, c)
	q.What, q.Offer = what, offer
	return d.ask(c.Name, q)
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
		text, err := d.ask(part.column, ask.Question{What: part.what, Offer: part.offer, Check: d.readPart(part.column)})
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
			list = append(list, fmt.Sprintf("  %d\t%v %s\t%s", i+1, l.Kind, d.r.Typed(l), d.money(sum.Lines[i])))
		}
	}
	return append(list, fmt.Sprintf("  \tin all\t%s\t%s", d.money(sum.Total), d.r.Currency.Code()))
}

// receiptArgs writes a receipt as a command line that needs no asking.
func receiptArgs(r *entry.Receipt) []string {
	args := []string{"receipt", "add", "--shop", r.Shop, "--date", r.Date, "--receipt", r.ID}
	for _, column := range entry.Unspoken() {
		if text := r.More[column]; text != "" {
			args = append(args, "--"+flagName(column), text)
		}
	}
	for i := range r.Lines {
		args = append(args, "--"+r.Lines[i].Kind.String(), r.Typed(&r.Lines[i]))
	}
	return args
}

// unknownItem says what to do about a line, given as a flag, of a thing that the
// ledger does not have.
func unknownItem(err error) error {
	var unknown *entry.ItemError
	if !errors.As(err, &unknown) {
		return err
	}
	kind, hint := unknown.Kind.String(), unknown.Near
	if hint == "" {
		hint = fmt.Sprintf("putby %s add --%s %s makes it known; --other takes it as spending only", kind, kind, cmp.Or(entry.Slug(unknown.Item), "NAME"))
	}
	return notFound("--"+kind+": "+err.Error(), hint)
}
