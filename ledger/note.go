package ledger

import (
	"putby/energy"
	"putby/pricing/exact"
)

// A NoteKind says what a [Note] is about.
type NoteKind uint8

// The kinds of notes that the join makes. Beside each stands what else its
// notes hold.
const (
	OfElectricity   NoteKind = iota // Power: what package energy notes of a run
	NoReceiptOf                     // At: a machine that no receipt has by then, so that no wear is counted
	CyclesUsedUp                    // At: a machine none of whose expected cycles is left, so that no wear is counted
	AtListPrice                     // At: a supply that is charged at its list price, where no receipt covers it
	NotDry                          // At: a pack that held more than [MostWater] when it was packed
	RepairOfNoCycle                 // At: a machine whose repair is spending only, since no cycle of it is left
	TakenBackFor                    // At: a supply taken back for so much less than it still cost; below 0: for more
)

// A Note is something to know about what something cost: what it rests on, or what
// looks like a slip. Whoever shows it words it.
type Note struct {
	Kind  NoteKind
	At    int         // position in Machines, Supplies or Packs of the records
	Less  exact.Money // of TakenBackFor alone
	Power energy.Note
}

// ofElectricity takes over what package energy notes.
func ofElectricity(notes []energy.Note) (list []Note) {
	for _, n := range notes {
		list = append(list, Note{Power: n})
	}
	return list
}
