package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// factOptions are the options that give the facts of a decision.
var factOptions = [...]string{
	figures.DayFact: "as-of", figures.FoodFact: "item", figures.PriceFact: "price", figures.SizeFact: "size", figures.LimitFact: "limit",
	figures.ShelfFact: "shelf", figures.AsFact: "as", figures.RatioFact: "ratio", figures.YieldFact: "yield", figures.FreshFact: "fresh",
	figures.FreshDaysFact: "fresh-days", figures.UseFact: "use", figures.KeepMonthsFact: "keep-months", figures.StockFact: "stock",
	figures.MachineFact: "machine", figures.LoadFact: "load", figures.LengthFact: "cycle-hours", figures.TurnaroundFact: "turnaround",
	figures.StartFact: "start", figures.CyclesFact: "cycles", figures.KWhFact: "kwh", figures.RateFact: "rate", figures.TariffFact: "tariff",
	figures.WearFact: "wear", figures.EachFact: "each", figures.WithFact: "with", figures.PackCostFact: "pack-cost", figures.PlanFact: "plan",
}

// factWords says what figures found wrong with a question, or missing: a
// [*QueryError] or a [*MissingError].
func factWords(g *ledger.Ledger, q *figures.WorthQuery, err error) error {
	var wrong *figures.FactError
	var missing *figures.MissingError
	switch {
	case errors.As(err, &wrong):
		why, hint := faultWords(g, q, wrong)
		return &QueryError{factOptions[wrong.Fact], why, hint}
	case errors.As(err, &missing):
		said := &MissingError{}
		for _, m := range missing.Facts {
			said.Facts = append(said.Facts, missingWords(g, m))
		}
		if as, ok := driedAs(g, q); ok {
			said.Facts = append(said.Facts, as)
		}
		return said
	}
	return err
}

// driedAs says of a food that batches turned into another that it may be dried
// as that.
func driedAs(g *ledger.Ledger, q *figures.WorthQuery) (as MissingFact, ok bool) {
	bought, known := ledger.Meant(q.Item, g.Records.NamedFoods())
	if !known || q.As != "" {
		return as, false
	}
	for i := range g.Records.Batches {
		b := &g.Records.Batches[i]
		if slices.ContainsFunc(b.From, func(p ledger.Part) bool { return p.Item == bought }) {
			as = MissingFact{What: "or, dried as " + itemTitle(g, b.Item), Flag: "--as " + b.Item}
			ok = true // the latest counts
		}
	}
	return as, ok
}

// faultWords says why a fact cannot be used, and what to do.
func faultWords(g *ledger.Ledger, q *figures.WorthQuery, e *figures.FactError) (why, hint string) {
	switch e.Fault {
	case figures.Unknown:
		return unknownWords(e)
	case figures.NoBatch:
		bought := &g.Foods[e.Food]
		made, _ := ledger.Meant(q.As, g.Records.NamedFoods())
		return fmt.Sprintf("no batch makes %s from %s", itemTitle(g, made), bought.Title()),
			"give --ratio: what one " + bought.Basis.String() + " bought makes, such as --ratio \"48 mL\""
	case figures.WrongUnit:
		food := &g.Foods[e.Food]
		return e.Err.Error(), "write it in a unit of " + food.Basis.Dimension().String() + ", or record the density of " + food.Title() + " in " + ledger.FoodsFile
	case figures.NotAbove:
		return q.ShelfSize.String() + " is not above 0", "write the price and the size of a package, such as 3.99/454g"
	case figures.TooLittle:
		return q.Size.String() + " is too little to count", "write it as 500g"
	case figures.TooLong:
		return fmt.Sprintf("%d days is more than %d", e.Count, figures.MostDays), ""
	case figures.NoDay:
		return "a ledger without dates needs the day of purchase", "write it as 2025-02-28"
	case figures.SeveralNamed:
		var names []string
		for i := range g.Machines {
			names = append(names, g.Machines[i].ID)
		}
		return fmt.Sprintf("a plan is for one machine, and there are %d", e.Count), "one of: " + strings.Join(names, ", ")
	case figures.Unpriced:
		what := fmt.Sprintf("run %d", e.Count)
		if e.Name != "" {
			what = "the runs of " + e.Name
		}
		return fmt.Sprintf("pricing %s: %v", what, e.Err), "name another tariff, or give --rate"
	case figures.TooMany, figures.Unbounded, figures.Uncountable:
		return countWords(e)
	}
	return possibleWords(g, q, e)
}

