package question

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// factWords says what figures found wrong with a decision, or missing: a
// fault of [ErrOption] or a [*MissingError].
func factWords(g *ledger.Ledger, q *figures.WorthQuery, err error) error {
	var wrong *figures.FactError
	switch {
	case !errors.As(err, &wrong):
		return err
	case wrong.Missing == nil:
		return OptionFault(report.FactName(wrong.Fact), factHint(g, wrong), "%s", report.WhyNot(g, q, wrong, Flag))
	}
	said := &MissingError{}
	for _, m := range wrong.Missing {
		said.Facts = append(said.Facts, missingWords(g, m))
	}
	if as, ok := driedAs(g, q); ok {
		said.Facts = append(said.Facts, as)
	}
	return said
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
			as = MissingFact{What: "or, dried as " + report.ItemTitle(g, b.Item) + " (in words: " + bought + " as " + b.Item + ")", Give: give("as", b.Item)}
			ok = true // the latest counts
		}
	}
	return as, ok
}

// factHint says what to do about a fact that cannot be used.
func factHint(g *ledger.Ledger, e *figures.FactError) string {
	option := func(name string, value ...string) string { return g.Settings.Say(advice.Only(name, value...)) }
	switch e.Fault {
	case figures.Unknown:
		switch e.Fact {
		case figures.MachineFact:
			return "machines are in " + ledger.MachinesFile
		case figures.TariffFact:
			return "tariffs are in " + ledger.TariffsFile
		case figures.WithFact:
			return "supplies are in " + ledger.SuppliesFile
		}
		return "foods are in " + ledger.FoodsFile
	case figures.NoBatch:
		return "give " + option("ratio") + ": what one " + g.Foods[e.Food].Basis.String() + " bought makes, such as " + option("ratio", "48 mL")
	case figures.WrongUnit:
		if e.Food < 0 {
			return "name a food with " + option("item") + ", and write the load in its unit"
		}
		food := &g.Foods[e.Food]
		if food.Basis == exact.Ea {
			return "write how many, such as 12 ea"
		}
		hint := "write it in a unit of " + food.Basis.Dimension().String()
		if errors.Is(e, ledger.ErrDensity) {
			hint += ", or record the density of " + food.Title() + " in " + ledger.FoodsFile
		}
		return hint
	case figures.NotAbove:
		return "write the price and the size of a package, such as 3.99/454g"
	case figures.TooLittle:
		return "write it as 500g"
	case figures.TooLong, figures.Negative:
		return ""
	case figures.NoDay:
		return "write it as 2025-02-28"
	case figures.SeveralNamed:
		switch e.Fact {
		case figures.KindFact:
			return "say which is meant, such as " + option("kind", e.Among[0])
		case figures.TariffFact:
			return "name one: " + strings.Join(e.Among, ", ")
		}
		return "one of: " + strings.Join(e.Among, ", ")
	case figures.Backwards:
		return "give the earlier date to " + option("from")
	case figures.Beyond:
		other := figures.FromFact
		if e.Fact == other {
			other = figures.ToFact
		}
		return "give " + option(report.FactName(other)) + " as well to see months without records"
	case figures.NoPriceAt:
		if len(e.Among) == 0 {
			return g.Settings.Say(advice.Do(advice.AddPrice)) + " notes the first price of it"
		}
		return "its shops are: " + report.Listed(e.Among)
	case figures.NoLines:
		return "only receipts have lines"
	case figures.Unpriced:
		return "name another tariff, or give " + option("rate")
	case figures.TooMany:
		return fmt.Sprintf("give a lower %s, a larger %s or a larger %s", option("limit"), option("size"), option("load"))
	case figures.Unbounded:
		return fmt.Sprintf("give %s, or how long it waits (%s or %s), or what is used in time (%s and %s)",
			option("limit"), option("fresh-days"), option("cycles"), option("use"), option("keep-months"))
	case figures.Uncountable:
		return fmt.Sprintf("give a lower %s, a larger %s or fewer %s", option("limit"), option("size"), option("cycles"))
	}
	// Faults that have no hint of their own: the fact may have one.
	switch e.Fact {
	case figures.PlanFact:
		return "leave offers out, or give limits"
	case figures.LengthFact:
		return "write it as 30h"
	}
	return ""
}

// missingWords says what is missing, and what would give it.
func missingWords(g *ledger.Ledger, m figures.Missing) MissingFact {
	say := MissingFact{What: report.Lacks(g, m), Give: give(report.FactName(m.Fact))}
	switch m.Fact {
	case figures.ShelfFact:
		say.Record = "one with " + g.Settings.Say(advice.Do(advice.AddPrice))
	case figures.LoadFact:
		say.Record = "load_volume or load_mass of the machine"
		if m.Lacks != "" {
			say.Record = "the " + m.Lacks + " of " + g.Foods[m.Food].Title() + " in " + ledger.FoodsFile
		}
	case figures.LengthFact:
		say.Record = "a run with its phases"
	case figures.EachFact:
		say.Record = "a pack of it"
	case figures.WithFact:
		say.Record, say.Give = "a pack of it", append(give("with"), give("pack-cost")...)
	case figures.PackCostFact:
		say.Record = "a receipt of it, or its price in " + ledger.SuppliesFile
	case figures.KWhFact:
		say.Record = kwhRecord(g)
	case figures.RateFact:
		say.Record, say.Give = tariffRecord(g), append(give("rate"), give("tariff")...)
	}
	return say
}

// kwhRecord is what would tell the electricity of a run. Where watts are recorded
// already, it is hours that lack.
func kwhRecord(g *ledger.Ledger) string {
	if len(g.Records.Wattage) > 0 {
		return "a run of it"
	}
	return "a run of it, or the machine's watts: " + g.Settings.Say(advice.Do(advice.AddWattage))
}

// tariffRecord is what would tell which tariff runs have.
func tariffRecord(g *ledger.Ledger) string {
	if len(g.Records.Tariffs) > 0 {
		return "which tariff runs have: " + g.Settings.Say(advice.Do(advice.Edit, "setting", "tariff", g.Records.Tariffs[0].Tariff))
	}
	return "a tariff: " + g.Settings.Say(advice.Do(advice.AddTariff))
}
