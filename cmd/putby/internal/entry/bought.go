package entry

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/intake"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A ReceiptIn is a receipt as a person types it.
type ReceiptIn struct {
	Receipt, Date, Shop string // "": the shop's next, today; a shop there must be
	Lines               []TypedLine
	More                map[string]string // of columns that lines do not say, for each of them
	Offer               string            // on the one thing bought
	NoShelf             bool              // what was paid tells of no shelf price
	Names               []intake.Name     // what shops call things, as the ledger keeps it
	New                 []intake.Name     // what was said of things that are not known, to be kept
	Things              []Row             // foods and supplies that the receipt brings
}

// A TypedLine is a line of a receipt, of a kind that is given or "" where it says
// itself what it is; or a Line whose parts are apart already, in place of the text. More
// has the cells of its columns that are [NotInLines].
type TypedLine struct {
	Kind, Text string
	Line       *Line
	More       map[string]string
}

// AddReceipt records a receipt with all its lines. What the ledger has no name for is
// spending alone, and said to be; a regular price that was paid counts as a shelf
// price seen. An error of a line is [ErrTyped] or [ErrItem], of a total
// that does not add up a [ErrTotal], each in a [Wrong] with its part: "lines", or
// of a line whose parts are apart the column.
func AddReceipt(b *Base, in ReceiptIn) (*Draft, error) {
	d := &Draft{Rows: slices.Clone(in.Things), Names: in.New}
	// New things are among the records first: the lines name them.
	rec, faults := withRows(b.Records, in.Things)
	if len(faults) > 0 {
		return nil, faults
	}
	var bad Wrongs
	r := headOf(rec, b.At, in, &bad)
	x := NewItemNames(rec, slices.Concat(in.New, in.Names))
	unknown := d.readLines(rec, x, r, in.Lines, &bad)
	if unknown != nil {
		d.Notes = append(d.Notes, unknownNote(unknown, &rec.Settings))
	}
	if bad == nil { // with a line that cannot be read the sum tells nothing
		bad.add("", 0, r.settle(x, in.Offer))
	}
	if err := bad.Err(); err != nil {
		return nil, err
	}
	rows, err := r.Rows()
	if err != nil {
		return nil, err
	}
	// Rows has one row for each line, in order.
	for i, row := range rows {
		addNotInLines(row.Cells, in.Lines[i].More)
	}
	d.Rows = append(d.Rows, rows...)
	if !in.NoShelf {
		seen, notes := r.ShelfPrices(rec, b.At)
		d.Rows, d.Notes = append(d.Rows, seen...), append(d.Notes, slices.Compact(notes)...)
	}
	return d, nil
}

// readLines reads the lines of a receipt, with what to know of each, and returns the
// things that nothing is called by.
func (d *Draft) readLines(rec *ledger.Records, x *ItemNames, r *Receipt, lines []TypedLine, bad *Wrongs) (unknown []string) {
	for i, s := range lines {
		l, known, err := x.typedLine(s)
		if err != nil {
			// Of a line by fields all is said at once, since each field has its own place for it.
			if bad.add(s.part(&l, err), i+1, err); s.Line != nil {
				s.lacking(bad, i+1, &l)
			}
			continue
		}
		note := ""
		if s.Line == nil { // who sees a field for the size says it
			note = l.Complete(rec, r.Shop)
		}
		if !known {
			if note = x.nearNote(&l, &rec.Settings); note == "" && !slices.Contains(unknown, l.Item) {
				unknown = append(unknown, l.Item)
			}
		} else if k, known := x.Find(l.Item); known && l.Kind == ledger.OtherLine && k.Kind != ledger.OtherLine {
			note = fmt.Sprintf("%s is spending only here, though the ledger has the %v %s: %s puts it in store.", l.Item, k.Kind, k.Item, rec.Settings.Say(advice.Only(k.Kind.String())))
		}
		if note != "" && !slices.Contains(d.Notes, note) {
			d.Notes = append(d.Notes, note)
		}
		s.lacking(bad, i+1, &l)
		r.Lines = append(r.Lines, l)
	}
	return unknown
}

