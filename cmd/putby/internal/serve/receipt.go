package serve

import (
	"fmt"
	"slices"
	"strconv"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

var receiptForm = recording{
	makes: "receipt",
	path:  "receipt", link: "Receipt", title: "Record a receipt",
	intro:  "As on the receipt, one line each. Give the printed total, and it must add up.",
	groups: receiptGroups, draft: receiptDraft, about: receiptAbout, buttons: []page.Button{{Do: "more", Label: "More lines"}},
	parts:  map[string]string{"lines": "said", "rows": "said"},
	beside: []page.Link{{To: "/" + importForm.path, Name: importForm.title}},
}

// Lines of the form: to begin with, more at a time, and at most.
const (
	linesFirst = 4
	linesMost  = 80
)

// lineCount is how many lines the form has.
func (f *filling) lineCount() int {
	n, err := strconv.Atoi(f.text("lines", ""))
	if err != nil || n < linesFirst {
		n = linesFirst
	}
	if f.in.Get("do") == "more" {
		n += linesFirst
	}
	return min(n, linesMost)
}

func receiptGroups(f *filling) []page.Group {
	s := map[string]string{"date": f.At.Today.String(), "shop": entry.LastShop(f.Records)}
	head := page.Group{Title: "Receipt", Fields: f.only(ledger.MustKind("receipt"), s, "shop", "date")}
	head.Fields[0].Need = true
	head.Fields = append(head.Fields,
		f.linesField("said", "the lines, as on the receipt", "one line each: 2 lb strawberries 5.98; 3 x 454 g strawberries 3.99 (of each); oat milk 2 for 5.00; coupon 2.00. What the ledger has no name for counts as spending only"),
		f.numberField("total", "printed total", "what the receipt says it comes to: then the lines must add up", ""))
	name := f.column("receipt", "receipt", "")
	name.Help = "a name for it; empty: the next"
	n := f.lineCount()
	rest := append([]page.Field{name}, f.only(ledger.MustKind("receipt"), nil, entry.NotInLines()...)...)
	groups := []page.Group{head, folded("Its name, and its prices", append(rest, f.switchField("no-shelf", "the prices paid in these lines are not what the shelf asks"))...)}
	for i := 1; i <= n; i++ {
		group := page.Group{Title: "Line " + strconv.Itoa(i) + " by fields", Compact: i > 1, Fields: f.lineFields(i)}
		group.Folded = i <= linesFirst && !f.filled(i)
		groups = append(groups, group)
	}
	last := &groups[len(groups)-1]
	last.Fields = append(last.Fields, page.Field{Kind: "hidden", Name: "lines", Value: strconv.Itoa(n)})
	return groups
}

// lineName is the name of a field of the i-th line.
func lineName(i int, column string) string { return column + "-" + strconv.Itoa(i) }

// offLines are columns of receipts that the fields of a line do without.
var offLines = append([]string{"line", "tax", "on", "note"}, entry.ReceiptHead...)

func (f *filling) lineFields(i int) (list []page.Field) {
	k := ledger.MustKind("receipt")
	for j := range k.Columns {
		c := &k.Columns[j]
		if slices.Contains(offLines, c.Name) {
			continue
		}
		field := f.field(k, c, lineName(i, c.Name), "")
		field.Need = false
		if c.Name == "kind" { // the total has a field of its own
			field.Options = slices.DeleteFunc(field.Options, func(o page.Option) bool { return o.Value == ledger.TotalLine.String() })
		}
		list = append(list, field)
	}
	return append(list, f.textField(lineName(i, "offer"), "offer", "such as 3 for 5.00", ""))
}

func receiptDraft(f *filling) (*entry.Draft, error) {
	in, err := f.receiptIn()
	if err != nil {
		return nil, err
	}
	d, err := entry.AddReceipt(f.Base, in)
	bad := entry.WrongsOf(err)
	for i, w := range bad {
		if w.Number > 0 && w.Part != "lines" {
			bad[i].Part = f.place("receipt", w.Number-1, w.Part)
		}
	}
	return d, bad.Err()
}

// receiptIn is the receipt, its lines in words or else by fields.
func (f *filling) receiptIn() (in entry.ReceiptIn, err error) {
	in = entry.ReceiptIn{Receipt: f.text("receipt", ""), Date: f.text("date", ""), Shop: f.text("shop", ""), NoShelf: f.text("no-shelf", "") != "", More: map[string]string{}}
	for _, column := range entry.NotInLines() {
		in.More[column] = f.text(column, "")
	}
	if in.Names, err = entry.KeptNames(f.files.Dir()); err != nil {
		return in, err
	}
	for _, text := range f.lines("said") {
		in.Lines = append(in.Lines, entry.TypedLine{Text: text})
	}
	if in.Lines == nil {
		in.Lines = f.linesByFields()
	} else {
		err = f.noFields()
	}
	if total := f.text("total", ""); total != "" {
		in.Lines = append(in.Lines, entry.TypedLine{Kind: ledger.TotalLine.String(), Text: total})
	}
	return in, err
}

// receiptAbout is what a receipt in words is about.
func receiptAbout(f *filling) (c folder.Scope, ok bool) {
	in, err := f.receiptIn()
	if err != nil || f.lines("said") == nil {
		return c, false
	}
	return entry.AboutReceipt(in, func(*ledger.Records) entry.Moment { return f.At })(f.Records)
}

// noFields refuses lines by fields beside lines in words.
func (f *filling) noFields() error {
	for i := 1; i <= f.lineCount(); i++ {
		if f.filled(i) {
			return entry.Wrongs{{Part: lineName(i, "item"), Err: fmt.Errorf("line %d by fields holds something too: write all lines in words, or all by fields", i)}}
		}
	}
	return nil
}

// filled reports whether the fields of a line hold anything; those that are chosen
// from a list always do.
func (f *filling) filled(i int) bool {
	k := ledger.MustKind("receipt")
	return f.text(lineName(i, "offer"), "") != "" || slices.ContainsFunc(k.Columns, func(c ledger.Column) bool {
		return c.Words == nil && f.text(lineName(i, c.Name), "") != ""
	})
}

// linesByFields are the lines of which the fields hold anything.
func (f *filling) linesByFields() (lines []entry.TypedLine) {
	k := ledger.MustKind("receipt")
	var at []int // the line of the form that each line of the receipt is of
	for i := 1; i <= f.lineCount(); i++ {
		if !f.filled(i) {
			continue
		}
		cells := map[string]string{}
		for j := range k.Columns {
			c := &k.Columns[j]
			cells[c.Name] = f.cell(c, lineName(i, c.Name))
		}
		offer := entry.Native(f.Records.Settings.Locale, f.text(lineName(i, "offer"), ""))
		l := &entry.Line{Count: cells["count"], Size: cells["size"], Item: cells["item"], Price: cells["price"], Less: cells["discount"], Offer: offer}
		l.Kind, _ = entry.ParseKind(cells["kind"])
		lines, at = append(lines, entry.TypedLine{Kind: l.Kind.String(), Line: l, More: cells}), append(at, i)
	}
	// Row n of a fault is line at[n] of the form; one row more is the printed total.
	f.place = func(kind string, n int, column string) string {
		switch {
		case kind != k.Name || n > len(at):
			return ""
		case n == len(at):
			return "total"
		case slices.Contains(entry.ReceiptHead, column):
			return column
		}
		return lineName(at[n], column)
	}
	return lines
}
