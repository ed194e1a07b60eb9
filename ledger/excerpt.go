package ledger

// An Excerpt says what there is of a ledger, where not all of its records were
// read. The ledger as a whole is known to have no fault. [Join] works out what the
// excerpt is about as it would of the whole, and notes no fault that only follows
// from what was left out.
type Excerpt struct {
	// Lots are the foods, supplies and machines of which all is there that was
	// bought, made and taken.
	Lots map[string]bool
	// Runs are those that are there with their phases, loads and meter logs; of the
	// others there is the row alone.
	Runs map[string]bool
	// Receipts are those that are there, with all their lines.
	Receipts map[string]bool
}

// leavesOut reports whether what a file tells of id is not there, or not all of
// it. A nil Excerpt leaves out nothing.
func (e *Excerpt) leavesOut(file, id string) bool {
	if e == nil {
		return false
	}
	switch file {
	case RunsFile:
		return !e.Runs[id]
	case lotsOf:
		return !e.Lots[id]
	case ReceiptsFile:
		return !e.Receipts[id]
	}
	return false
}
