package figures

import (
	"putby/pricing/exact"
)

// A CompareAnswer is what foods side by side come to in a sentence. Foods are
// positions in the result's Foods.
type CompareAnswer struct {
	Priced int   // foods that have a shelf price
	Stop   []int // that cost more than the shelf asks even without wear and labour
	Dear   []int // others that cost more than the shelf asks
	Best   int   // that earns most per run; -1: none earns anything
	PerRun exact.Ratio
}

// Answer says which foods lose and which earns most.
func (c *CompareResult) Answer() CompareAnswer {
	a := CompareAnswer{Best: -1}
	for i := range c.Foods {
		f := &c.Foods[i]
		if earns, ok := f.Measure(EarnedPerRun).Get(); ok && earns.Sign() > 0 && (a.Best < 0 || earns.Cmp(a.PerRun) > 0) {
			a.Best, a.PerRun = i, earns
		}
		saving, ok := f.SavingPerUnit().Get()
		if !ok {
			continue
		}
		a.Priced++
		if saving.Sign() >= 0 {
			continue
		}
		wear, labour := f.Measure(WearPerUnit).Or(exact.Ratio{}), f.Measure(LabourPerUnit).Or(exact.Ratio{})
		if saving.Add(wear).Add(labour).Sign() < 0 {
			a.Stop = append(a.Stop, i)
		} else {
			a.Dear = append(a.Dear, i)
		}
	}
	return a
}
