package report

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

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
	figures.FromFact: "from", figures.ToFact: "to", figures.SoonFact: "soon", figures.ShopFact: "shop", figures.KindFact: "kind", figures.LineFact: "line",
}

// FactName is the name of a fact as a part of a question.
func FactName(f figures.Fact) string { return factNames[f] }

// WhyNot says why a fact of a question cannot be used; q is what was asked of a
// decision.
func WhyNot(g *ledger.Ledger, q *figures.WorthQuery, e *figures.FactError, names Names) string {
	switch e.Fault {
	case figures.Unknown:
		return fmt.Sprintf("no %s is called %s", kindOf(e.Fact), exact.Quote(e.Name))
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
		return whichOf(e)
	case figures.Negative:
		return fmt.Sprintf("%d days are below 0", e.Count)
	case figures.Backwards:
		return fmt.Sprintf("%v is before %s %v", e.Day, names.of(FactName(figures.FromFact)), e.Than)
	case figures.Beyond:
		if e.Day > e.Than {
			return fmt.Sprintf("%v is after the last record that moves money, of %v", e.Day, e.Than)
		}
		return fmt.Sprintf("%v is before the first record that moves money, of %v", e.Day, e.Than)
	case figures.NoPriceAt:
		return fmt.Sprintf("no price of %s at %s is recorded", g.Foods[e.Food].ID, exact.Quote(e.Name))
	case figures.NoLines:
		return fmt.Sprintf("%s is a %s, and has no lines", exact.Quote(e.Name), e.Among[0])
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
		return WhyNot(g, q, inner, names)
	}
	return e.Err.Error()
}

// whichOf says that one of several has to be named.
func whichOf(e *figures.FactError) string {
	switch e.Fact {
	case figures.KindFact:
		return exact.Quote(e.Name) + " is a " + strings.Join(e.Among, " and a ")
	case figures.TariffFact:
		return "there are several, and " + ledger.SettingsFile + " names none"
	}
	return fmt.Sprintf("a plan is for one machine, and there are %d", len(e.Among))
}

// kindOf is the kind of record that a fact names.
func kindOf(f figures.Fact) string {
	return cmp.Or(map[figures.Fact]string{figures.MachineFact: "machine", figures.TariffFact: "tariff", figures.WithFact: "supply"}[f], "food")
}

// Lacks says what a question lacks.
func Lacks(g *ledger.Ledger, m figures.Missing) string {
	switch m.Fact {
	case figures.ShelfFact:
		return "the shelf price of " + g.Foods[m.Food].Title()
	case figures.PackCostFact:
		return "what " + ItemTitle(g, m.Supply) + " costs"
	}
	return lackingFacts[m.Fact]
}

var lackingFacts = [len(factNames)]string{
	figures.PriceFact: "the price of a package", figures.SizeFact: "the size of a package",
	figures.LoadFact: "the most that a run takes", figures.LengthFact: "how long a run takes",
	figures.EachFact: "what a container gives", figures.WithFact: "what goes into a container",
	figures.KWhFact: "the electricity of a run", figures.RateFact: "what a kWh costs", figures.TariffFact: "what a kWh costs",
}
