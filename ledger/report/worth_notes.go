package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// A factsSaid says in sentences what a decision rests on.
type factsSaid struct {
	*figures.Facts
	reporting
	noteList
	names Names
}

// notesOn are the notes on what a decision rests on, in the order in which it
// was found.
func notesOn(r reporting, f *figures.Facts, names Names) noteList {
	s := factsSaid{Facts: f, reporting: r, names: names}
	s.regular()
	s.add(r.passedOver(f)...)
	s.lengths()
	s.add(r.queueNotes([]*figures.Facts{f})...)
	s.cycles()
	return s.noteList
}

// notesOnAll are the notes on several decisions about one machine.
func notesOnAll(r reporting, list []*figures.Facts, names Names) (notes noteList) {
	notes.add(r.passedOver(list...)...)
	for _, f := range list {
		s := factsSaid{Facts: f, reporting: r, names: names}
		s.regular()
		s.lengths()
		s.cycles()
		notes.add(s.noteList...)
	}
	notes.add(r.queueNotes(list)...)
	return notes
}

// passedOver says of foods that one machine is to dry which of its limits they
// cannot be held to.
func (r reporting) passedOver(list ...*figures.Facts) (words []string) {
	type limit struct {
		machine       int // position in the ledger's machines
		column, lacks string
	}
	foods := map[limit][]string{}
	most := map[limit]exact.Quantity{}
	var limits []limit
	for _, f := range list {
		for _, p := range f.Load.Passed {
			l, food := limit{f.Dryer.Machine, p.Column, p.Lacks}, r.title(f.Dried)
			if len(foods[l]) == 0 {
				limits = append(limits, l)
			}
			most[l] = p.Most
			foods[l] = Once(foods[l], food)
		}
	}
	for _, l := range limits {
		its, is := verb(len(foods[l]), "its", "their"), verb(1+strings.Count(l.lacks, " and "), "is", "are")
		words = append(words, fmt.Sprintf("%s's limit of %s is not applied to %s: %s %s %s not recorded",
			r.g.Machines[l.machine].Title(), r.show.Measure(most[l]), Listed(foods[l]), its, l.lacks, is))
	}
	return words
}

func (s *factsSaid) regular() {
	g, food := s.g, &s.g.Foods[s.Dried]
	for _, item := range s.Regular.Unpriced {
		s.addf("batch %s took %s too, of which no shelf price is known: it is left out", g.Batches[s.Batch].ID, ItemTitle(g, item))
	}
	if s.Regular.Priced != "" {
		s.addf("%s: its shelf price is that of what batch %s took", noShopsPrice(g, s.Dried), s.Regular.Priced)
	}
	if s.Regular.Later != exact.NoDate {
		s.addf("the shelf price is of a later day, %s", s.day(s.Regular.Later))
	}
	if s.Batch < 0 {
		return
	}
	batch, bought := g.Batches[s.Batch].ID, &g.Foods[s.Bought]
	made := s.Ratio.Round(exact.QuantityPlaces, exact.HalfEven)
	s.addf("1 %v of %s makes %s of %s, as in batch %s", bought.Basis, bought.Title(), s.amount(made, food.Basis), food.Title(), batch)
	if s.Regular.Rest.Sign() > 0 {
		s.addf("what else batch %s took counts as food, at shelf prices: %s", batch, s.price(s.Regular.Rest, food.Basis))
	}
}

func (s *factsSaid) lengths() {
	food := &s.g.Foods[s.Dried]
	if s.Length.OfOthers {
		s.addf("no good run of %s tells how long a run takes: the median of all is taken", food.Title())
	}
	if s.Yield.Taken {
		s.addf("no run of %s is packed yet: all that is dried is taken to come back (%s)", food.Title(), s.names.given(figures.YieldFact))
	}
}

func (s *factsSaid) cycles() {
	s.freshness()
	s.use()
	s.costs()
	s.add(energyNotes(s.title(s.Dried)+" alone"+s.where("in", s.Dryer.Machine), &s.Energy)...)
}

// given names the part of the question that gives a fact.
func (n Names) given(f figures.Fact) string { return n.of(factNames[f]) }

func (s *factsSaid) freshness() {
	if s.Query.Cycles.Given() {
		return
	}
	bought := s.title(s.Bought)
	if s.Freshness.Unknown {
		column := "fresh_days"
		if s.Query.Frozen {
			column = "frozen_days"
		}
		s.addf("%s has no %s: nothing says how long it waits, so that sets no limit (%s, %s)", bought, column, s.names.given(figures.FreshDaysFact), s.names.given(figures.CyclesFact))
	}
	if s.Freshness.Longer > 0 {
		s.addf("%s keeps %s longer than %s: it is made at once", s.title(s.Dried), counted(s.Freshness.Longer, "day"), bought)
	}
}

func (s *factsSaid) use() {
	food := s.title(s.Dried)
	if !s.Use.Months.Given() {
		s.addf("%s has no keep_months: what is used in time sets no limit (%s)", food, s.names.given(figures.KeepMonthsFact))
	}
	if !s.Use.Month.Given() {
		s.addf("no pack of %s was used in the last 12 months: what is used in time sets no limit (%s)", food, s.names.given(figures.UseFact))
	}
	if !s.Use.Known() {
		return
	}
	for _, c := range s.Use.NotYetPacked {
		s.addf("%s%s of %s that %s counts as stock", about, s.amount(c.Amount, s.g.Foods[s.Dried].Basis), food, comingWords[c.From])
	}
}

// comingWords say where food is that will be packed before an offer is.
var comingWords = [...]string{
	figures.FromDried: "awaits packing", figures.FromMachine: "is in the machine", figures.FromHand: "is dried first, from what is in hand,",
}

