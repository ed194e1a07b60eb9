package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Dryer is a machine as the ledger knows it, and the food that it is to dry.
type Dryer struct {
	g       *ledger.Ledger
	Food    int   // position in Foods
	Machine int   // position in Machines; -1: none
	Runs    []int // the food's good runs on it, else all good ones: they tell what is usual
}

// DryerOf takes the machine named, else that of the food's last run, else the
// first one. The error is a [*FactError].
func DryerOf(g *ledger.Ledger, name string, food int) (Dryer, error) {
	d := Dryer{g: g, Food: food, Machine: lastMachine(g, food)}
	if d.Machine < 0 {
		d.Machine = min(len(g.Machines)-1, 0)
	}
	if name != "" {
		i, ok := g.FindMachine(name)
		if !ok {
			d.Machine = -1
			return d, &FactError{Fact: MachineFact, Fault: Unknown, Name: name}
		}
		d.Machine = i
	}
	if d.Runs = d.RunsOf(food); len(d.Runs) == 0 {
		d.Runs = d.RunsOf(-1)
	}
	return d, nil
}

// lastMachine is that of a food's latest run; -1 where it was never in one.
func lastMachine(g *ledger.Ledger, food int) int {
	for _, i := range slices.Backward(g.ByStart()) {
		if g.Runs[i].Done && g.Runs[i].Loaded(food) {
			m, _ := g.FindMachine(g.Records.Runs[i].Machine)
			return m
		}
	}
	return -1
}

// AllRuns are the machine's runs, good or not.
func (d Dryer) AllRuns() (list []int) {
	for i := range d.g.Runs {
		if d.g.Runs[i].Done && d.Machine >= 0 && d.g.Records.Runs[i].Machine == d.g.Machines[d.Machine].ID {
			list = append(list, i)
		}
	}
	return list
}

// RunsOf are the finished good runs on the machine that dried a food, -1 being any,
// and tell what is usual: without those that took no time, or less than a tenth of
// the machine's median, since their times cannot be right.
func (d Dryer) RunsOf(food int) []int {
	good := slices.DeleteFunc(d.AllRuns(), func(i int) bool { return !d.g.Records.Runs[i].Good() })
	least := d.leastLength(good)
	return slices.DeleteFunc(good, func(i int) bool {
		length, known := d.g.Runs[i].Length.Get()
		return known && (length <= 0 || length < least) || food >= 0 && !d.g.Runs[i].Loaded(food)
	})
}

// leastLength is a tenth of the median length of runs; 0 where none can be shorter.
func (d Dryer) leastLength(runs []int) time.Duration {
	lengths := d.lengthsOf(runs)
	if len(lengths) == 0 || slices.Min(lengths) >= slices.Max(lengths)/10 {
		return 0
	}
	median, _ := medianTime(lengths)
	return median / 10
}

// lengthsOf are the lengths above 0 of runs that have one.
func (d Dryer) lengthsOf(runs []int) (list []time.Duration) {
	for _, i := range runs {
		if length, ok := d.g.Runs[i].Length.Get(); ok && length > 0 {
			list = append(list, length)
		}
	}
	return list
}

// A Load is the most of a food that a cycle takes.
type Load struct {
	Most   exact.Number         // in the food's basis unit, above 0
	Passed []ledger.PassedLimit // limits of the machine that the food cannot be held to
}

// Load finds it by the machine's limits. The error is a [*MissingError].
func (d Dryer) Load() (l Load, err error) {
	need := Missing{Fact: LoadFact, Food: d.Food}
	if d.Machine < 0 {
		return l, lack(need)
	}
	capacity := d.g.Machines[d.Machine].Capacity(&d.g.Foods[d.Food])
	l.Passed = capacity.Passed
	for _, p := range l.Passed {
		need.Lacks = p.Lacks
	}
	var known bool
	if l.Most, known = capacity.Most.Get(); !known {
		return l, lack(need)
	}
	return l, nil
}

// A Length is how long a cycle takes.
type Length struct {
	Time     time.Duration // 0: nothing tells
	OfOthers bool          // no run of the food tells, only the machine's other runs
}

// Length is the median of the food's good runs on the machine, else of all of
// the machine's; or what is given.
func (d Dryer) Length(given exact.Opt[time.Duration]) Length {
	if t, ok := given.Get(); ok {
		return Length{Time: t}
	}
	if t, ok := medianTime(d.lengthsOf(d.RunsOf(d.Food))); ok {
		return Length{Time: t}
	}
	t, ok := medianTime(d.lengthsOf(d.RunsOf(-1)))
	return Length{t, ok}
}

// needed is the error of a length that nothing tells, where something depends
// on it.
func (l Length) needed(food int) error {
	if l.Time > 0 {
		return nil
	}
	return lack(Missing{Fact: LengthFact, Food: food})
}

// medianTime is the middle of a list, which it sorts.
func medianTime(list []time.Duration) (time.Duration, bool) {
	if len(list) == 0 {
		return 0, false
	}
	slices.Sort(list)
	n := len(list)
	return (list[(n-1)/2] + list[n/2]) / 2, true
}

// A CycleCost is what a cycle costs beside food and electricity.
type CycleCost struct {
	Supplies, Wear, Labour exact.Money // 0 for those that the question leaves out
	Unworn                 bool        // no wear is counted: no machine is recorded, or none of its cycles is left
	Notes                  []SupplyNote
}

// Total is all of it.
func (c *CycleCost) Total() exact.Money { return c.Supplies.Add(c.Wear).Add(c.Labour) }

// CycleCost finds it: the wear of the machine's next cycle, what the machine
// draws, and the median hands-on time of its runs at the value of an hour.
func (d Dryer) CycleCost(q *WorthQuery) (c CycleCost) {
	if !slices.Contains(q.Without, ledger.WearCost) {
		wear, given := q.Wear.Get()
		switch {
		case given:
			c.Wear = post(d.g, wear.Ratio())
		case d.Machine < 0:
			c.Unworn = true
		default:
			var left bool
			c.Wear, left = d.g.NextCycle(d.Machine)
			c.Unworn = !left
		}
	}
	if !slices.Contains(q.Without, ledger.SuppliesCost) && d.Machine >= 0 {
		c.Supplies, c.Notes = suppliesCost(d.g, d.g.Machines[d.Machine].With, 1)
	}
	if !slices.Contains(q.Without, ledger.LabourCost) {
		c.Labour = d.labour(q.Hands)
	}
	return c
}

func (d Dryer) labour(given exact.Opt[time.Duration]) exact.Money {
	hands, ok := given.Get()
	if !ok {
		var list []time.Duration
		for _, i := range d.Runs {
			list = append(list, d.g.Records.Runs[i].Hands)
		}
		hands, _ = medianTime(list)
	}
	return d.g.Labour(exact.Int(int64(hands / time.Second)).Over(exact.Int(3600)))
}

// post rounds an amount as the ledger posts it.
func post(g *ledger.Ledger, r exact.Ratio) exact.Money {
	return exact.MoneyOf(r.Round(g.Places(), exact.HalfEven))
}
