package report

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// A MachineQuery is the question whether a machine is worth buying. What is
// not given comes from the ledger's runs.
type MachineQuery struct {
	Price    exact.Money
	Residual exact.Money
	Cycles   int                     // expected life
	Saving   exact.Opt[exact.Number] // what a cycle saves against the shelf, wear left out
	PerYear  exact.Opt[exact.Number] // cycles a year
	AsOf     exact.Date              // the day at which the question stands; the last run's if not given
}

// MachineTexts is a machine query as it is typed; empty is not given.
type MachineTexts struct{ Price, Residual, Cycles, Saving, PerYear string }

// ParseMachineQuery reads a machine query. Its error is a [*QueryError], or a
// [*MissingError] for a price or life that was not given.
func ParseMachineQuery(t MachineTexts) (MachineQuery, error) {
	var q MachineQuery
	var missing []MissingFact
	var first error
	for _, o := range []struct {
		option, text, need string
		set                func(*reading)
	}{
		{"price", t.Price, "the price of the machine", func(r *reading) { q.Price = exact.MoneyOf(r.number()) }},
		{"cycles", t.Cycles, "how many cycles it is expected to run", func(r *reading) { q.Cycles = r.atLeastOne() }},
		{"residual", t.Residual, "", func(r *reading) { q.Residual = exact.MoneyOf(r.number()) }},
		{"saving", t.Saving, "", func(r *reading) { q.Saving = exact.Some(r.number()) }},
		{"per-year", t.PerYear, "", func(r *reading) { q.PerYear = exact.Some(r.positive()) }},
	} {
		switch r := (&reading{option: o.option, text: o.text}); {
		case o.text != "":
			if o.set(r); first == nil && r.err != nil {
				first = r.err
			}
		case o.need != "":
			missing = append(missing, MissingFact{o.need, "--" + o.option, ""})
		}
	}
	switch {
	case first != nil:
		return q, first
	case missing != nil:
		return q, &MissingError{missing}
	}
	return q, nil
}

// MachineWorth answers how many cycles it takes until a machine has paid, at
// what a cycle of this household saves. The ledger must be joined through its
// last record, whatever the query's AsOf. Errors are a [*QueryError] and a
// [*MissingError].
func MachineWorth(g *ledger.Ledger, q MachineQuery) (Doc, error) {
	if q.Cycles <= 0 {
		return Doc{}, errorf("cycles", "", "a machine lasts 1 cycle at least")
	}
	m := &machineAnswer{g: g, q: q, savings: savingsOf(g, q)}
	if err := m.find(); err != nil {
		return Doc{}, err
	}
	return m.doc(), nil
}

// savings are what the household's runs saved against the shelf, before the
// machine's wear and less what was lost.
type savings struct {
	figures.EarningSum
	each    []exact.Ratio // of runs of which every food tells; sorted
	all     int           // all runs, whether or not they tell
	perYear exact.Ratio   // runs of the last 12 months; of a shorter time, what a year would have
}

func savingsOf(g *ledger.Ledger, q MachineQuery) (s savings) {
	scope := figures.Always(-1)
	if q.AsOf != exact.NoDate {
		scope.Last = q.AsOf
	}
	list := figures.RunEarnings(g, figures.CostQuery{}, scope, new(figures.Notes))
	s.EarningSum, s.each = figures.EarningOf(list, -1), figures.WholeRuns(list)
	var dates []exact.Date
	for i := range g.Runs {
		if g.Runs[i].Done && scope.Covers(g.Runs[i].Date) {
			dates = append(dates, g.Runs[i].Date)
		}
	}
	slices.Sort(dates)
	s.all = len(dates)
	if len(dates) > 0 {
		s.pace(dates, cmp.Or(q.AsOf, dates[len(dates)-1]))
	}
	return s
}

// pace counts the runs of the 12 months up to a day; where the first run is
// younger, what a year would have at the pace since then.
func (s *savings) pace(dates []exact.Date, day exact.Date) {
	n := 0
	for _, d := range dates {
		if d > day.AddMonths(-12) {
			n++
		}
	}
	months := 1
	for months < 12 && day.Month().AddMonths(-months) >= dates[0].Month() {
		months++
	}
	s.perYear = whole(12 * n).Over(whole(months))
}

// A machineCase is the machine at one saving per cycle.
type machineCase struct {
	name   string
	saving exact.Ratio
	answer pricing.MachineAnswer
	never  bool
	years  exact.Opt[exact.Ratio]
}

type machineAnswer struct {
	g       *ledger.Ledger
	q       MachineQuery
	savings savings
	perYear exact.Ratio
	cases   []machineCase // the first is the answer
}

// find decides every case.
func (m *machineAnswer) find() error {
	m.perYear = m.savings.perYear
	if n, ok := m.q.PerYear.Get(); ok {
		m.perYear = exact.RatioOf(n)
	}
	if given, ok := m.q.Saving.Get(); ok {
		return m.add("as given", exact.RatioOf(given))
	}
	mean, ok := m.savings.PerRun().Get()
	if !ok {
		return &MissingError{[]MissingFact{{"what a cycle saves", "--saving", "good runs with their packs and the shelf prices of their foods"}}}
	}
	if err := m.add("the mean, less losses", mean); err != nil {
		return err
	}
	for quarter, name := range []string{"the least", "one run in four saves less", "half of them save less", "three in four save less", "the most"} {
		saving, ok := exact.Quantile(m.savings.each, whole(quarter).Over(exact.Int(4)))
		if !ok {
			break
		}
		if err := m.add(name, saving); err != nil {
			return err
		}
	}
	return nil
}

