package figures

import (
	"putby/pricing/exact"
)

// A CompareAnswer is what foods side by side come to in a sentence. Foods are
// positions in the result's Foods.
type CompareAnswer struct {
	Priced int         // foods that have a shelf price
	Stop   []int       // that cost more than the shelf asks even without wear and labour
	Dear   []int       // others that cost more than the shelf asks
	Above  []int       // that cost more than what batches took for them, where no shop's price is known
	Lossy  int         // that saves most per unit, where none earns anything since so much was lost; -1: none
	Best   int         // that earns most per run; -1: none earns anything
	PerRun exact.Ratio // money that Best earns per whole run; 0 where there is no Best
	Part   int         // that earned more than Best for its part of a run, and never filled one; -1: none
	Of     exact.Ratio // whole runs that Best was in: less than 1 only where no food of a whole run earns anything
}

// Answer says which foods lose and which earns most.
func (c *CompareResult) Answer() CompareAnswer {
	a := CompareAnswer{Best: -1, Part: -1, Lossy: -1}
	var most exact.Ratio
	for i := range c.Foods {
		f := &c.Foods[i]
		earns, used := f.Measure(EarnedPerRun).Get()
		if used && earns.Sign() > 0 && a.lessThan(earns, f.Earned.Whole) {
			a.Best, a.PerRun, a.Of = i, earns, f.Earned.Whole
		}
		saving, ok := f.SavingPerUnit().Get()
		if !ok {
			continue
		}
		a.Priced++
		if saving.Sign() >= 0 {
			if used && earns.Sign() < 0 && saving.Cmp(most) > 0 {
				a.Lossy, most = i, saving
			}
			continue
		}
		if f.OfBatch {
			a.Above = append(a.Above, i)
			continue
		}
		// The machine is paid for and the work is the household's own: who counts neither may go
		// on with what is dear, but what loses even so is to be stopped.
		wear, labour := f.Measure(WearPerUnit).Or(exact.Ratio{}), f.Measure(LabourPerUnit).Or(exact.Ratio{})
		if saving.Add(wear).Add(labour).Sign() < 0 {
			a.Stop = append(a.Stop, i)
		} else {
			a.Dear = append(a.Dear, i)
		}
	}
	if a.Best >= 0 {
		a.Lossy = -1
		a.Part = c.inPart(a.PerRun)
	}
	return a
}

// inPart is the food that earned most of those that earned more a run than so much; -1: none.
func (c *CompareResult) inPart(perRun exact.Ratio) int {
	most := -1
	for i := range c.Foods {
		if earns, ok := c.Foods[i].Measure(EarnedPerRun).Get(); ok && earns.Cmp(perRun) > 0 {
			most, perRun = i, earns
		}
	}
	return most
}

// lessThan reports whether a food that earns so much a run, in so many whole runs,
// earns more than the best so far. What part of a run earned is no measure of a whole
// one beside foods that filled one.
func (a *CompareAnswer) lessThan(earns, runs exact.Ratio) bool {
	if a.Best < 0 {
		return true
	}
	if had, has := wholeRun(a.Of), wholeRun(runs); had != has {
		return has
	}
	return earns.Cmp(a.PerRun) > 0
}

func wholeRun(runs exact.Ratio) bool { return runs.Cmp(wholeRatio(1)) >= 0 }
