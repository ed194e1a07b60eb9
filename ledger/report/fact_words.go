package report

import (
	"errors"
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// Names say how a reader is told the name of a part of a question, such as
// "start-between": on a command line by its flag, in a form by its label. Without
// them the part's own name stands.
type Names func(part string) string

func (n Names) of(part string) string {
	if n == nil {
		return part
	}
	return n(part)
}

// factNames are the facts of a decision as parts of a question.
var factNames = [...]string{
	figures.DayFact: "as-of", figures.FoodFact: "item", figures.PriceFact: "price", figures.SizeFact: "size", figures.LimitFact: "limit",
	figures.ShelfFact: "shelf", figures.AsFact: "as", figures.RatioFact: "ratio", figures.YieldFact: "yield", figures.FreshFact: "fresh",
	figures.FreshDaysFact: "fresh-days", figures.UseFact: "use", figures.KeepMonthsFact: "keep-months", figures.StockFact: "stock",
	figures.MachineFact: "machine", figures.LoadFact: "load", figures.LengthFact: "cycle-hours", figures.TurnaroundFact: "turnaround",
	figures.StartFact: "start", figures.CyclesFact: "cycles", figures.KWhFact: "kwh", figures.RateFact: "rate", figures.TariffFact: "tariff",
	figures.WearFact: "wear", figures.EachFact: "each", figures.WithFact: "with", figures.PackCostFact: "pack-cost", figures.PlanFact: "plan",
}

// FactName is the name of a fact as a part of a question.
func FactName(f figures.Fact) string { return factNames[f] }

// WhyNot says why a fact of a question cannot be used.
func WhyNot(g *ledger.Ledger, q *figures.WorthQuery, e *figures.FactError) string {
	switch e.Fault {
	case figures.Unknown:
		return fmt.Sprintf("no %s is called %s", RecordOf(e.Fact), exact.Quote(e.Name))
	case figures.NoBatch:
		made, _ := ledger.Meant(q.As, g.Records.NamedFoods())
		return fmt.Sprintf("no batch makes %s from %s", ItemTitle(g, made), g.Foods[e.Food].Title())
	case figures.WrongUnit:
		return e.Err.Error()
	case figures.NotAbove:
		return q.ShelfSize.String() + " is not above 0"
	case figures.TooLittle:
		return q.Size.String() + " is too little to count"
	case figures.TooLong:
		return fmt.Sprintf("%d days is more than %d", e.Count, figures.MostDays)
	case figures.NoDay:
		return "a ledger without dates needs the day of purchase"
	case figures.SeveralNamed:
		return fmt.Sprintf("a plan is for one machine, and there are %d", e.Count)
	case figures.Unpriced:
		what := fmt.Sprintf("run %d", e.Count)
		if e.Name != "" {
			what = "the runs of " + e.Name
		}
		return fmt.Sprintf("pricing %s: %v", what, e.Err)
	case figures.TooMany:
		return fmt.Sprintf("it would be %d packages, and more than %d of them or %d runs are not counted", e.Count, figures.MostPackages, figures.MostCycles)
	case figures.Unbounded:
		return "nothing says how many packages could be bought or dried"
	case figures.Uncountable:
		return "there are too many packages, or ways to divide them among visits, to try them all"
	}
	if inner := (*figures.FactError)(nil); errors.As(e.Err, &inner) {
		return WhyNot(g, q, inner)
	}
	return e.Err.Error()
}

// RecordOf is the kind of record that a fact names.
func RecordOf(f figures.Fact) string {
	switch f {
	case figures.MachineFact:
		return "machine"
	case figures.TariffFact:
		return "tariff"
	case figures.WithFact:
		return "supply"
	}
	return "food"
}

// Lacks says what a question lacks.
func Lacks(g *ledger.Ledger, m figures.Missing) string {
	switch m.Fact {
	case figures.PriceFact:
		return "the price of a package"
	case figures.SizeFact:
		return "the size of a package"
	case figures.ShelfFact:
		return "the shelf price of " + g.Foods[m.Food].Title()
	case figures.LoadFact:
		return "the most that a run takes"
	case figures.LengthFact:
		return "how long a run takes"
	case figures.EachFact:
		return "what a container gives"
	case figures.WithFact:
		return "what goes into a container"
	case figures.PackCostFact:
		return "what " + ItemTitle(g, m.Supply) + " costs"
	case figures.KWhFact:
		return "the electricity of a run"
	case figures.RateFact, figures.TariffFact:
		return "what a kWh costs"
	}
	return ""
}
