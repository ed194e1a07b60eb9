package intake

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Target is what a file is imported as.
type Target uint8

// The targets.
const (
	Receipts Target = iota // lines of receipts
	Runs                   // runs, with their loads and phases
	Prices                 // shelf prices
)

var targetWords = [...]string{"receipts", "runs", "prices"}

// String returns the target's word.
func (t Target) String() string { return targetWords[t] }

// parseTarget finds a target by its word.
func parseTarget(word string) (Target, error) {
	return parseWord[Target](targetWords[:], word, "nothing that can be imported; write one of: "+strings.Join(targetWords[:], ", "))
}

// parseWord finds the value that a word, in any case, stands for by its place
// among all; or says what it is not.
func parseWord[T ~uint8](words []string, word, isNot string) (T, error) {
	i := slices.IndexFunc(words, func(known string) bool { return strings.EqualFold(word, known) })
	if i < 0 {
		return 0, fmt.Errorf("%s is %s", exact.Quote(word), isNot)
	}
	return T(i), nil
}

// A Map says how one kind of foreign file fills the columns of the ledger. A
// ledger keeps its maps in [MapsFile].
type Map struct {
	Name      string // an identifier
	Target    Target
	Encoding  Encoding
	Separator byte // 0: found by the rows
	Sheet     string
	Decimal   Decimal // AnyDecimal: found by the numbers
	Dates     Order   // AnyOrder: found by the dates
	Fills     []Fill
	Only      []Only
}

// Options says how to read a file that the map is for.
func (m Map) Options() Options {
	return Options{Encoding: m.Encoding, Separator: m.Separator, Sheet: m.Sheet}
}

// A Fill says how one column of the ledger is filled.
type Fill struct {
	Column string // such as price; of loads load.item, of phases phase.primary
	// From is the header of the foreign column, or several joined by " + ",
	// whose texts are then joined by a space. Empty: Value fills every row.
	From string
	// Value is what the cell is where the foreign one is blank, as records write
	// it. Of kind it counts only where neither the names nor the ledger know the item.
	Value string
	How   How
}

// fillOf returns the fill of a column, of which a map has one at most, or nil.
func (m *Map) fillOf(column string) *Fill {
	if i := slices.IndexFunc(m.Fills, func(f Fill) bool { return f.Column == column }); i >= 0 {
		return &m.Fills[i]
	}
	return nil
}

// fills reports whether anything fills a column.
func (m *Map) fills(column string) bool { return m.fillOf(column) != nil }

// how says how a column is read, if anything fills it.
func (m *Map) how(column string) (h How) {
	if f := m.fillOf(column); f != nil {
		h = f.How
	}
	return h
}

// How says how a foreign cell is read. It is written as words with spaces
// between.
type How struct {
	Order   Order         // dmy, mdy, ymd, serial: of dates
	Decimal Decimal       // point, comma: of numbers
	Unit    exact.Unit    // of an amount without one: g, L, Wh ...
	Span    time.Duration // d, h, min, s: of a length of time without a unit
	Negate  bool          // negate: the sign is turned around
	Total   bool          // total: a price for the whole line, divided by its count
	Within  bool          // within: an amount somewhere in the text
}

// An Only leaves out the rows of which a foreign cell is none of the values.
type Only struct {
	From   string   // header of the foreign column
	Values []string // texts, compared without case; or <0, >0 for numbers
}

// spans are the words for units of time in a map.
var spans = []struct {
	word string
	span time.Duration
}{{"d", 24 * time.Hour}, {"h", time.Hour}, {"min", time.Minute}, {"s", time.Second}}

// ParseHow reads the words of a cell under how.
func ParseHow(s string) (How, error) {
	var h How
	for word := range strings.FieldsSeq(s) {
		if err := h.take(word); err != nil {
			return How{}, err
		}
	}
	return h, nil
}

