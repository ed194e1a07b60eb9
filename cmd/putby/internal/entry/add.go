package entry

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/report"
)

// Add records one record of a kind by its cells, as a person types them. What is
// blank and known by itself is filled in; an identifier that is taken gives way to
// the next, and that is said. All that is wrong is told at once, each by its
// column.
func Add(b *Base, k ledger.Kind, said map[string]string) (*Draft, error) {
	var filled Draft
	cells, err := b.complete(k, said, &filled)
	if err != nil {
		return nil, err
	}
	d := NewRecord(b, k, cells)
	d.Notes = append(filled.Notes, d.Notes...)
	return d, nil
}

// NewRecord is [Add] for cells that are as records have them, with all that is to be
// said of them.
func NewRecord(b *Base, k ledger.Kind, cells map[string]string) *Draft {
	d := &Draft{Rows: []Row{{k, cells}}}
	switch k.Name {
	case "food", "supply":
		d.Notes = newNotes(b.Records, d.Rows[0])
	case "machine":
		d.After = []report.Remark{report.MachineCaution()}
	}
	return d
}

// complete reads the cells of a new record, and fills in what needs nobody's
// leave.
func (b *Base) complete(k ledger.Kind, said map[string]string, d *Draft) (map[string]string, error) {
	cells := b.At.typedCells(b.Records, k, said)
	blanks(cells)
	for _, c := range k.Asked() {
		if cells[c.Name] != "" || !NeedsNoAnswer(c, b.Records, cells) {
			continue
		}
		if o, _ := b.Suggest(k, cells); o[c.Name] != "" {
			cells[c.Name] = o[c.Name]
		}
	}
	var bad Wrongs
	for i := range k.Columns {
		c := &k.Columns[i]
		if c.Own && c.Default == ledger.Next {
			d.Notes = append(d.Notes, b.renumber(k, c, cells)...)
		}
		bad.add(c.Name, 0, b.CheckCell(k, c, cells[c.Name]))
	}
	return cells, bad.Err()
}

// blanks takes out cells that hold nothing.
func blanks(cells map[string]string) {
	maps.DeleteFunc(cells, func(_, text string) bool { return strings.TrimSpace(text) == "" })
}

// renumber gives a record whose identifier is taken the next one, and says so.
func (b *Base) renumber(k ledger.Kind, c *ledger.Column, cells map[string]string) []string {
	id := cells[c.Name]
	if !b.Taken(k, id) {
		return nil
	}
	delete(cells, c.Name)
	o, _ := b.Suggest(k, cells)
	cells[c.Name] = o[c.Name]
	return []string{fmt.Sprintf("The ledger has a %s %s already, so this one is %s.", k.Name, id, o[c.Name])}
}

// Taken reports whether an identifier is one that a new record of the kind cannot
// have: receipts and batches share theirs.
func (b *Base) Taken(k ledger.Kind, id string) bool {
	kinds := []string{k.Name}
	if k.Name == "receipt" || k.Name == "batch" {
		kinds = []string{"receipt", "batch"}
	}
	return slices.ContainsFunc(kinds, func(name string) bool {
		k := ledger.MustKind(name)
		return id != "" && slices.Contains(k.Column(k.Key[0]).Known(b.Records), id)
	})
}

// CheckCell says what is wrong with one cell of a new record, as records have it,
// besides what only the whole ledger tells; nil where nothing is.
func (b *Base) CheckCell(k ledger.Kind, c *ledger.Column, text string) error {
	if err := b.cellAlone(k, c, text); err != nil {
		return err
	}
	if near, unknown := Unknown(b.Records, c, text); unknown {
		return b.strange(c, text, near)
	}
	if c.Cell == ledger.SuppliesCell || c.Cell == ledger.FoodsCell {
		return b.checkList(c, text)
	}
	if c.Own && b.Taken(k, text) {
		return fmt.Errorf("the ledger has a %s %s already", k.Name, text)
	}
	return nil
}

// checkList refuses a list of amounts and things with a thing that the ledger does
// not have.
func (b *Base) checkList(c *ledger.Column, text string) error {
	known := c.Known(b.Records)
	for _, part := range listParts(text) {
		_, name, _ := strings.Cut(part, " ")
		words := strings.Fields(part)
		if id := words[len(words)-1]; !slices.Contains(known, id) {
			if rest, amount := takeAmount(words); amount != "" {
				name = strings.Join(rest, " ")
			}
			return b.strange(c, name, ledger.Nearest(id, known))
		}
	}
	return nil
}

// strange says that nothing is called so, in the words of people.
func (b *Base) strange(c *ledger.Column, text, near string) error {
	if c.Words != nil {
		return notThere(quote(text)+" is none of: "+OrList(c.Words), near)
	}
	if near != "" {
		near = titleOf(b.Records, near)
	}
	return notThere(fmt.Sprintf("no %s is called %s", c.What(), quote(text)), near)
}