func (s *factsSaid) costs() {
	switch {
	case s.CycleCost.Unworn && s.Dryer.Machine < 0:
		s.addf("no machine is recorded: no wear is counted (%s)", s.names.given(figures.WearFact))
	case s.CycleCost.Unworn:
		s.addf("no expected cycle of %s is left in the books: no wear is counted (%s)", s.g.Machines[s.Dryer.Machine].Title(), s.names.given(figures.WearFact))
	}
	s.noteList.supplies(s.phrasing, s.CycleCost.Notes)
}

// supplies says what to know about what supplies cost.
func (d *noteList) supplies(say phrasing, notes []figures.SupplyNote) {
	for _, n := range notes {
		switch n.Kind {
		case figures.NoSupply:
			d.addf("no supply is called %s: it is left out", exact.Quote(n.Supply))
		case figures.SupplyUnpriced:
			d.addf("%s has no receipt and no list price: it is left out", n.Supply)
		case figures.AtNewest:
			d.addf("%s of the %s uses of %s are not in hand: they are charged at what the newest cost", say.number(n.Rest), say.number(n.Wanted), n.Supply)
		default:
			d.add(n.Stated)
		}
	}
}

// energyNotes says what the electricity of a cycle rests on where no run of what it
// would dry tells.
func energyNotes(what string, e *figures.CycleEnergy) []string {
	var d noteList
	switch {
	case !e.OfOthers:
	case e.Basis == figures.ByMean:
		d.addf("no run of %s tells its electricity: the mean of the machine's %s is taken", what, counted(e.Runs, "other run"))
	default:
		d.addf("no run of %s tells its electricity: the machine's usual watts are taken", what)
		if e.Unphased {
			d.addf("no good run of the machine tells the phases of a run: all of it is taken at the watts of primary drying")
		}
	}
	return d
}

// notes are those of an answer.
func (a *answer) notes() []string {
	notes := notesOn(a.reporting, a.Facts, a.names)
	notes.add(a.comesBack()...)
	notes.add(a.usedAMonth()...)
	notes.add(a.roomBefore()...)
	notes.add(a.tooLate()...)
	notes.add(a.priced()...)
	if a.HoursGuessed(a.Best, a.Shown, a.Row(a.Most)) {
		notes.add(hourlyRemark(a.g, a.Price.Tariff.Name(), a.Queue.Free))
	}
	notes.supplies(a.phrasing, a.Packed)
	if a.Energy.Estimated() && !a.Energy.Spread() && a.Shown.Cycles > 0 {
		notes.addf("how much the electricity differs from run to run is not known: it takes two runs of %s alone%s to tell", a.title(a.Dried), a.where("in", a.Dryer.Machine))
	}
	notes.add(a.leftOutWays()...)
	if a.BeyondSeen() {
		least, most, _ := a.Energy.Loads()
		round := func(r exact.Ratio) string {
			return a.amount(r.Round(exact.QuantityPlaces, exact.HalfEven), a.unit())
		}
		notes.addf("the runs that tell the electricity had loads from %s to %s: beyond them it is less sure", round(least), round(most))
	}
	if a.NotSought > 0 {
		notes.addf("whether more packages than %d would be the answer is not looked for", a.NotSought)
	}
	return notes
}

// priced says from when on the runs are priced, where the hour may change what they
// cost: an offer has no hour, so they begin with the day, or once the machine is free.
func (a *answer) priced() (notes noteList) {
	t := a.Price.Tariff
	if a.Queue.Asked || a.Shown.Cycles == 0 || t == nil || len(t.Bands()) == 1 && !t.IsHourly() {
		return nil
	}
	notes.addf("electricity is that of %s begun on %s (%s): at other hours it may cost more or less",
		verb(a.Shown.Cycles, "a run", "runs one after the other, the first"), a.moment(a.Queue.Free), a.names.given(figures.StartFact))
	return notes
}

// comesBack says how much of what goes in comes back, where runs tell that it is less
// or more: the value is of what comes back.
func (a *answer) comesBack() []string {
	n := len(a.Yield.Runs)
	if n == 0 || a.Yield.Ratio.Equal(exact.RatioOf(exact.Int(1))) {
		return nil
	}
	as := counted(n, "run")
	if n == 1 {
		as = a.g.Records.Runs[a.Yield.Runs[0]].ID
	}
	unit := a.show.In(a.unit())
	return []string{fmt.Sprintf("of 1 %v of %s that goes in, %s %v comes back, as in %s (%s)", unit, a.title(a.Dried),
		a.number(a.Yield.Ratio.Round(3, exact.HalfAway)), unit, as, a.names.given(figures.YieldFact))}
}

// usedAMonth says how much is taken to be used, where that keeps the answer from
// being more.
func (a *answer) usedAMonth() []string {
	month, known := a.Use.Month.Get()
	if !known || a.Query.Use.Given() || !a.LittleUse && !slices.Contains(a.Binding(), pricing.UseLimit) {
		return nil
	}
	amounts := a.show.Amounts(a.unit(), month.Round(exact.QuantityPlaces, exact.HalfEven), a.Use.Used)
	months := "the last 12 months"
	if a.Use.Over < 12 {
		months = counted(a.Use.Over, "calendar month") + ", counted from that of its first pack"
	}
	return []string{fmt.Sprintf("%s%s of %s is used a month: %s in %s (%s)", about, amounts[0], a.title(a.Dried), amounts[1], months, a.names.given(figures.UseFact))}
}

// basisWords are what machines get for what a cycle's energy comes from.
var basisWords = [...]string{figures.Given: "given", figures.ByLine: "line", figures.ByMean: "mean", figures.ByWattage: "wattage"}

func basisValue(b figures.Basis) Value { return textOrNone(basisWords[b]) }