func (h *How) take(word string) error {
	if flag := h.flags()[word]; flag != nil {
		*flag = true
		return nil
	}
	if o, err := ParseOrder(word); err == nil {
		h.Order = o
		return nil
	}
	if d, err := ParseDecimal(word); err == nil {
		h.Decimal = d
		return nil
	}
	for _, s := range spans {
		if s.word == word {
			h.Span = s.span
			return nil
		}
	}
	u, err := exact.ParseUnit(word)
	if err != nil {
		return fmt.Errorf("%s says nothing about reading a cell; write dmy, mdy, ymd or serial for dates, "+
			"point or comma for decimals, a unit (g, L, Wh, h, min ...), negate, total or within", exact.Quote(word))
	}
	h.Unit = u
	return nil
}

// flags are what a word alone says.
func (h *How) flags() map[string]*bool {
	return map[string]*bool{"negate": &h.Negate, "total": &h.Total, "within": &h.Within}
}

// String writes the words that [ParseHow] reads.
func (h How) String() string {
	var words []string
	add := func(word string) {
		if word != "" {
			words = append(words, word)
		}
	}
	add(h.Order.String())
	add(h.Decimal.String())
	add(h.Unit.String())
	for _, s := range spans {
		if h.Span == s.span {
			add(s.word)
		}
	}
	flags := h.flags()
	for _, word := range slices.Sorted(maps.Keys(flags)) {
		if *flags[word] {
			add(word)
		}
	}
	return strings.Join(words, " ")
}

// Columns lists the columns of the ledger that a map of the target may fill,
// in the order of their files.
func (t Target) Columns() []string {
	switch t {
	case Receipts:
		return columnsOf(ledger.ReceiptsFile, "")
	case Prices:
		return columnsOf(ledger.ShelfFile, "")
	}
	list := columnsOf(ledger.RunsFile, "")
	list = append(list, slices.DeleteFunc(columnsOf(ledger.LoadsFile, "load."), func(c string) bool { return c == "load.run" })...)
	for _, phase := range phases() {
		list = append(list, "phase."+phase)
	}
	return list
}

// phases are the words of a run's phases, in their usual order.
func phases() []string { return ledger.MustKind("phase").Column("phase").Words }

func columnsOf(file, prefix string) []string {
	list := ledger.MustKind(file).Header()
	for i := range list {
		list[i] = prefix + list[i]
	}
	return list
}

// column returns the ledger's column that one of [Target.Columns] is; of a phase
// its duration. A name that is none of them has a column of text.
func (t Target) column(name string) *ledger.Column {
	if !slices.Contains(t.Columns(), name) {
		return new(ledger.Column)
	}
	switch part, rest, _ := strings.Cut(name, "."); part {
	case "load":
		return ledger.MustKind(part).Column(rest)
	case "phase":
		return ledger.MustKind(part).Column("duration")
	}
	return ledger.MustKind(map[Target]string{Receipts: "receipt", Runs: "run", Prices: "price"}[t]).Column(name)
}

// readAs says how the foreign cells of a column are read. What things are called
// there the names say; goods sold loose have their weight as their count.
func readAs(c *ledger.Column) ledger.CellType {
	switch {
	case slices.Contains(c.Names, ledger.Foods) || slices.Contains(c.Names, ledger.Machines):
		return ledger.TextCell
	case c.Name == "count":
		return ledger.AmountCell
	}
	return c.Cell
}

// numeric reports whether foreign cells are, or begin with, a number.
func numeric(t ledger.CellType) bool {
	switch t {
	case ledger.NumberCell, ledger.PercentCell, ledger.MoneyCell, ledger.WholeCell, ledger.AmountCell, ledger.DurationCell:
		return true
	}
	return false
}

// measures reports whether the cells of a column may be in units of a dimension.
func measures(c *ledger.Column, d exact.Dimension) bool {
	return slices.Contains(c.Dims, d) || c.Unit == exact.KWh.String() && d == exact.Energy
}
