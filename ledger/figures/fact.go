package figures

import (
	"fmt"
	"slices"

	"putby/pricing/exact"
)

// A Fact is one thing that a decision rests on: a query can give it, and most
// can come from the ledger instead.
type Fact uint8

// The facts.
const (
	DayFact        Fact = iota // the day of purchase
	FoodFact                   // the food bought
	PriceFact                  // of a package
	SizeFact                   // of a package
	LimitFact                  // packages that the shop sells
	ShelfFact                  // the regular price
	AsFact                     // the food that it is dried as
	RatioFact                  // what a unit bought makes of that
	YieldFact                  // reconstituted of what is loaded
	FreshFact                  // eaten fresh
	FreshDaysFact              // before it turns
	UseFact                    // a month
	KeepMonthsFact             // once packed
	StockFact                  // in store already
	MachineFact
	LoadFact       // most per cycle
	LengthFact     // of a cycle
	TurnaroundFact // between two cycles
	StartFact      // of the first cycle
	CyclesFact     // before it turns
	KWhFact        // of a cycle
	RateFact       // what a kWh costs, by a tariff or without
	TariffFact
	WearFact // of a cycle
	EachFact // what a container gives
	WithFact // what goes into a container
	PackCostFact
	PlanFact // several offers together
	FromFact // the first day shown
	ToFact   // the last one
	SoonFact // days within which something is due
	ShopFact
	KindFact // of what is traced
	LineFact // of a receipt that is traced
)

// A Fault says why a fact cannot be used.
type Fault uint8

// The faults. Beside each stands what else a [FactError] of it holds.
const (
	Unknown      Fault = iota // Name: there is no such record
	NoBatch                   // no batch makes the one food from the other
	WrongUnit                 // Food, or -1 where none was named, Err: an amount that does not fit the food
	NotAbove                  // nothing, where it must be something
	TooLittle                 // less than can be counted
	TooLong                   // Count: days, more than [MostDays]
	TooMany                   // Count: packages, more than [MostPackages] or [MostCycles]
	Unpriced                  // Count: the cycle, from 1, or Name: the food whose cycles; Err
	Unbounded                 // nothing says how many packages
	Uncountable               // too many packages, or ways to divide them
	NotPossible               // Err
	NoDay                     // a ledger without dates
	SeveralNamed              // Among: of which one must be named
	Negative                  // Count: days below 0
	Backwards                 // Day: the last one, before the first, Than
	Beyond                    // Day: after the last record that moves money, of Than, or before the first
	NoPriceAt                 // Food, Name: a shop; Among: those that have a price of it
	NoLines                   // Name: of what is no receipt, but an Among[0]
)

// A FactError says that a fact cannot be used, and why, or which facts are missing: as
// figures have no words, a question says it by its options, and a report in words.
type FactError struct {
	Fact  Fact
	Fault Fault
	Food  int // position in Foods
	Count int // as the Fault says; else 0
	Name  string
	Among []string
	Day   exact.Date // as the Fault says; else NoDate
	Than  exact.Date // Day is before or after it
	Err   error

	Missing []Missing // all facts that the question lacks; nothing else is given then
}

// Error says so for whoever debugs: people are told in words of their own.
func (e *FactError) Error() string {
	if e.Missing != nil {
		return fmt.Sprintf("%d facts are missing", len(e.Missing))
	}
	return fmt.Sprintf("fact %d cannot be used (%d, %d, %s): %v", e.Fact, e.Fault, e.Count, e.Name, e.Err)
}

// Unwrap returns what was met.
func (e *FactError) Unwrap() error { return e.Err }

// A Missing is a fact that neither the query nor the ledger gives.
type Missing struct {
	Fact   Fact
	Food   int    // that it is about; position in Foods
	Lacks  string // LoadFact: the food's columns that would convert the machine's limit; may be empty
	Supply string // PackCostFact: the supply that has no price
}

// lack is the error of one missing fact.
func lack(m Missing) error { return &FactError{Missing: []Missing{m}} }

// problems gathers what is wrong with a question and all that it lacks.
type problems struct {
	wrong   error // the first
	missing []Missing
}

// add takes the error of a step.
func (p *problems) add(err error) {
	fact, _ := err.(*FactError)
	switch {
	case err == nil:
	case fact != nil && fact.Missing != nil:
		for _, m := range fact.Missing {
			if !slices.Contains(p.missing, m) {
				p.missing = append(p.missing, m)
			}
		}
	case p.wrong == nil:
		p.wrong = err
	}
}

// err is what is wrong, else what is missing.
func (p *problems) err() error {
	if p.wrong == nil && p.missing != nil {
		return &FactError{Missing: p.missing}
	}
	return p.wrong
}
