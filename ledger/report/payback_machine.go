package report

import (
	"fmt"
)

// several reports whether more than one machine is to be earned back.
func (p *payback) several() bool { return p.Outlay.Machines > 1 }

// subject names what earns.
func (p *payback) subject() string {
	if p.Machine < 0 {
		return "the machine"
	}
	return p.g.Machines[p.Machine].Title()
}

// wanted is what no receipt has.
func (p *payback) wanted() string {
	if p.Machine < 0 {
		return "a machine"
	}
	return "the machine " + p.subject()
}

// first is the machine since which months count.
func (p *payback) first() string {
	return p.either(p.subject(), "the first machine")
}

// opening says of what there is so much to earn back, where that is not plain.
func (p *payback) opening() string {
	switch {
	case p.Machine >= 0:
		return p.subject() + ": of "
	case p.several():
		return fmt.Sprintf("The %d machines: of ", p.Outlay.Machines)
	}
	return "Of "
}

// either is the word for one machine, or that for several.
func (p *payback) either(one, several string) string {
	if p.several() {
		return several
	}
	return one
}

// byMachine says of each machine whether it has earned its own price; what none
// dried comes last.
func (p *payback) byMachine() *Table {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine"}, {Key: "runs", Title: "runs", Rank: 1}, {Key: "earned", Title: "earned", Bar: true},
		{Key: "target", Title: "to earn back"}, {Key: "left", Title: "left"}, {Key: NotesKey, Title: "notes"},
	}}
	for i := range p.ByMachine {
		m := &p.ByMachine[i]
		row := Row{Cells: []Value{noneYet("no machine"), CountOf(m.Runs), MoneyQuotient(m.Earned), MoneyOf(m.Outlay.Target()), MoneyQuotient(m.Left())}}
		switch {
		case m.Machine < 0:
			row.Notes = []string{"fresh food that was lost, and packs that were in store from the start"}
		default:
			row.Cells[0] = nameValue(p.g.Machines[m.Machine].ID, p.g.Machines[m.Machine].Name)
			if m.Outlay.Machines == 0 {
				row.Notes = []string{"no receipt has it"}
			} else if m.Left().Sign() <= 0 {
				row.Notes = []string{"has earned its price"}
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
