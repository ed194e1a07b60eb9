package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// farOff is how many times the usual a figure is when it is told as far from it.
const farOff = 10

// highRate is the price of a kWh above which a tariff that is a household's
// first is taken to be in hundredths, as bills print it.
const highRate = 5

// An Oddity is in which way a figure is far from what it is likely to be.
type Oddity uint8

// The ways, each with what an [Odd] has of it.
const (
	FarPrice     Oddity = iota // Have per Unit of the thing Name, Usual by Of prices
	FreeOnShelf                // the shelf price of the food Name is 0
	HighResidual               // the machine Name is to bring Have back, and Usual was paid for it
	HighRate                   // the tariff Name asks Number a kWh
	FarEnergy                  // the run Name has Number kWh, Usual by Of runs on Machine
	HighPower                  // the run Name has Number kWh in Length, Have watts, and Machine draws Usual at most; 0: not known
	FarWeight                  // the food Name weighed Have kg before drying in Run, of which Usual kg was loaded
	FarLength                  // the run Name, or its Phase, takes Length, Usual nanoseconds by Of of them on Machine; 0: none is known
)

// An Odd is a figure of a record that is likely to be a slip. What it has, and in
// which unit, is said at each [Oddity]; the rest is zero.
type Odd struct {
	What          Oddity
	Name, Machine string // identifiers
	Run           string
	Phase         string        // empty: the whole run
	Number        exact.Number  // of FarEnergy and HighPower kWh, of HighRate money a kWh
	Have, Usual   exact.Ratio   // money per Unit, money, watts or nanoseconds
	Unit          exact.Unit    // L, kg or ea
	Of            int           // how many Usual is of; 0: none is known
	Length        time.Duration // of a run or phase, by the clock
}

// UsualLength is Usual as a length of time.
func (o *Odd) UsualLength() time.Duration {
	n, _ := o.Usual.Round(0, exact.HalfAway).Int64()
	return time.Duration(n)
}

// A Vetting holds records that are about to be added or changed against a
// household's own, and keeps of them no more than it has to say: a price per unit or
// a run's kWh ten times the usual or a tenth of it, more kWh than the machine can
// draw, a rate that may be in hundredths, a shelf price of 0, a machine that brings
// back more than it cost, a weight before drying that is not what was loaded.
type Vetting struct {
	rec      *ledger.Records
	tell     func(Odd)
	foods    map[string]*ledger.Food
	supplies map[string]bool
	machines []ledger.Machine
	prices   map[string][]exact.Ratio // per unit, of each thing; sorted
	costs    map[string]exact.Money   // of the machines that lines looked at are of
	asked    map[string]bool          // machines that are new, changed or bought anew
	used     map[string][]exact.Ratio // kWh of the good runs of each machine; sorted
	took     map[stage][]exact.Ratio  // how long good runs and their phases took; sorted
	changed  map[place]bool           // records that are to be changed: what they hold tells of nothing usual
}

// A place is a line of a file. What a person changes is not held against itself: the
// records as they were are known by their places, and passed over.
type place struct {
	file string
	line int // 1 is the header
}

// NewVetting begins with the records of a household as they are. What is far off is
// told as it is found.
func NewVetting(rec *ledger.Records, tell func(Odd)) *Vetting {
	v := &Vetting{
		rec: rec, tell: tell,
		foods: map[string]*ledger.Food{}, supplies: map[string]bool{}, machines: rec.Machines,
		costs: map[string]exact.Money{}, asked: map[string]bool{},
	}
	v.know(rec.Foods, rec.Supplies)
	return v
}

// know takes in what records may be of.
func (v *Vetting) know(foods []ledger.Food, supplies []ledger.Supply) {
	for i := range foods {
		v.foods[foods[i].ID] = &foods[i]
	}
	for i := range supplies {
		v.supplies[supplies[i].ID] = true
	}
}