func (m *machineAnswer) add(name string, saving exact.Ratio) error {
	c := machineCase{name: name, saving: saving}
	machine := pricing.Machine{Price: m.q.Price, Residual: m.q.Residual, Cycles: m.q.Cycles, Saving: saving}
	var err error
	if c.answer, err = machine.Decide(); errors.Is(err, pricing.ErrNeverPays) {
		c.never, err = true, nil
	}
	if err != nil {
		return errorf("cycles", "", "%v", err)
	}
	years, err := pricing.Payback(ratioOf(m.q.Price.Sub(m.q.Residual)), saving.Mul(m.perYear))
	if err == nil && m.perYear.Sign() > 0 {
		c.years = exact.Some(years)
	}
	m.cases = append(m.cases, c)
	return nil
}

// guessed reports whether the saving is an estimate.
func (m *machineAnswer) guessed() bool { return !m.q.Saving.Given() }

// guess marks a figure that rests on the saving, where that is an estimate.
func (m *machineAnswer) guess(v Value) Value {
	if m.guessed() {
		return v.Estimated()
	}
	return v
}

func (m *machineAnswer) doc() Doc {
	d := newDoc(m.g, "When a machine has paid")
	guess, c := m.guess, &m.cases[0]
	pays, years := None, None
	if !c.never {
		pays = guess(PlainOf(c.answer.Cycles))
	}
	if y, ok := c.years.Get(); ok {
		years = guess(QuotientOf(y, 1))
	}
	d.Words = []string{m.words()}
	d.Fields = []Field{
		{"price", "price", MoneyOf(m.q.Price)},
		{"residual", "money back at its end", MoneyOf(m.q.Residual)},
		{"cycles", "expected life, cycles", CountOf(m.q.Cycles)},
		{"wear_per_cycle", "a cycle must save", MoneyQuotient(c.answer.Wear)},
		{"saving_per_cycle", "a cycle saves before wear, less losses", guess(MoneyQuotient(c.saving))},
		{"runs", "runs that tell", CountOf(m.savings.Runs)},
		{"pays_after", "paid after cycles", pays},
		{"pays", "within its life", YesNoOf(c.answer.Pays)},
		{"gain", "gain over its life", guess(MoneyQuotient(c.answer.Gain))},
		{"highest_price", "highest price that pays", guess(MoneyQuotient(c.answer.Price))},
		{"cycles_a_year", "cycles a year", QuotientOf(m.perYear, 1)},
		{"years", "years until paid", years},
		field("range", "At other savings per cycle", m.table()),
	}
	if m.guessed() {
		d.Notes = append(d.Notes, fmt.Sprintf("%d of %d runs tell: what a run saves is the shelf price of what was packed from it, less all that it cost but the wear, and less what was lost; spoiled runs count",
			m.savings.Runs, m.savings.all))
	}
	d.Notes = append(d.Notes, SafetyLine)
	return d
}

func (m *machineAnswer) words() string {
	s, c := phrasing{m.g.Settings.Currency, newDoc(m.g, "").Show}, &m.cases[0]
	say := func(v Value) string { return m.guess(v).Shown(s.currency, s.show) }
	money := func(r exact.Ratio) string { return say(MoneyQuotient(r)) + " " + s.currency.Code() }
	switch saving := c.saving.Sign(); {
	case m.q.Price.Sub(m.q.Residual).Sign() <= 0:
		return "It has nothing to earn back: it brings at its end what it costs."
	case saving < 0:
		return fmt.Sprintf("It never pays: a cycle loses %s before wear, and must save %s.", money(c.saving.Neg()), s.money(c.answer.Wear))
	case saving == 0:
		return fmt.Sprintf("It never pays: a cycle saves nothing before wear, and must save %s.", s.money(c.answer.Wear))
	case !c.answer.Pays:
		return fmt.Sprintf("It does not pay within its life of %d cycles: that would take %s. At %s a cycle it pays below %s.",
			m.q.Cycles, say(PlainOf(c.answer.Cycles)), money(c.saving), money(c.answer.Price))
	}
	words := fmt.Sprintf("It has paid after %s cycles, at %s saved a cycle", say(PlainOf(c.answer.Cycles)), money(c.saving))
	if y, ok := c.years.Get(); ok {
		words += fmt.Sprintf(": in %s years at %s cycles a year", say(QuotientOf(y, 1)), QuotientOf(m.perYear, 1).Shown(s.currency, s.show))
	}
	return words + fmt.Sprintf(". Over its life of %d it gains %s; it pays below %s.", m.q.Cycles, money(c.answer.Gain), money(c.answer.Price))
}

func (m *machineAnswer) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "case", Title: "saving of"}, {Key: "saving_per_cycle", Title: "a cycle saves"},
		{Key: "pays_after", Title: "paid after cycles"}, {Key: "years", Title: "years", Rank: 1}, {Key: "gain", Title: "gain over its life"},
	}}
	for _, c := range m.cases {
		pays, years := None, None
		if !c.never {
			pays = m.guess(PlainOf(c.answer.Cycles))
		}
		if y, ok := c.years.Get(); ok {
			years = m.guess(QuotientOf(y, 1))
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(c.name), m.guess(MoneyQuotient(c.saving)), pays, years, m.guess(MoneyQuotient(c.answer.Gain))}})
	}
	return t
}
