package ledger

import (
	"errors"
	"slices"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// A RunCost is what a run cost, and where that went.
type RunCost struct {
	Done        bool        // the run began by the ledger's date
	Date        exact.Date  // local date of its start
	Energy      exact.Ratio // kWh
	Length      exact.Opt[time.Duration]
	Electricity exact.Money
	Wear        exact.Money
	Supplies    exact.Money // the machine's
	Labour      exact.Money
	WearTakes   Range
	SupplyTakes Range
	SharedBy    Share         // how the four above were shared among loads
	Loads       []LoadCost    // in file order
	Items       []ItemCost    // in the order in which they are loaded
	Phases      []energy.Bill // as billed; only when itemized
	Posted      []exact.Money // electricity of each phase; only when itemized
	Notes       []string
}

// A LoadCost is what one load row cost.
type LoadCost struct {
	Load     int          // position in Records.Loads
	Item     int          // position in RunCost.Items
	Takes    Range        // lots it drew on
	Quantity exact.Number // in the food's basis unit
	LostPart exact.Number // of Quantity
	Weight   exact.Number // what the run's common costs were shared by
	Costs    Costs        // all of it
	Lost     Costs        // the lost part
}

// An ItemCost is what one food of a run cost.
type ItemCost struct {
	Food     int          // position in Records.Foods
	Loaded   exact.Number // in the food's basis unit
	LostPart exact.Number
	Good     Costs // to be carried by its packs, before their own supplies
	Lost     Costs
	Energy   exact.Ratio  // its part of the run's kWh
	Packs    []int32      // positions in Records.Packs
	Made     exact.Number // reconstituted amount of all its packs
}

// dry draws a run's loads and posts its costs.
func (g *Ledger) dry(i int32) {
	run, cost := &g.Records.Runs[i], &g.Runs[i]
	cost.Done, cost.Date = true, exact.DateIn(run.Start)
	g.loadUp(int(i), run, cost)
	g.power(int(i), run, cost)
	g.wear(run, cost)
	cost.Labour = g.Labour(exact.Int(int64(run.Hands / time.Second)).Over(exact.Int(3600)))
	g.Flows.Labour = g.Flows.Labour.Add(cost.Labour)
	if len(cost.Loads) == 0 {
		if len(g.x.loadsOf.of(int(i))) == 0 && !g.x.doubts.run(run.ID) {
			g.x.fail(place{RunsFile, run.Line}, "run", "add what went in to "+LoadsFile, "run %s has no load", run.ID)
		}
		return
	}
	g.shareOut(run, cost)
	g.lose(run, cost)
	g.splitOverPacks(int(i), cost)
}

// loadUp draws the food of each load.
func (g *Ledger) loadUp(i int, run *Run, cost *RunCost) {
	rows := g.x.loadsOf.of(i)
	cost.Loads = make([]LoadCost, 0, len(rows))
	for _, row := range rows {
		l := &g.Records.Loads[row]
		at := place{LoadsFile, l.Line}
		f, ok := g.x.food(at, "item", l.Item)
		if !ok {
			continue
		}
		q, ok := g.x.amount(&g.Foods[f], l.Quantity, at, "quantity")
		if !ok {
			continue
		}
		lc := LoadCost{Load: int(row), Item: cost.item(int(f)), Quantity: q}
		lc.LostPart = g.lostPart(&g.Foods[f], l, q)
		lc.Takes.From = int32(len(g.Takes))
		lc.Costs[FoodCost] = g.takeLoad(int(f), l, q, run, cost.Date)
		lc.Takes.To = int32(len(g.Takes))
		g.Flows.Food = g.Flows.Food.Add(lc.Costs[FoodCost])
		cost.Loads = append(cost.Loads, lc)
		item := &cost.Items[lc.Item]
		item.Loaded, item.LostPart = item.Loaded.Add(q), item.LostPart.Add(lc.LostPart)
	}
}

// lostPart returns how much of the q loaded was spilled or thrown away.
func (g *Ledger) lostPart(f *Food, l *Load, q exact.Number) exact.Number {
	if l.Lost.Sign() == 0 {
		return exact.Number{}
	}
	at := place{LoadsFile, l.Line}
	lost, ok := g.x.amount(f, l.Lost, at, "lost")
	if ok && q.Less(lost) {
		g.x.fail(at, "lost", "", "lost: %v is more than the %v loaded", l.Lost, l.Quantity)
	}
	return lost.Min(q)
}

// item returns the position of a food among the run's items.
func (c *RunCost) item(food int) int {
	for i := range c.Items {
		if c.Items[i].Food == food {
			return i
		}
	}
	c.Items = append(c.Items, ItemCost{Food: food})
	return len(c.Items) - 1
}

// takeLoad draws a load on its lots: those it names, or the oldest.
func (g *Ledger) takeLoad(f int, l *Load, q exact.Number, run *Run, day exact.Date) exact.Money {
	food, stock, at := &g.Foods[f], &g.foods[f], place{LoadsFile, l.Line}
	if l.Receipt == "" {
		taken, money := g.take(stock, q)
		g.short(food, q, taken, at, "quantity", "run "+run.ID, day)
		return money
	}
	if stock.pooled {
		g.x.fail(at, "receipt", "leave it blank, or set costing to fifo", "under average costing a load cannot name its lot")
		return exact.Money{}
	}
	taken, money := g.takeNamed(stock, l, q)
	if !taken.Less(q) {
		return money
	}
	name := l.Receipt
	if l.Number != "" {
		name += " line " + l.Number
	}
	if g.checkNamed(l, at, name) {
		g.short(food, q, taken, at, "quantity", "run "+run.ID+" from "+name, day)
	}
	return money
}

// takeNamed draws a load on the lots of the receipt or batch that it names.
func (g *Ledger) takeNamed(s *Stock, l *Load, q exact.Number) (taken exact.Number, cost exact.Money) {
	draw := func(lot int32) {
		if lot != noLot {
			part, money := g.takeFrom(s, lot, q.Sub(taken))
			taken, cost = taken.Add(part), cost.Add(money)
		}
	}
	if receipt, ok := g.x.receipts[l.Receipt]; ok {
		for _, row := range g.x.linesOf.of(int(receipt)) {
			if l.names(&g.Receipts[row]) {
				draw(g.lotOfRow[row])
			}
		}
	}
	if batch, ok := g.x.batches[l.Receipt]; ok && l.namesBatch(&g.Batches[batch]) {
		draw(g.lotOfBatch[batch])
	}
	return taken, cost
}

// names reports whether a load that names a receipt may draw on a line of it.
func (l *Load) names(r *ReceiptRow) bool {
	return r.Kind == FoodLine && r.Item == l.Item && (l.Number == "" || r.Number == l.Number)
}

// namesBatch reports whether a load that names a batch may draw on it.
func (l *Load) namesBatch(b *Batch) bool { return b.Item == l.Item && l.Number == "" }

// checkNamed reports whether the receipt or batch that a load names has its
// food, and notes it where it has not.
func (g *Ledger) checkNamed(l *Load, at place, name string) bool {
	receipt, bought := g.x.receipts[l.Receipt]
	batch, cooked := g.x.batches[l.Receipt]
	switch {
	case bought && slices.ContainsFunc(g.x.linesOf.of(int(receipt)), func(row int32) bool { return l.names(&g.Receipts[row]) }),
		cooked && l.namesBatch(&g.Batches[batch]):
		return true
	case !bought && !cooked:
		g.x.unknown(at, "receipt", "receipt or batch", l.Receipt, ReceiptsFile)
	case !g.x.doubts.about(ReceiptsFile, l.Receipt):
		g.x.fail(at, "receipt", "leave it blank to draw on the oldest", "receipt: %s has no %s", name, l.Item)
	}
	return false
}

// cycle gathers what is known of a run's electricity.
func (g *Ledger) cycle(i int, run *Run) energy.Cycle {
	c := energy.Cycle{Start: run.Start, End: run.End, KWh: run.KWh, Log: g.Meters[run.ID]}
	rows := g.x.phasesOf.of(i)
	if len(rows) == 0 {
		return c
	}
	c.Phases = make([]energy.Phase, len(rows))
	machine, known := g.x.machines[run.Machine]
	for j, row := range rows {
		p := &g.Records.Phases[row]
		watts := p.Watts
		if !watts.Given() && known {
			watts = g.x.wattage[machine][p.Phase]
		}
		c.Phases[j] = energy.Phase{Name: p.Phase.String(), Length: p.Length, KWh: p.KWh, Watts: watts}
	}
	return c
}

// power places a run's energy on the clock and posts what it costs.
func (g *Ledger) power(i int, run *Run, cost *RunCost) {
	draw, err := g.cycle(i, run).Resolve()
	if err != nil {
		g.powerFault(i, run, err)
		return
	}
	cost.Energy, cost.Length = draw.Energy, draw.Length
	cost.Notes = append(cost.Notes, draw.Notes...)
	tariff := g.tariffOf(run)
	if tariff == nil {
		return
	}
	if g.options.Itemize {
		cost.Phases, err = g.meter.Itemize(tariff, draw.Spans, g.places)
		for _, b := range cost.Phases {
			cost.Posted = append(cost.Posted, b.Cost)
		}
	} else {
		cost.Posted, err = g.meter.Bill(tariff, draw.Spans, g.places)
	}
	if err != nil {
		g.gapFault(run, tariff, err)
		return
	}
	for _, m := range cost.Posted {
		cost.Electricity = cost.Electricity.Add(m)
	}
	if !g.options.Itemize {
		cost.Posted = nil
	}
	g.Flows.Electricity = g.Flows.Electricity.Add(cost.Electricity)
}

// tariffOf returns a run's tariff, or nil and a fault.
func (g *Ledger) tariffOf(run *Run) *energy.Tariff {
	if run.Tariff == "" && g.Settings.Tariff == "" && !g.x.doubts.about(SettingsFile, "tariff") {
		g.x.fail(place{RunsFile, run.Line}, "tariff", "name one here, or set tariff in "+SettingsFile, "run %s has no tariff", run.ID)
	}
	return g.Tariff(run.Tariff)
}

// gapFault notes that the tariff has no price for a time of a run.
func (g *Ledger) gapFault(run *Run, t *energy.Tariff, err error) {
	if g.x.doubts.about(TariffsFile, t.Name()) || g.x.doubts.about(SettingsFile, "zone") || g.x.doubts.run(run.ID) {
		return
	}
	g.x.fail(place{RunsFile, run.Line}, "start", "add a band for it to "+TariffsFile+"; a band without months, days, start and end holds always",
		"run %s: %v", run.ID, err)
}

// powerFault notes that nothing tells what a run used.
func (g *Ledger) powerFault(i int, run *Run, err error) {
	if errors.Is(err, energy.ErrEndAndPhases) || g.x.doubts.run(run.ID) || g.x.doubts.about(WattageFile, run.Machine) {
		return // the first is noted by endOf
	}
	if phase := (*energy.PhaseError)(nil); errors.As(err, &phase) {
		p := &g.Records.Phases[g.x.phasesOf.of(i)[phase.Index]]
		g.x.fail(place{PhasesFile, p.Line}, "watts", "give its kwh or watts, or the machine's usual watts in "+WattageFile,
			"nothing says how much electricity the %v of run %s used", p.Phase, run.ID)
		return
	}
	g.x.fail(place{RunsFile, run.Line}, "kwh", "give its kwh, its phases in "+PhasesFile+", or a meter log", "run %s: %v", run.ID, err)
}

// wear draws a cycle of the machine and the supplies that every cycle takes.
func (g *Ledger) wear(run *Run, cost *RunCost) {
	m, ok := g.x.machines[run.Machine]
	if !ok {
		return
	}
	machine, stock := &g.Machines[m], &g.machines[m]
	cost.WearTakes.From = int32(len(g.Takes))
	taken, money := g.take(stock, exact.Int(1))
	cost.WearTakes.To = int32(len(g.Takes))
	cost.Wear = money
	g.Flows.Wear = g.Flows.Wear.Add(money)
	switch {
	case taken.Sign() > 0:
	case len(stock.lots) == 0:
		cost.Notes = append(cost.Notes, "no receipt has the machine "+machine.ID+" by then: no wear is counted")
	default:
		cost.Notes = append(cost.Notes, "all expected cycles of "+machine.ID+" are used up: no wear is counted")
	}
	cost.SupplyTakes.From = int32(len(g.Takes))
	var notes []string
	cost.Supplies, notes = g.takeSupplies(machine.With, exact.Int(1), place{RunsFile, run.Line}, "machine")
	cost.SupplyTakes.To = int32(len(g.Takes))
	cost.Notes = append(cost.Notes, notes...)
	g.Flows.RunSupplies = g.Flows.RunSupplies.Add(cost.Supplies)
}

// takeSupplies draws uses of supplies, times over. What lots do not cover is
// charged at the list price.
func (g *Ledger) takeSupplies(uses []Use, times exact.Number, at place, field string) (sum exact.Money, notes []string) {
	for _, u := range uses {
		if s, ok := g.x.supplies[u.Supply]; ok {
			money, note := g.takeSupply(int(s), u.Number.Mul(times), at, field)
			sum = sum.Add(money)
			if note != "" {
				notes = append(notes, note)
			}
		}
	}
	return sum, notes
}

// takeSupply draws q uses of one supply.
func (g *Ledger) takeSupply(s int, q exact.Number, at place, field string) (exact.Money, string) {
	taken, money := g.take(&g.supplies[s], q)
	rest := q.Sub(taken)
	if rest.Sign() <= 0 {
		return money, ""
	}
	supply := &g.Supplies[s]
	charge, ok := g.charge(supply, rest)
	if !ok {
		if !g.x.doubts.lots(supply.ID) {
			g.x.fail(at, field, "add its receipt, or a price in "+SuppliesFile,
				"%v uses of %s are covered by no receipt, and it has no list price", rest, supply.ID)
		}
		return money, ""
	}
	g.Takes = append(g.Takes, Take{ListPrice, rest, charge})
	g.Flows.Charges = g.Flows.Charges.Add(charge)
	return money.Add(charge), "supplies: " + rest.String() + " of " + supply.ID + " at list price, no receipt covers them"
}
