package report

import (
	"fmt"

	"putby/ledger/figures"
)

// inWords says what has been earned back, and when that will be all.
func (p *payback) inWords() string {
	if p.Outlay.Target().Sign() <= 0 {
		return p.freeInWords()
	}
	day := p.day(p.AsOf)
	words := fmt.Sprintf("%s%s to earn back, ", p.opening(), p.money(p.Outlay.Target().Ratio()))
	switch earned := p.Earned(); earned.Sign() {
	case 1:
		words += fmt.Sprintf("%s has been earned by %s.", p.figure(earned), day)
	case 0:
		words += fmt.Sprintf("nothing has been earned by %s.", day)
	default:
		words += fmt.Sprintf("nothing has been earned by %s: %s has been lost on top.", day, p.figure(earned.Neg()))
	}
	switch {
	case p.Since.Key != "":
		return words + p.either(" It was", " They were") + " paid for in " + p.period(p.Since.Key) + "."
	case p.Until.Key != "":
		words += p.either(" It was", " They were") + " paid for until " + p.period(p.Until.Key) + "; what was lost since is to be earned again."
	}
	return words + p.paceInWords()
}

// freeInWords is for a machine that costs nothing in the end.
func (p *payback) freeInWords() string {
	words := "There is nothing to earn back, since " + p.either(p.subject()+" cost nothing", "the machines cost nothing")
	if p.Outlay.Target().Sign() < 0 || p.Outlay.Residual.Sign() > 0 {
		words = "There is nothing to earn back, since " + p.either(p.subject()+" brings at its end what it cost", "the machines bring at their end what they cost")
	}
	switch earned := p.Earned(); earned.Sign() {
	case 1:
		return words + fmt.Sprintf("; %s has been earned by %s.", p.money(earned), p.day(p.AsOf))
	case -1:
		return words + fmt.Sprintf("; but %s has been lost by %s.", p.money(earned.Neg()), p.day(p.AsOf))
	}
	return words + fmt.Sprintf("; nothing has been earned and nothing lost by %s.", p.day(p.AsOf))
}

// paceInWords says when it is paid for at the pace of the last months.
func (p *payback) paceInWords() string {
	if !p.Pace.Known() {
		return " " + p.tooFew() + p.monthSoFar()
	}
	mean := p.Pace.Mean
	pace := fmt.Sprintf(" At the pace of the last %d whole months, ~%s a month, %s ", p.Pace.Months, p.figure(mean), p.either("it is", "they are"))
	switch {
	case mean.Sign() < 0:
		return fmt.Sprintf(" At the pace of the last %d whole months, a loss of ~%s a month, %s never paid.", p.Pace.Months, p.figure(mean.Neg()), p.either("it is", "they are"))
	case mean.Sign() == 0:
		return fmt.Sprintf(" The last %d whole months earned nothing: at that pace %s never paid.", p.Pace.Months, p.either("it is", "they are"))
	case p.Pace.Paid.Key == "":
		return pace + fmt.Sprintf("not paid within %d years.", figures.MostYears)
	}
	late := "never"
	if p.Pace.Latest.Key != "" {
		late = "as late as ~" + p.period(p.Pace.Latest.Key)
	}
	return pace + fmt.Sprintf("paid in ~%s; %s may be as early as ~%s or %s.", p.period(p.Pace.Paid.Key), p.either("it", "that"), p.period(p.Pace.Earliest.Key), late)
}

// monthSoFar says what the month that is not over has earned.
func (p *payback) monthSoFar() string {
	m := p.Months[len(p.Months)-1]
	if p.AsOf >= m.To {
		return ""
	}
	switch m.Earned.Sign() {
	case -1:
		return fmt.Sprintf(" %s has lost %s so far.", p.period(m.Key), p.figure(m.Earned.Neg()))
	case 0:
		return fmt.Sprintf(" %s has earned nothing so far.", p.period(m.Key))
	}
	return fmt.Sprintf(" %s has earned %s so far.", p.period(m.Key), p.figure(m.Earned))
}

// tooFew says how many months are there, of how many.
func (p *payback) tooFew() string {
	are := "none is"
	if n := p.Pace.Months; n == 1 {
		are = "1 is"
	} else if n > 1 {
		are = fmt.Sprintf("%d are", n)
	}
	return fmt.Sprintf("A pace takes %d whole months since %s came; %s recorded.", figures.PaceLeast, p.first(), are)
}
