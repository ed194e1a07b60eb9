package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// weigh notes the weights of the loads, and what of them was lost.
func (f *finishing) weigh() error {
	var bad Wrongs
	for _, w := range []struct {
		column string
		texts  []string
	}{{"wet", f.in.Wet}, {"dry", f.in.Dry}, {"lost", f.in.Lost}} {
		for i, text := range w.texts {
			bad.add(w.column, i+1, f.weighOne(w.column, text))
		}
	}
	for _, load := range f.loaded() {
		bad.add("", 0, f.checkWeights(&load))
	}
	return bad.Err()
}

// loaded are the run's loads.
func (f *finishing) loaded() []ledger.Load {
	loads := f.b.Records.Loads.Only(func(l *ledger.Load) bool { return l.Run == f.run.ID })
	return loads.Slice()
}

// weighOne reads "chicken-broth 0.61 kg", or either alone where it can be meant
// in one way only.
func (f *finishing) weighOne(column, text string) error {
	words := strings.Fields(Native(f.b.Records.Settings.Locale, text))
	rest, amount := takeAmount(words)
	for n := 1; amount == "" && n < len(words); n++ { // behind the food
		if behind, a := takeAmount(words[n:]); a != "" && len(behind) == 0 {
			rest, amount = words[:n], a
		}
	}
	if amount == "" {
		return typed(text, "it says no amount: write "+f.b.part(column, f.foods()[0].ID, "0.61 kg"))
	}
	load, err := f.loadOf(text, strings.Join(rest, " "))
	if err != nil {
		return err
	}
	q, err := exact.ParseQuantity(amount)
	switch {
	case err != nil && column == "lost": // pieces
	case err != nil || column != "lost" && q.Unit().Dimension() != exact.Mass:
		return typed(text, "a weight has a unit, such as 0.61 kg or 610 g")
	}
	if f.loads[load.Line] == nil {
		f.loads[load.Line] = map[string]string{}
	}
	was := map[string]exact.Quantity{"wet": load.Wet, "dry": load.Dry, "lost": load.Lost}[column]
	if was.Given() && was.String() != amount {
		f.draft.Notes = append(f.draft.Notes, fmt.Sprintf("%s of run %s had %v %s so far: now %s.", f.title(load), f.run.ID, was, column, amount))
	}
	f.loads[load.Line][column] = amount
	return nil
}

// foods are the foods of the run, each once.
func (f *finishing) foods() (list []ledger.Named) {
	for _, item := range f.g.Runs[f.i].Items {
		food := &f.g.Foods[item.Food]
		list = append(list, ledger.Named{ID: food.ID, Name: food.Name})
	}
	return list
}

// loadOf finds the load of a food, or the only one where none is named.
func (f *finishing) loadOf(text, name string) (*ledger.Load, error) {
	foods := f.foods()
	ids := make([]string, len(foods))
	for i := range foods {
		ids[i] = foods[i].ID
	}
	id := ids[0]
	switch {
	case name == "" && len(ids) > 1:
		return nil, typed(text, fmt.Sprintf("run %s has %s: name the food too", f.run.ID, OrList(ids)))
	case name != "":
		found, ok := ledger.Meant(name, foods)
		if !ok {
			return nil, typed(text, fmt.Sprintf("run %s was not loaded with that: it has %s", f.run.ID, OrList(ids)))
		}
		id = found
	}
	loads := slices.DeleteFunc(f.loaded(), func(l ledger.Load) bool { return l.Item != id })
	if len(loads) > 1 {
		return nil, typed(text, fmt.Sprintf("run %s has several loads of %s: change one in its line, as in %s", f.run.ID, id, f.b.Records.Settings.Say(advice.Do(advice.Edit, "load", fmt.Sprintf("@%d", loads[0].Line)).Such("dry", "610 g"))))
	}
	return &loads[0], nil
}

func (f *finishing) title(load *ledger.Load) string {
	i, _ := f.g.FindFood(load.Item)
	return f.g.Foods[i].Title()
}

// now is a weight of a load as it is to be: what it was, where nothing else is said.
func (f *finishing) now(load *ledger.Load, column string, was exact.Quantity) exact.Quantity {
	text := f.loads[load.Line][column]
	if q, err := exact.ParseQuantity(text); err == nil {
		return q
	}
	if n, err := exact.ParseNumber(text); err == nil { // pieces
		return exact.NoUnit.Of(n)
	}
	return was
}

// moist reports whether by its weights a food of the run is not dry.
func (f *finishing) moist() bool {
	sums := map[string]ledger.Weighing{}
	for _, load := range f.loaded() {
		wet, dry := f.now(&load, "wet", load.Wet), f.now(&load, "dry", load.Dry)
		if w := sums[load.Item]; wet.Given() && dry.Sign() > 0 {
			w.Wet, w.Dry = w.Wet.Add(wet.Base().Number()), w.Dry.Add(dry.Base().Number())
			sums[load.Item] = w
		}
	}
	for id, w := range sums {
		food, _ := f.g.FindFood(id)
		if w, known := ledger.WeighingOf(&f.g.Foods[food], w.Wet, w.Dry); known && w.Moist() {
			return true
		}
	}
	return false
}

// checkWeights holds what is said of a load against the rest of it. Of food that
// was loaded by weight, that weight is the one before drying.
func (f *finishing) checkWeights(load *ledger.Load) error {
	cells := f.loads[load.Line]
	if cells == nil {
		return nil
	}
	if cells["dry"] != "" && cells["wet"] == "" && !load.Wet.Given() && load.Quantity.Unit().Dimension() == exact.Mass {
		cells["wet"] = load.Quantity.String()
	}
	wet, dry := f.now(load, "wet", load.Wet), f.now(load, "dry", load.Dry)
	if wet.Given() && dry.Given() && wet.Base().Number().Less(dry.Base().Number()) {
		return wrong("dry", 0, typed("", fmt.Sprintf("of %s %v dry is more than %v wet: are the two the wrong way round?", f.title(load), dry, wet)))
	}
	weighed := *load
	if weighed.Wet = wet; cells["wet"] != "" {
		if odd := report.WeightOff(&f.b.Records.Settings, &weighed); odd != "" {
			f.draft.Odd = append(f.draft.Odd, odd)
		}
	}
	// A loss may be said in another unit than the load: both are held against each other in the food's own.
	i, _ := f.g.FindFood(load.Item)
	lost, err := f.g.Foods[i].InBasis(f.now(load, "lost", load.Lost))
	loaded, _ := f.g.Foods[i].InBasis(load.Quantity)
	switch {
	case cells["lost"] == "":
	case err != nil:
		return wrong("lost", 0, typed(cells["lost"], err.Error()))
	case loaded.Less(lost):
		return wrong("lost", 0, typed("", fmt.Sprintf("%s of %s is lost, and %v was loaded: a run of which all is lost is %s", cells["lost"], f.title(load), load.Quantity, f.b.part("spoiled"))))
	}
	return nil
}
