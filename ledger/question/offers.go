package question

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/intake"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// An Offer is one offer of a plan, as its file has it.
type Offer struct {
	Line  int // in its file, from 1; the header stands before it
	Item  string
	cells map[string]string // by option
	at    map[string]int    // column of each option's cell, in bytes from 1
}

// MaxOffers is how many offers a plan may have.
const MaxOffers = 100

// commonOptions are one for the whole plan, as its machine is.
var commonOptions = []string{"as-of", "machine", "turnaround", "start", "tariff", "rate", "without", "budget"}

// offerColumns returns the columns that a plan may have, item first.
func offerColumns() []string {
	list := []string{"item"}
	for _, o := range options {
		if !slices.Contains(commonOptions, o.Name) {
			list = append(list, columnOf(o.Name))
		}
	}
	return list
}

func columnOf(option string) string { return strings.ReplaceAll(option, "-", "_") }

// ReadOffers reads the offers of a plan from a table, as [intake.Read] reads it:
// a header, then an offer a row. All its faults come at once, each at its place.
func ReadOffers(name string, file io.Reader) ([]Offer, ledger.Faults) {
	p := &offersReader{name: name}
	table, err := intake.Read(file, intake.Options{})
	switch one := (*ledger.Fault)(nil); {
	case errors.As(err, &one):
		p.faults = ledger.Faults{*one}
	case err != nil:
		p.fail(0, 0, "", "%v", err)
	default:
		p.faults = table.Bad
	}
	if p.table = table; p.faults == nil && p.header() {
		p.rows()
	}
	for i := range p.faults {
		p.faults[i].File = name
	}
	p.faults.Sort()
	return p.offers, p.faults
}

// offersReader is a plan being read.
type offersReader struct {
	name   string
	table  *intake.Table
	names  []string // of the header, the table's first row
	offers []Offer
	faults ledger.Faults
}

func (p *offersReader) fail(line, column int, hint, format string, args ...any) {
	p.faults = append(p.faults, ledger.Fault{File: p.name, Line: line, Column: column, What: fmt.Sprintf(format, args...), Hint: hint})
}

// header reads the names of the columns.
func (p *offersReader) header() bool {
	p.names = p.table.Row(0).Cells
	for i, name := range p.names {
		line, column := p.table.Place(0, i)
		switch {
		case !slices.Contains(offerColumns(), name):
			p.fail(line, column, "columns are: "+strings.Join(offerColumns(), ", "), "a plan has no column %s", exact.Quote(name))
		case slices.Index(p.names, name) < i:
			p.fail(line, column, "", "the column %s is there twice", name)
		}
	}
	for _, need := range []string{"item", "price", "size"} {
		if !slices.Contains(p.names, need) {
			p.fail(1, 1, "a plan begins with a row such as: item,price,size,limit", "the column %s is missing", need)
		}
	}
	return p.faults == nil
}

func (p *offersReader) rows() {
	for i := 1; i < p.table.Len(); i++ {
		row := p.table.Row(i)
		if p.table.Form.Workbook && len(row.Cells) < len(p.names) { // which ends a row with its last value
			row.Cells = append(row.Cells, make([]string, len(p.names)-len(row.Cells))...)
		}
		switch {
		case len(p.offers) == MaxOffers:
			p.fail(row.Line, 1, "leave out what is not worth asking about", "a plan has %d offers at most", MaxOffers)
			return
		case len(row.Cells) != len(p.names):
			p.fail(row.Line, 1, "a cell with a comma needs quotes around it; an empty cell still needs its comma",
				"the row has %d cells, the header %d", len(row.Cells), len(p.names))
			continue
		}
		p.row(i, row)
	}
	if len(p.offers) == 0 && p.faults == nil {
		p.fail(1, 1, "write one offer a line", "the plan has no offer")
	}
}

// row reads one offer.
func (p *offersReader) row(at int, row intake.Row) {
	o := Offer{Line: row.Line, cells: map[string]string{}, at: map[string]int{}}
	for i, name := range p.names {
		text := strings.TrimSpace(row.Cells[i])
		option := strings.ReplaceAll(name, "_", "-")
		_, o.at[option] = p.table.Place(at, i)
		switch {
		case text == "" && (name == "item" || name == "price" || name == "size"):
			p.fail(row.Line, o.at[option], "each offer needs a food, a price and a size", "%s: the cell is empty", name)
		case text == "":
		case name == "item":
			o.Item = text
		default:
			o.cells[option] = text
			// Tried on a question of its own, so that every slip of the file is told at once; [Offer.query]
			// sets it again over what holds for all offers.
			if err := new(WorthQuery).Set(option, text); err != nil {
				p.faults = append(p.faults, o.fault(p.name, err))
			}
		}
	}
	p.offers = append(p.offers, o)
}

// fault places an error of an offer at the cell of its option, else at its
// line.
func (o Offer) fault(file string, err error) ledger.Fault {
	f := ledger.Fault{File: file, Line: o.Line, Column: 1, What: err.Error()}
	var unknown *figures.UnknownError
	if errors.As(err, &unknown) {
		f.Column, f.Hint = o.at["item"], "foods are in "+ledger.FoodsFile
	}
	if query := OptionOf(err); query.Field != "" {
		f.What, f.Hint = columnOf(query.Field)+": "+query.What, query.Hint
		if at, ok := o.at[query.Field]; ok {
			f.Column = at
		}
	}
	return f
}

// faults are the same of an error, one for each fact that is missing.
func (o Offer) faults(file string, err error) (list ledger.Faults) {
	var missing *MissingError
	if !errors.As(err, &missing) {
		return ledger.Faults{o.fault(file, err)}
	}
	for _, m := range missing.Facts {
		list = append(list, ledger.Fault{File: file, Line: o.Line, Column: 1,
			What: o.Item + ": " + m.What + " is not known", Hint: "give " + m.flags() + " (also as a column), or record " + m.Record})
	}
	return list
}

// A PlanQuery is what to buy of the offers of a file, for one machine.
type PlanQuery struct {
	Common WorthQuery // what holds for every offer that does not say otherwise
	File   string     // the offers' file, for faults
	Offers []Offer
}

// PlanOfFile answers which offers of a file to buy; see [report.Plan]. Errors are
// [ledger.Faults] in that file, or a fault of [ErrOption].
func PlanOfFile(g *ledger.Ledger, q PlanQuery) (report.Doc, error) {
	var faults ledger.Faults
	var asked []WorthQuery
	for _, o := range q.Offers {
		offer, err := o.query(q.Common)
		if asked = append(asked, offer); err != nil {
			faults = append(faults, o.fault(q.File, err))
		}
	}
	if faults != nil {
		return report.Doc{}, faults
	}
	d, wrong, err := plan(g, asked)
	for i := range wrong {
		faults = append(faults, q.Offers[i].faults(q.File, wrong[i])...)
	}
	if faults != nil {
		faults.Sort()
		return d, faults
	}
	return d, err
}

// query is the offer's question: what holds for the whole plan, and its own
// cells over it.
func (o Offer) query(common WorthQuery) (WorthQuery, error) {
	q := common
	q.Item, q.Also = o.Item, nil
	for _, opt := range options {
		if text, ok := o.cells[opt.Name]; ok {
			if err := q.Set(opt.Name, text); err != nil {
				return q, err
			}
		}
	}
	return q, nil
}
