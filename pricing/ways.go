package pricing

import "putby/pricing/exact"

// A Way is one of several ways to come by the same amount of a food.
type Way struct {
	Kind    WayKind
	Cost    exact.Ratio // money for the whole amount
	PerUnit exact.Ratio // money per unit (L, kg or ea) as it is eaten
}

// WayKind says how the food is come by.
type WayKind uint8

// The ways.
const (
	BuyFresh     WayKind = iota // all of it at the shelf price
	BuyPreserved                // all of it as the shop's own dried equivalent
	BuyForFresh                 // on offer what is eaten fresh, the rest at the shelf price
	BuyAndDry                   // on offer, dried: the row itself
	BuyAndFreeze                // on offer, in the freezer for as long as it keeps there
)

// String names the way in a few words.
func (k WayKind) String() string {
	return [...]string{
		"fresh, at the shelf price",
		"the shop's preserved equivalent",
		"on offer for fresh use, the rest at the shelf price",
		"on offer, and dried",
		"on offer, and frozen",
	}[k]
}

// Ways returns what the amount of a row costs by each way, preserved being the
// shop's price per reconstituted unit where it has one. It is nil for a row
// that gives nothing.
func (d Decision) Ways(r Row, preserved exact.Opt[exact.Ratio]) []Way {
	amount := r.Amount()
	if amount.IsZero() {
		return nil
	}
	shelf, fresh := d.count.s.Shelf, d.WithoutDrying
	if r.Packages < fresh.Packages {
		fresh = r // too few to dry any
	}
	ways := []Way{{Kind: BuyFresh, Cost: amount.Mul(shelf)}}
	if p, given := preserved.Get(); given {
		ways = append(ways, Way{Kind: BuyPreserved, Cost: amount.Mul(p)})
	}
	// Its saving is against the shelf price of the part that it buys, so off that of all of it.
	ways = append(ways,
		Way{Kind: BuyForFresh, Cost: amount.Mul(shelf).Sub(fresh.Saving)},
		Way{Kind: BuyAndDry, Cost: exact.RatioOf(r.Cost.Total().Number())})
	for i := range ways {
		ways[i].PerUnit = ways[i].Cost.Quo(amount)
	}
	return ways
}

// A PartLoad is the room in the last cycle of a row, which a second food in
// hand could fill.
type PartLoad struct {
	Cycle int          // which cycle, from 0
	Load  exact.Number // fresh amount in it
	Spare exact.Number // fresh amount that would still fit
	Extra exact.Money  // electricity that filling it adds
}

// PartLoad returns the room in the last cycle of a row. It reports false where
// nothing is dried, the last cycle is full, or its electricity would have no price if
// it were.
func (d Decision) PartLoad(r Row) (PartLoad, bool) {
	if r.Cycles == 0 {
		return PartLoad{}, false
	}
	c, last := &count{s: d.count.s}, r.Cycles-1
	load := c.lastLoad(r)
	spare := c.s.Load.Sub(load)
	extra := c.cycle(last, c.s.Load).Sub(c.cycle(last, load))
	return PartLoad{last, load, spare, extra}, !spare.IsZero() && c.failed == nil
}

// CycleAlone returns what one more cycle after those of a row would cost with
// a load of its own: electricity, supplies, wear and labour. It reports false where
// its electricity has no price.
func (d Decision) CycleAlone(r Row, load exact.Number) (exact.Money, bool) {
	c := &count{s: d.count.s}
	alone := Cost{Electricity: c.cycle(r.Cycles, load), Supplies: c.s.Supplies, Wear: c.s.Wear, Labour: c.s.Labour}
	return alone.Cycles(), c.failed == nil
}
