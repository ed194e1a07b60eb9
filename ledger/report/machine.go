package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// MachineWorth lays out how many cycles it takes until a machine has paid; see
// [figures.Machine], whose errors it returns.
func MachineWorth(g *ledger.Ledger, q figures.MachineQuery) (Doc, error) {
	return laid(g, q, figures.Machine, func(g *ledger.Ledger, q figures.MachineQuery, found *figures.MachineResult) Doc {
		return (&machineAnswer{reportingOn(g), q, found}).doc()
	})
}

// A machineAnswer is being laid out.
type machineAnswer struct {
	reporting
	q figures.MachineQuery
	*figures.MachineResult
}

// caseWords say which saving a case takes.
var caseWords = [...]string{
	figures.AsGiven: "as given", figures.AtMean: "the mean, less losses", figures.AtLeast: "the least",
	figures.AtLowerQuartile: "one run in four saves less", figures.AtMedian: "half of them save less",
	figures.AtUpperQuartile: "three in four save less", figures.AtMost: "the most",
}

// guess marks a figure that rests on the saving, where that is an estimate.
func (m *machineAnswer) guess(v Value) Value { return v.estimatedIf(!m.q.Saving.Given()) }

// paid is after how many runs a case has paid, and after how many years.
func (m *machineAnswer) paid(c *figures.MachineCase) (runs, years Value) {
	return onlyIf(!c.Never, m.guess(PlainOf(c.Answer.Cycles))), optional(c.Years, func(y exact.Ratio) Value { return m.guess(QuotientOf(y, 1)) })
}

func (m *machineAnswer) doc() Doc {
	d := newDoc(m.g, "When a machine has paid")
	guess, c := m.guess, &m.Cases[0] // the answer; the others are its range
	pays, years := m.paid(c)
	d.Words = []string{m.words()}
	d.Fields = []Field{
		{"price", "price", MoneyOf(m.q.Price)},
		{"residual", "money back at its end", MoneyOf(m.q.Residual)},
		{"cycles", "expected life, cycles", CountOf(m.q.Cycles)},
		{"wear_per_cycle", "a run must save", MoneyQuotient(c.Answer.Wear)},
		{"saving_per_cycle", "a run saves before wear, less losses", guess(MoneyQuotient(c.Saving))},
		{"runs", "runs that tell", CountOf(m.Saved.Runs)},
		{"pays_after", "paid after runs", pays},
		{"pays", "within its life", YesNoOf(c.Answer.Pays)},
		{"gain", "gain over its life", guess(MoneyQuotient(c.Answer.Gain))},
		{"highest_price", "highest price that pays", guess(MoneyQuotient(c.Answer.Price))},
		{"cycles_a_year", "runs a year", QuotientOf(m.PerYear, 1)},
		{"years", "years until paid", years},
		field("range", "At other savings per run", m.table()),
	}
	if !m.q.Saving.Given() {
		d.Notes = append(d.Notes, fmt.Sprintf("%d of %d runs tell: what a run saves is the shelf price of what was packed from it, less all that it cost but the wear, and less what was lost; spoiled runs count",
			m.Saved.Runs, m.Runs))
	}
	d.Cautions = []Remark{Safety}
	return d
}

func (m *machineAnswer) words() string {
	c := &m.Cases[0]
	say := func(v Value) string { return m.guess(v).Shown(m.currency, m.show) }
	money := func(r exact.Ratio) string { return m.sum(m.guess(MoneyQuotient(r))) }
	switch saving := c.Saving.Sign(); {
	case m.q.Price.Cmp(m.q.Residual) <= 0:
		return "It has nothing to earn back: it brings at its end what it costs."
	case saving < 0:
		return fmt.Sprintf("It never pays: a run loses %s before wear, and must save %s.", money(c.Saving.Neg()), m.money(c.Answer.Wear))
	case saving == 0:
		return fmt.Sprintf("It never pays: a run saves nothing before wear, and must save %s.", m.money(c.Answer.Wear))
	case !c.Answer.Pays:
		return fmt.Sprintf("It does not pay within its life of %s: that would take %s. At %s a run it pays below %s.",
			m.counted(m.q.Cycles, "cycle"), say(PlainOf(c.Answer.Cycles)), money(c.Saving), money(c.Answer.Price))
	}
	words := fmt.Sprintf("It has paid after %s runs, at %s saved a run", say(PlainOf(c.Answer.Cycles)), money(c.Saving))
	if y, ok := c.Years.Get(); ok {
		words += fmt.Sprintf(": in %s years at %s runs a year", say(QuotientOf(y, 1)), QuotientOf(m.PerYear, 1).Shown(m.currency, m.show))
	}
	return words + fmt.Sprintf(". Over its life of %s it gains %s; it pays below %s.", m.count(m.q.Cycles), money(c.Answer.Gain), money(c.Answer.Price))
}

func (m *machineAnswer) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "case", Title: "saving of"}, {Key: "saving_per_cycle", Title: "a run saves"},
		{Key: "pays_after", Title: "paid after runs"}, {Key: "years", Title: "years", Rank: 1}, {Key: "gain", Title: "gain over its life"},
	}}
	for i := range m.Cases {
		c := &m.Cases[i]
		pays, years := m.paid(c)
		t.add(TextOf(caseWords[c.At]), m.guess(MoneyQuotient(c.Saving)), pays, years, m.guess(MoneyQuotient(c.Answer.Gain)))
	}
	return t
}