// withRows are records with rows behind them.
func withRows(rec *ledger.Records, rows []Row) (*ledger.Records, ledger.Faults) {
	for _, row := range rows {
		more, faults := rec.With(row.Kind, row.Cells)
		if len(faults) > 0 {
			return nil, faults
		}
		rec = more
	}
	return rec, nil
}

// headOf is a receipt without its lines.
func headOf(rec *ledger.Records, at Moment, in ReceiptIn, bad *Wrongs) *Receipt {
	if !slices.ContainsFunc(in.Lines, func(s TypedLine) bool { return s.Kind != ledger.TotalLine.String() }) {
		bad.add("lines", 0, typed("", "a receipt needs lines, such as \"2 lb strawberries 5.98\""))
	}
	if strings.TrimSpace(in.Shop) == "" {
		bad.add("shop", 0, typed("", "a receipt needs "+rec.Settings.Say(advice.Only("shop"))))
	}
	k := ledger.MustKind("receipt")
	r := &Receipt{Currency: rec.Settings.Currency, Locale: rec.Settings.Locale, Shop: at.Typed(rec, k.Column("shop"), in.Shop)}
	r.Date = cmp.Or(at.Dated(in.Date), at.Today.String())
	if _, err := exact.ParseDate(r.Date); err != nil {
		bad.add("date", 0, typed("", rec.Settings.Say(advice.Only("date"))+" "+quote(in.Date)+" is not a day that can be read: "+at.howToDate()))
	}
	bad.add("date", 0, at.AheadCell(k.Column("date"), r.Date))
	r.ID = cmp.Or(in.Receipt, NextReceipt(rec, r.Shop, at.Day(r.Date)))
	r.More = at.typedCells(rec, k, in.More)
	for _, column := range NotInLines() {
		bad.add(column, 0, (&Base{Records: rec, At: at}).CheckCell(k, k.Column(column), r.More[column]))
	}
	return r
}

// typedLine reads a line.
func (x *ItemNames) typedLine(s TypedLine) (l Line, known bool, err error) {
	if s.Line != nil {
		if l, known = *s.Line, true; l.Check(x.minor) != "" {
			err = typed(l.String(), l.Check(x.minor))
		}
	} else if s.Kind == "" {
		l, known, err = x.Read(s.Text)
	} else if kind, ok := ParseKind(s.Kind); ok {
		l, err = x.ParseLine(kind, s.Text)
		known = true
	} else {
		err = typed(s.Kind, "it is not a kind of line")
	}
	if err == nil && l.Limit != "" {
		err = typed(s.Text, "a limit is what a shop sells at most: leave it out of a receipt")
	}
	if err == nil {
		err = l.know(x)
	}
	return l, known, err
}

// nearNote says that a line is spending alone where its name is nearly one that the
// ledger has; "" where it is not.
func (x *ItemNames) nearNote(l *Line, s *ledger.Settings) string {
	near := x.Near(l.Item)
	if near == "" {
		return ""
	}
	return fmt.Sprintf("%s is taken as spending only, since no food or supply is called so; if you mean %s, %s takes it back.", l.Item, near, s.Say(advice.Do(advice.Undo)))
}

// unknownNote says of all that the ledger has no name for that it is spending alone.
func unknownNote(items []string, s *ledger.Settings) string {
	are, that := "is", "that name. If it is one"
	if len(items) > 1 {
		are, that = "are", "those names. If one of them is"
	}
	return fmt.Sprintf("%s %s taken as spending only: the ledger knows no food or supply of %s, add it (%s, %s), which says how its line counts as it.", report.Listed(items), are, that, s.Say(advice.Do(advice.AddFood)), s.Say(advice.Do(advice.AddSupply)))
}