// unknownWords says what there is no record of.
func unknownWords(e *figures.FactError) (why, hint string) {
	what, file := "food", ledger.FoodsFile
	switch e.Fact {
	case figures.MachineFact:
		what, file = "machine", ledger.MachinesFile
	case figures.TariffFact:
		what, file = "tariff", ledger.TariffsFile
	case figures.WithFact:
		what, file = "supply", ledger.SuppliesFile
	}
	plural := map[string]string{"supply": "supplies"}[what]
	if plural == "" {
		plural = what + "s"
	}
	return fmt.Sprintf("no %s is called %s", what, exact.Quote(e.Name)), plural + " are in " + file
}

// countWords says why no number of packages can be told.
func countWords(e *figures.FactError) (why, hint string) {
	switch e.Fault {
	case figures.TooMany:
		return fmt.Sprintf("it would be %d packages, and more than %d of them or %d runs are not counted", e.Count, figures.MostPackages, figures.MostCycles),
			"give a lower --limit, a larger --size or a larger --load"
	case figures.Unbounded:
		return "nothing says how many packages could be bought or dried",
			"give --limit, or how long it waits (--fresh-days or --cycles), or what is used in time (--use and --keep-months)"
	}
	return "there are too many packages, or ways to divide them among visits, to try them all",
		"give a lower --limit, a larger --size or fewer --cycles"
}

// possibleWords says what is not possible.
func possibleWords(g *ledger.Ledger, q *figures.WorthQuery, e *figures.FactError) (why, hint string) {
	why = factWords(g, q, e.Err).Error()
	switch e.Fact {
	case figures.PlanFact:
		hint = "leave offers out, or give limits"
	case figures.LengthFact:
		hint = "write it as 30h"
	}
	return why, hint
}

// missingWords says what is missing, and what would give it.
func missingWords(g *ledger.Ledger, m figures.Missing) MissingFact {
	say := MissingFact{Flag: "--" + factOptions[m.Fact]}
	switch m.Fact {
	case figures.PriceFact:
		say.What = "the price of a package"
	case figures.SizeFact:
		say.What = "the size of a package"
	case figures.ShelfFact:
		say.What, say.Record = "the shelf price of "+g.Foods[m.Food].Title(), "one with putby price add"
	case figures.LoadFact:
		say.What, say.Record = "the most that a run takes", "load_volume or load_mass of the machine"
		if m.Lacks != "" {
			say.Record = "the " + m.Lacks + " of " + g.Foods[m.Food].Title() + " in " + ledger.FoodsFile
		}
	case figures.LengthFact:
		say.What, say.Record = "how long a run takes", "a run with its phases"
	case figures.EachFact:
		say.What, say.Record = "what a container gives", "a pack of it"
	case figures.WithFact:
		say.What, say.Record = "what goes into a container", "a pack of it"
		say.Flag = "--with or --pack-cost"
	case figures.PackCostFact:
		say.What, say.Record = "what "+itemTitle(g, m.Supply)+" costs", "a receipt of it, or its price in "+ledger.SuppliesFile
	case figures.KWhFact:
		say.What, say.Record = "the electricity of a run", "a run of it, or the machine's watts in "+ledger.WattageFile
	case figures.RateFact:
		say.What, say.Record = "what a kWh costs", "a tariff, and its name in "+ledger.SettingsFile
		say.Flag = "--rate or --tariff"
	}
	return say
}
