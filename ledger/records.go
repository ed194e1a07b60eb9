package ledger

import (
	"time"

	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// Records are all the records of a ledger, each list in file order. They are
// as a person wrote them: typed and each valid by itself, but not yet held
// against each other; [Join] does that. A record's Line is that of its file at
// which it begins, 1 being the header; dates and times are in the ledger's zone.
type Records struct {
	Settings Settings
	Foods    []Food
	Supplies []Supply
	Machines []Machine
	Wattage  []Wattage
	Tariffs  []Band
	Holidays []Holiday
	Receipts ReceiptList
	Shelf    []ShelfRow
	Batches  []Batch
	Runs     []Run
	Phases   PhaseList
	Loads    LoadList
	Packs    PackList
	Draws    DrawList
	Freezes  []Freeze
	Counts   []Count
	Meters   map[string]*energy.Log    // by run
	Rates    map[string]*energy.Prices // of hourly bands, by tariff
	Excerpt  *Excerpt                  // what of them is there, where not all were read; nil: all
}

// The lists of which a ledger has many records.
type (
	ReceiptList = List[ReceiptRow, packedReceipt]
	PhaseList   = List[Phase, packedPhase]
	LoadList    = List[Load, packedLoad]
	PackList    = List[Pack, packedPack]
	DrawList    = List[Draw, packedDraw]
)

// A Food is a food that is bought, dried or eaten.
type Food struct {
	Line int // of foods.csv
	ID   string
	Name string
	// Basis is what amounts of it are counted in: L, kg or ea.
	Basis      exact.Unit
	Density    exact.Opt[exact.Number] // kg/L, above 0
	PieceKg    exact.Opt[exact.Number] // edible kg of one piece
	Water      exact.Opt[exact.Number] // % of the fresh edible food
	Refuse     exact.Number            // % of what is bought that is thrown away, under 100
	Serving    exact.Quantity          // as eaten; not given: none is known
	Kcal       exact.Opt[exact.Number] // per 100 g as eaten
	Protein    exact.Opt[exact.Number] // g per 100 g as eaten
	Fat        exact.Opt[exact.Number] // g per 100 g as eaten, so % by weight
	FreshDays  exact.Opt[int]          // after purchase
	FrozenDays exact.Opt[int]          // after purchase
	KeepMonths exact.Opt[int]          // after packing
	Caution    string
}

// A SupplyKind is what a supply is for.
type SupplyKind uint8

// The kinds of supplies.
const (
	Jar SupplyKind = iota
	Bag
	Lid
	Absorber
	Label
	Oil
	Filter
	OtherSupply
)

var supplyKinds = words{"jar", "bag", "lid", "absorber", "label", "oil", "filter", "other"}

// String returns the kind's word.
func (k SupplyKind) String() string { return supplyKinds[k] }

// A Supply is a container or a consumable.
type Supply struct {
	Line     int // of supplies.csv
	ID       string
	Name     string
	Kind     SupplyKind
	Uses     int                    // how often one serves, at least 1
	Capacity exact.Quantity         // of a container, or the oxygen (cc) an absorber takes up
	Price    exact.Opt[exact.Money] // of a piece, where no receipt covers it
}

// A Use is a number of uses of a supply.
type Use struct {
	Supply string
	Number exact.Number // pieces or uses, above 0
}

// A Machine is a freeze-dryer.
type Machine struct {
	Line       int // of machines.csv
	ID         string
	Name       string
	Trays      exact.Opt[int] // 1 at least
	LoadVolume exact.Quantity // most per cycle
	LoadMass   exact.Quantity // most per cycle
	Cycles     int            // expected life, at least 1
	Residual   exact.Money    // money back at its end
	With       []Use          // drawn by every cycle
}

// Wattage is a machine's typical average draw in a phase.
type Wattage struct {
	Line    int // of wattage.csv
	Machine string
	Phase   PhaseName
	Watts   exact.Number // W
}

// A Band is one row of a tariff.
type Band struct {
	Tariff string
	energy.Band
}

// A Holiday is a date on which a tariff's hol bands hold.
type Holiday struct {
	Line   int // of holidays.csv
	Tariff string
	Date   exact.Date // all day, midnight to midnight
}

// A ReceiptKind says what a line of a receipt is.
type ReceiptKind uint8

// The kinds of receipt lines. Those up to OtherLine are things bought; the
// next three are receipt-wide amounts.
const (
	FoodLine ReceiptKind = iota
	SupplyLine
	MachineLine
	ServiceLine
	OtherLine
	DiscountLine
	TaxLine
	ChargeLine
	DepositLine
	TotalLine
)

var receiptKinds = words{"food", "supply", "machine", "service", "other", "discount", "tax", "charge", "deposit", "total"}

// String returns the kind's word.
func (k ReceiptKind) String() string { return receiptKinds[k] }

// Bought reports whether the line is a thing bought, not an amount.
func (k ReceiptKind) Bought() bool { return k <= OtherLine }

// Wide reports whether the line is an amount for the whole receipt.
func (k ReceiptKind) Wide() bool { return k >= DiscountLine && k <= ChargeLine }

// A ReceiptRow is one line of a receipt.
type ReceiptRow struct {
	Line    int        // of receipts.csv
	Date    exact.Date // of purchase, by which it counts
	Kind    ReceiptKind
	Receipt string
	Shop    string
	Number  string // the line's own identifier in its receipt; may be empty
	Item    string
	Count   exact.Number // packages, 1 where the cell is blank
	Size    exact.Quantity
	Price   exact.Money  // of one package; the amount, for receipt-wide kinds
	Rest    *ReceiptRest // nil: it has none of it
}

// A ReceiptRest is what few lines of receipts have; there are too many lines to
// keep room for it in each.
type ReceiptRest struct {
	Note    string
	Amounts *ReceiptAmounts // nil: it has none of them
}

// ReceiptAmounts are what fewer lines have than a note: some files have one on
// every line.
type ReceiptAmounts struct {
	Discount exact.Money // whole line
	Tax      exact.Money // whole line
	On       []string    // Numbers of the lines that a receipt-wide amount is for; none = all
}

var noAmounts ReceiptAmounts

// amounts returns the amounts of a line, to be read.
func (r ReceiptRow) amounts() *ReceiptAmounts {
	if r.Rest == nil || r.Rest.Amounts == nil {
		return &noAmounts
	}
	return r.Rest.Amounts
}

// ownRest returns the rest of a line that is being read, to be filled in.
func (r *ReceiptRow) ownRest() *ReceiptRest {
	if r.Rest == nil {
		r.Rest = new(ReceiptRest)
	}
	return r.Rest
}

// ownAmounts is ownRest for the amounts.
func (r *ReceiptRow) ownAmounts() *ReceiptAmounts {
	rest := r.ownRest()
	if rest.Amounts == nil {
		rest.Amounts = new(ReceiptAmounts)
	}
	return rest.Amounts
}

// Discount is what comes off the whole line.
func (r ReceiptRow) Discount() exact.Money { return r.amounts().Discount }

// Tax is what is put on the whole line.
func (r ReceiptRow) Tax() exact.Money { return r.amounts().Tax }

// On returns the Numbers of the lines that a receipt-wide amount is for; none:
// for all.
func (r ReceiptRow) On() []string { return r.amounts().On }

// Note is anything worth keeping.
func (r ReceiptRow) Note() string {
	if r.Rest == nil {
		return ""
	}
	return r.Rest.Note
}

// A ShelfRow is a price that a shop asks.
type ShelfRow struct {
	Line  int        // of shelf.csv
	Date  exact.Date // on which the shop asked it
	Shop  string
	Item  string
	Size  exact.Quantity
	Price exact.Money // of a package
	Terms pricing.Terms
	Form  pricing.Form
	Makes exact.Quantity // what a preserved package reconstitutes to
	Note  string
}

// A Part is an amount of a food.
type Part struct {
	Item     string
	Quantity exact.Quantity
}

// A Batch is kitchen work that turns foods into another.
type Batch struct {
	Line     int // of batches.csv
	ID       string
	Date     exact.Date // of the kitchen work: its lot is as old as that
	Item     string
	Quantity exact.Quantity
	From     []Part
	Cost     exact.Money // beside what its foods cost: fuel and the like; 0 where blank
	Note     string
}

// A Run is one cycle of a machine.
type Run struct {
	Line    int // of runs.csv
	ID      string
	Machine string
	Start   time.Time               // in the ledger's zone
	End     exact.Opt[time.Time]    // only where there are no phases
	Tariff  string                  // empty: the settings' tariff
	KWh     exact.Opt[exact.Number] // metered total
	Hands   time.Duration           // hands-on time
	Spoiled bool
	Running bool // begun and not ended: what is recorded so far counts
	Note    string
}

// outcomes are the words of what becomes of a run.
var outcomes = words{"good", "spoiled", "running"}

// Outcome returns the word of what became of the run.
func (r *Run) Outcome() string {
	switch {
	case r.Spoiled:
		return outcomes[1]
	case r.Running:
		return outcomes[2]
	}
	return outcomes[0]
}

// Good reports whether the run is finished, and its food to be packed.
func (r *Run) Good() bool { return !r.Spoiled && !r.Running }

// A PhaseName is a phase of a cycle, in the words of the lyophilisation trade.
type PhaseName uint8

// The phases.
const (
	Freezing PhaseName = iota
	Evacuation
	Primary
	Secondary
	Hold
	Defrost
)

var phaseNames = words{"freezing", "evacuation", "primary", "secondary", "hold", "defrost"}

// String returns the phase's word.
func (p PhaseName) String() string { return phaseNames[p] }

// A Phase is a stretch of a run.
type Phase struct {
	Line   int32 // of phases.csv
	Step   int32 // order within the run
	Run    string
	Length time.Duration           // 31 days at most
	Watts  exact.Opt[exact.Number] // average draw
	KWh    exact.Opt[exact.Number] // metered
	Phase  PhaseName
}

// A Load is food that went into a run.
type Load struct {
	Line     int // of loads.csv
	Run      string
	Item     string
	Quantity exact.Quantity          // of edible food
	Receipt  string                  // draws on that receipt's or batch's lots alone
	Number   string                  // and on that line's
	Trays    exact.Opt[exact.Number] // that it took; may be a part of one
	Wet, Dry exact.Quantity          // weights before and after
	Lost     exact.Quantity          // the part of Quantity that spilled or was thrown away
}

// A Pack is a row of like containers.
type Pack struct {
	Line   int // of packs.csv
	ID     string
	Run    string // empty: opening stock at Cost
	Item   string
	Date   exact.Date     // on which it was packed
	BestBy exact.Date     // exact.NoDate: from the food's keep_months
	Count  int            // containers, 1 to 100,000
	Each   exact.Quantity // one container once reconstituted
	Dry    exact.Quantity // weight in one container
	With   []Use          // per container
	Place  string
	Cost   exact.Money // of the whole row; opening stock only
	All    bool        // nothing more of the run's food is to be packed
}

// A Reason says why something was drawn.
type Reason uint8

// The reasons of draws. Missing is only ever found by a stocktake, and Returned
// are supplies that a shop took back.
const (
	Used Reason = iota
	Given
	Spoiled
	Missing
	Returned
)

var reasons = words{"used", "given", "spoiled", "missing", "returned"}

// String returns the reason's word.
func (r Reason) String() string { return reasons[r] }

// A Draw takes from a pack, from fresh food or from supplies in hand.
type Draw struct {
	Line     int        // of draws.csv
	Date     exact.Date // on which it left
	Reason   Reason
	Pack     string // either Pack or Item is given
	Item     string
	Quantity exact.Quantity // without a unit: containers, or pieces of a supply
	Note     string
}

// A Freeze is fresh food in hand that went into the freezer, to wait for the
// machine.
type Freeze struct {
	Line     int        // of frozen.csv
	Date     exact.Date // on which it went in
	Item     string
	Quantity exact.Quantity // of edible food
	Note     string
}

// A Count is a stocktake of a pack, a food or a supply at the end of a day.
type Count struct {
	Line     int        // of counts.csv
	Date     exact.Date // at whose end it was counted
	Pack     string     // either Pack or Item is given
	Item     string
	Quantity exact.Quantity // what is there; without a unit: containers, or pieces of a supply
	Note     string
}

// words are the words of a closed list, in the order of their constants.
type words []string

// ReceiptKinds returns the kinds of receipt lines, things bought first.
func ReceiptKinds() []ReceiptKind {
	kinds := make([]ReceiptKind, len(receiptKinds))
	for i := range kinds {
		kinds[i] = ReceiptKind(i)
	}
	return kinds
}