// lacking says what a line lacks: of one in words the first of it, with how to write it.
func (s *TypedLine) lacking(bad *Wrongs, n int, l *Line) {
	how := map[string]string{
		"size":  "it has no size, and it was never bought before: write it before the name, as in 2 lb strawberries 5.98",
		"price": "it has no price: write it behind the name, as in 2 lb strawberries 5.98",
	}
	lacks := l.Lacks()
	if s.Line == nil && lacks != nil {
		bad.add("lines", n, typed(l.String(), how[lacks[0]]))
		return
	}
	how = map[string]string{"item": "say what it is", "size": "say how much a package holds, such as 500 g", "price": "say what one costs"}
	for _, part := range lacks {
		bad.add(part, n, typed("", how[part]))
	}
}

// part is the part of a receipt in which a line cannot be read.
func (s *TypedLine) part(l *Line, err error) string {
	switch {
	case s.Line == nil:
		return "lines"
	case errors.Is(err, ErrItem):
		return "item"
	case l.Offer != "":
		return "offer"
	}
	return "price"
}

// settle puts an offer that stands alone on its line, finds the lines that amounts
// are for, and adds the receipt up.
func (r *Receipt) settle(x *ItemNames, offer string) error {
	if offer != "" {
		if err := r.Offer(offer); err != nil {
			return wrong("offer", 0, typed(offer, err.Error()))
		}
	}
	for i := range r.Lines {
		if err := r.settleOn(x, &r.Lines[i]); err != nil {
			return wrong("lines", i+1, err)
		}
	}
	if err := r.Adds(); errors.Is(err, ErrTotal) {
		return wrong("total", 0, err)
	} else if err != nil {
		return typed("", err.Error())
	}
	return nil
}

// settleOn writes the numbers of the lines that an amount is for where their thing
// was named.
func (r *Receipt) settleOn(x *ItemNames, l *Line) error {
	if l.On == "" || strings.Trim(l.On, "0123456789,") == "" {
		return nil
	}
	item := l.On
	if k, ok := x.Find(l.On); ok && k.Item != "" {
		item = k.Item
	}
	var on []string
	for i := range r.Lines {
		if b := &r.Lines[i]; b.Kind.Bought() && ledger.Fold(b.Item) == ledger.Fold(item) {
			on = append(on, strconv.Itoa(i+1))
		}
	}
	if on == nil {
		return typed(l.String(), fmt.Sprintf("no line is of %s: write the number of the line it is for, as in 1.00 on 1", l.On))
	}
	l.On = strings.Join(on, ",")
	return nil
}

// NewThings are what a thing that nothing is called by may be; its last word is spending
// alone.
var NewThings = []string{"food", "supply", "service", "other"}

// Strange reads a line, and says of a thing that nothing is called by what it may be, as
// [Answer] has it; nil where it is known. Where the line says so itself, it may be that
// alone.
func (x *ItemNames) Strange(text string) (l Line, kinds []string, err error) {
	l, known, err := x.Read(text)
	if err != nil {
		return l, nil, err
	}
	if !known {
		return l, NewThings, nil
	}
	if err = l.know(x); err == nil {
		return l, nil, nil
	}
	if k, ok := x.Find(l.Item); ok {
		return l, nil, typed("", fmt.Sprintf("%s is a %v, not a %v", k.Item, k.Kind, l.Kind))
	}
	return l, []string{l.Kind.String()}, nil
}

// UnknownItems names the things of a receipt in words that nothing is called by, each
// once, so that they can be asked about.
func UnknownItems(b *Base, in ReceiptIn) []string {
	x := NewItemNames(b.Records, slices.Concat(in.New, in.Names))
	var names []string
	for _, s := range in.Lines {
		if s.Kind != "" {
			continue
		}
		if l, kinds, err := x.Strange(s.Text); err == nil && len(kinds) > 1 && !slices.Contains(names, l.Item) {
			names = append(names, l.Item)
		}
	}
	return names
}
