package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A NoteKind says what a [Note] is about.
type NoteKind uint8

// The kinds of notes. Beside each stands what else its notes hold.
const (
	Stated          NoteKind = iota // Of: what the ledger itself notes
	NoShelfPrice                    // Food, Form: no shelf price is known
	PriceOfBatch                    // Food: its shelf price is that of what its latest batch took
	PriceOfLaterDay                 // Food, Date: its shelf price was asked later than it is used for
	UsedUnpriced                    // Food: no shelf price is known, so what was used of it saved nothing
	EarningUnpriced                 // Food: no shelf price is known, so what its runs earn is left out
	StillRunning                    // Run: has begun and not ended, and counts as far as it is recorded
	AwaitsPacking                   // Food, Run: has no pack yet, and is left out
	PackedInPart                    // Food, Run: some is still to be packed, and the whole cost is on the rest
	RecordsEnd                      // Date: no later record counts
	OnlyLosses                      // Food: has no pack, only losses, and is left out
	RunsEarnNothing                 // on average, so more of the same do not pay sooner
)

// A Note is something to know about figures: what they rest on or leave out. Notes are equal when
// they say the same of the same.
type Note struct {
	Kind NoteKind
	Food int // position in Foods
	Run  int // position in Runs
	Form pricing.Form
	Date exact.Date // NoDate but for the kinds that say so
	Of   ledger.Note
}

// Notes are notes in the order in which they came up, each once.
type Notes []Note

// Add adds notes that are not there yet.
func (n *Notes) Add(notes ...Note) {
	for _, note := range notes {
		if !slices.Contains(*n, note) {
			*n = append(*n, note)
		}
	}
}

// addStated adds what the ledger notes.
func (n *Notes) addStated(notes []ledger.Note) {
	for _, note := range notes {
		n.Add(Note{Kind: Stated, Of: note})
	}
}

// addPrice notes where a shelf price is not simply that of the day it is used
// for.
func (n *Notes) addPrice(food int, p ledger.ShelfPrice, day exact.Date) {
	switch {
	case p.Batch != "":
		n.Add(Note{Kind: PriceOfBatch, Food: food})
	case p.Ask.Date > day:
		n.Add(Note{Kind: PriceOfLaterDay, Food: food, Date: p.Ask.Date})
	}
}