// Look looks at the records of more, which are to be added. It does not keep
// them.
func (v *Vetting) Look(more *ledger.Records) {
	for _, r := range more.Receipts.All() {
		v.price(r.Item, r.Size, r.Price)
		if r.Kind == ledger.MachineLine {
			v.costs[r.Item] = v.costs[r.Item].Add(r.Price).Sub(r.Discount()).Add(r.Tax())
			v.asked[r.Item] = true
		}
	}
	for i := range more.Machines {
		v.asked[more.Machines[i].ID] = true
	}
	for i := range more.Shelf {
		s := &more.Shelf[i]
		switch {
		case s.Price.Sign() == 0:
			v.tell(Odd{What: FreeOnShelf, Name: s.Item})
		case s.Form == pricing.Fresh:
			v.price(s.Item, s.Size, s.Price)
		}
	}
	for i := range more.Tariffs {
		v.rate(&more.Tariffs[i])
	}
	for i := range more.Runs {
		v.energy(&more.Runs[i], more)
	}
	v.lengths(more)
	for _, l := range more.Loads.All() {
		if odd, off := WeightOff(&l); off {
			v.tell(odd)
		}
	}
}

// LookChanged looks at records as they are to be; was holds the same ones as they
// are, by their lines.
func (v *Vetting) LookChanged(was, now *ledger.Records) {
	v.changed = map[place]bool{}
	for _, k := range ledger.Kinds() {
		for line := range k.Lines(was) {
			v.changed[place{k.File, line}] = true
		}
	}
	v.machines = slices.Clone(v.machines)
	for i := range now.Machines {
		if at := ledger.MustKind("machine").AtLine(v.rec, now.Machines[i].Line); at >= 0 {
			v.machines[at] = now.Machines[i]
		}
	}
	v.Look(now)
}

// LookBehind looks at the records of more that stand behind those there were.
func (v *Vetting) LookBehind(more *ledger.Records) {
	rec := v.rec
	v.know(more.Foods[len(rec.Foods):], more.Supplies[len(rec.Supplies):])
	v.machines = more.Machines
	v.Look(&ledger.Records{
		Machines: more.Machines[len(rec.Machines):], Receipts: more.Receipts.From(rec.Receipts.Len()), Shelf: more.Shelf[len(rec.Shelf):],
		Tariffs: more.Tariffs[len(rec.Tariffs):], Runs: more.Runs[len(rec.Runs):], Phases: more.Phases.From(rec.Phases.Len()),
		Loads: more.Loads.From(rec.Loads.Len()),
	})
}

// End looks at the machines of which lines were looked at, once all were.
func (v *Vetting) End() {
	for i := range v.machines {
		v.residual(&v.machines[i])
	}
}

// residual tells of a machine that is to bring back more at its end than was
// paid for it.
func (v *Vetting) residual(m *ledger.Machine) {
	if !v.asked[m.ID] {
		return
	}
	paid, bought := v.costs[m.ID]
	for _, r := range v.rec.Receipts.All() {
		if r.Kind == ledger.MachineLine && r.Item == m.ID && !v.changed[place{ledger.ReceiptsFile, r.Line}] {
			paid, bought = paid.Add(r.Price).Sub(r.Discount()).Add(r.Tax()), true
		}
	}
	if bought && m.Residual.Cmp(paid) > 0 {
		v.tell(Odd{What: HighResidual, Name: m.ID, Have: m.Residual.Ratio(), Usual: paid.Ratio()})
	}
}

// price tells of a price per unit that is far from the usual.
func (v *Vetting) price(item string, size exact.Quantity, price exact.Money) {
	unit, have, ok := v.perUnit(item, size, price)
	if !ok {
		return
	}
	if v.prices == nil {
		v.prices = v.ownPrices()
	}
	usual, ok := exact.Quantile(v.prices[item], half)
	if !ok || !far(have, usual) {
		return
	}
	v.tell(Odd{What: FarPrice, Name: item, Have: have, Usual: usual, Unit: unit, Of: len(v.prices[item])})
}

var half = exact.Int(1).Over(exact.Int(2))

// far reports whether a figure is ten times another or a tenth of it, or beyond.
func far(have, usual exact.Ratio) bool {
	times := exact.Int(farOff)
	return have.Cmp(usual.Times(times)) >= 0 || have.Times(times).Cmp(usual) <= 0
}

