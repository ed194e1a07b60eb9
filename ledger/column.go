package ledger

import (
	"cmp"
	"slices"
	"strings"

	"putby/pricing/exact"
)

// A Column describes a column of a kind of record: what its cells hold, and what
// asking for them, completing and showing them needs to know. Nobody else keeps a
// list of columns or of their words.
type Column struct {
	Name  string
	Label string   // what a form calls it
	Cell  CellType // what its cells hold
	Need  bool     // its cells may not be blank
	Main  bool     // it says what a record is of, or how much: lists keep it however narrow they are
	Blank string   // what a blank cell means, as in "today"; empty: nothing is said
	Help  string   // what it holds, in a few words, and in parentheses what a blank cell means

	Beside bool              // it is given beside what is said in words, see [Kind]
	Own    bool              // it is the identifier of the record itself
	Names  []Thing           // the things of the ledger that its cells name
	Open   bool              // it may name what the ledger does not have yet
	Words  []string          // all that it may hold, where that is a closed list
	Unit   string            // what a number is in, such as W
	Dims   []exact.Dimension // what an amount may measure
	Least  int               // the least of a whole number
	Most   int               // and the most; both 0 in a column of anything else

	Ask     int // its rank among the questions of a dialogue; 0: asked for only where it may not be blank
	Default Default
}

// A CellType is what the cells of a column hold.
type CellType uint8

// The types of cells.
const (
	TextCell   CellType = iota
	NameCell            // an identifier
	WordCell            // a word of a closed list
	NumberCell          // in the column's unit
	PercentCell
	MoneyCell
	WholeCell  // a whole number
	AmountCell // a number with a unit; of things to count, the number alone
	DateCell
	MomentCell // a date and a time of day
	ClockCell  // a time of day
	DurationCell
	SuppliesCell // supplies with how many of each, such as 1 jar-1l, 1 lid
	FoodsCell    // foods with how much of each, such as 2 kg leeks, 6 eggs
	ListCell     // other things between commas
)

var cellTypes = [...]string{
	"text", "name", "word", "number", "percent", "money", "number", "amount", "date", "time", "time", "duration", "list", "list", "list",
}

// String returns the word by which a flag says what it takes.
func (t CellType) String() string { return cellTypes[t] }

// A Default says how a new record comes by a cell that nobody gives.
type Default uint8

// The defaults.
const (
	NoDefault Default = iota // somebody must be asked
	Today                    // the day on which it is recorded
	Next                     // the next free identifier or number
	Only                     // where it can be but one thing, that
	AsUsual                  // as last time
	Offered                  // whatever is offered
)

// Happens reports whether the column says when something happened, which is not
// after today. Other dates are of the calendar: a holiday, a best-by date.
func (c *Column) Happens() bool { return c.Default == Today || c.Cell == MomentCell }

// Prompt asks for the column in the words of its help.
func (c *Column) Prompt() string {
	if c.Help == "" || c.Help == "a "+c.Name {
		return c.Name
	}
	return c.Name + " (" + c.Help + ")"
}

// Known returns the names of all things that the column may name, of those that
// the records have.
func (c *Column) Known(rec *Records) []string {
	var names []string
	for _, thing := range c.Names {
		names = append(names, thing.In(rec)...)
	}
	return names
}

// What says in words what the column names, as in "food or supply"; empty where
// it names nothing.
func (c *Column) What() string {
	list := make([]string, len(c.Names))
	for i, thing := range c.Names {
		list[i] = thing.String()
	}
	return Either(list)
}

// describe completes the label and the help by what the column knows.
func (c Column) describe() Column {
	switch {
	case c.Label != "":
	case c.Name == "item" && !c.Open:
		c.Label = c.What()
	default:
		c.Label = strings.ReplaceAll(c.Name, "_", " ")
	}
	switch {
	case c.Help != "":
	case c.Words != nil:
		c.Help = Either(c.Words)
	case c.Names != nil:
		c.Help = "a " + c.What()
	}
	if c.Unit != "" && !strings.Contains(strings.ToLower(c.Name+" "+c.Help), strings.ToLower(c.Unit)) {
		c.Help = strings.TrimPrefix(c.Help+", "+c.Unit, ", ")
	}
	if c.Blank != "" {
		c.Help = strings.TrimSpace(c.Help + " (" + c.Blank + ")")
	}
	return c
}

// Either writes a list as a choice: jar, bag or lid.
func Either(list []string) string {
	if n := len(list) - 1; n > 0 {
		return strings.Join(list[:n], ", ") + " or " + list[n]
	}
	return strings.Join(list, "")
}

// Column returns a column of the kind by its name; the kind must have it.
func (k Kind) Column(name string) *Column {
	return &k.Columns[slices.IndexFunc(k.Columns, func(c Column) bool { return c.Name == name })]
}

// Has reports whether the kind has a column.
func (k Kind) Has(name string) bool { return slices.Contains(k.Header(), name) }

// Header returns the names of the kind's columns.
func (k Kind) Header() []string {
	names := make([]string, len(k.Columns))
	for i := range k.Columns {
		names[i] = k.Columns[i].Name
	}
	return names
}

// Asked returns the columns that a person is asked for, in order: those that make
// a record worth having, what a default hangs on first, and then all others that
// may not be blank.
func (k Kind) Asked() []*Column {
	var list []*Column
	for i := range k.Columns {
		if c := &k.Columns[i]; c.Ask > 0 || c.Need {
			list = append(list, c)
		}
	}
	const last = 1000 // the rank of those that have none
	slices.SortStableFunc(list, func(a, b *Column) int { return cmp.Or(a.Ask, last) - cmp.Or(b.Ask, last) })
	return list
}

// Happens reports whether records of the kind say when something happened.
func (k Kind) Happens() bool {
	return slices.ContainsFunc(k.Columns, func(c Column) bool { return c.Happens() })
}