// ownPrices gathers what was paid and asked for each thing, per unit, and the
// price that supplies.csv has for a supply that no receipt is of.
func (v *Vetting) ownPrices() map[string][]exact.Ratio {
	rec, prices := v.rec, map[string][]exact.Ratio{}
	add := func(item string, size exact.Quantity, price exact.Money) {
		if _, each, ok := v.perUnit(item, size, price); ok {
			prices[item] = append(prices[item], each)
		}
	}
	for i := range rec.Receipts.Len() {
		if r := rec.Receipts.At(i); !v.changed[place{ledger.ReceiptsFile, r.Line}] {
			add(r.Item, r.Size, r.Price)
		}
	}
	for i := range rec.Shelf {
		if s := &rec.Shelf[i]; s.Form == pricing.Fresh && !v.changed[place{ledger.ShelfFile, s.Line}] {
			add(s.Item, s.Size, s.Price)
		}
	}
	for i := range rec.Supplies {
		s := &rec.Supplies[i]
		if list, known := s.Price.Get(); known && prices[s.ID] == nil {
			add(s.ID, exact.Quantity{}, list)
		}
	}
	for _, list := range prices {
		slices.SortFunc(list, exact.Ratio.Cmp)
	}
	return prices
}

// perUnit is a price per unit as bought of a food or a supply; what costs
// nothing, such as garden produce, has none.
func (v *Vetting) perUnit(item string, size exact.Quantity, price exact.Money) (unit exact.Unit, each exact.Ratio, ok bool) {
	if price.Sign() <= 0 {
		return unit, each, false
	}
	if f := v.foods[item]; f != nil {
		n, err := f.InBasis(size)
		if err != nil || n.Sign() <= 0 {
			return unit, each, false
		}
		return f.Basis, price.Number().Over(n), true
	}
	if !v.supplies[item] {
		return unit, each, false
	}
	n := exact.Int(1)
	if size.Given() {
		n = size.Base().Number()
	}
	if n.Sign() <= 0 {
		return unit, each, false
	}
	return exact.Ea, price.Number().Over(n), true
}

// weightTolerance is the part by which a weight before drying may be off what was
// loaded (this project's own line): a tenth more hides several per cent of water.
var weightTolerance = exact.Int(1).Over(exact.Int(20))

// WeightOff reports whether food was loaded by weight and weighed something else
// before drying: how much water is left in it is worked out from that.
func WeightOff(l *ledger.Load) (odd Odd, off bool) {
	if !l.Wet.Given() || l.Quantity.Unit().Dimension() != exact.Mass || l.Quantity.Sign() <= 0 {
		return odd, false
	}
	odd = Odd{What: FarWeight, Name: l.Item, Run: l.Run, Have: exact.RatioOf(l.Wet.Base().Number()), Usual: exact.RatioOf(l.Quantity.Base().Number())}
	by := odd.Have.Sub(odd.Usual)
	if by.Sign() < 0 {
		by = by.Neg()
	}
	return odd, by.Cmp(odd.Usual.Mul(weightTolerance)) > 0
}

// rate tells of a rate that may be in hundredths. Where the household's own
// rates are above 5, as in some currencies they are, they say what is usual.
func (v *Vetting) rate(b *ledger.Band) {
	var own []exact.Ratio
	for i := range v.rec.Tariffs {
		if b := &v.rec.Tariffs[i]; !v.changed[place{ledger.TariffsFile, b.Line}] {
			own = append(own, exact.RatioOf(b.Rate))
		}
	}
	slices.SortFunc(own, exact.Ratio.Cmp)
	limit := exact.RatioOf(exact.Int(highRate))
	if usual, ok := exact.Quantile(own, half); ok && usual.Cmp(limit) > 0 {
		limit = usual.Times(exact.Int(farOff))
	}
	if exact.RatioOf(b.Rate).Cmp(limit) > 0 {
		v.tell(Odd{What: HighRate, Name: b.Tariff, Number: b.Rate})
	}
}
