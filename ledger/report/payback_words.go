package report

import "fmt"

// inWords says what has been earned back, and when that will be all.
func (p *payback) inWords(say phrasing) string {
	if p.target.Sign() <= 0 {
		return p.freeInWords(say)
	}
	day := p.g.AsOf
	words := fmt.Sprintf("Of %s to earn back, ", say.money(p.target.Ratio()))
	switch earned := p.earned(); earned.Sign() {
	case 1:
		words += fmt.Sprintf("%s has been earned by %v.", say.figure(earned), day)
	case 0:
		words += fmt.Sprintf("nothing has been earned by %v.", day)
	default:
		words += fmt.Sprintf("nothing has been earned by %v: %s has been lost on top.", day, say.figure(earned.Neg()))
	}
	switch since, until := p.paid(); {
	case since.Key != "":
		return words + " It was paid for in " + since.Key + "."
	case until.Key != "":
		words += " It was paid for until " + until.Key + "; what was lost since is to be earned again."
	}
	return words + p.paceInWords(say)
}

// freeInWords is for a machine that costs nothing in the end.
func (p *payback) freeInWords(say phrasing) string {
	words := "There is nothing to earn back, since the machine cost nothing"
	if p.target.Sign() < 0 || p.outlay.residual.Sign() > 0 {
		words = "There is nothing to earn back, since the machine brings at its end what it cost"
	}
	switch earned := p.earned(); earned.Sign() {
	case 1:
		return words + fmt.Sprintf("; %s has been earned by %v.", say.money(earned), p.g.AsOf)
	case -1:
		return words + fmt.Sprintf("; but %s has been lost by %v.", say.money(earned.Neg()), p.g.AsOf)
	}
	return words + fmt.Sprintf("; nothing has been earned and nothing lost by %v.", p.g.AsOf)
}

// paceInWords says when it is paid for at the pace of the last months.
func (p *payback) paceInWords(say phrasing) string {
	if p.pace.months < paceLeast {
		return " " + p.tooFew() + p.monthSoFar(say)
	}
	mean := p.pace.mean
	pace := fmt.Sprintf(" At the pace of the last %d whole months, ~%s a month, it is ", p.pace.months, say.figure(mean))
	switch {
	case mean.Sign() < 0:
		return fmt.Sprintf(" At the pace of the last %d whole months, a loss of ~%s a month, it is never paid.", p.pace.months, say.figure(mean.Neg()))
	case mean.Sign() == 0:
		return fmt.Sprintf(" The last %d whole months earned nothing: at that pace it is never paid.", p.pace.months)
	case p.pace.paid.Key == "":
		return pace + fmt.Sprintf("not paid within %d years.", mostYears)
	}
	late := "never"
	if p.pace.latest.Key != "" {
		late = "as late as ~" + p.pace.latest.Key
	}
	return pace + fmt.Sprintf("paid in ~%s; it may be as early as ~%s or %s.", p.pace.paid.Key, p.pace.earliest.Key, late)
}

// monthSoFar says what the month that is not over has earned.
func (p *payback) monthSoFar(say phrasing) string {
	m := p.months[len(p.months)-1]
	if p.g.AsOf >= m.To {
		return ""
	}
	switch m.earned.Sign() {
	case -1:
		return fmt.Sprintf(" %s has lost %s so far.", m.Key, say.figure(m.earned.Neg()))
	case 0:
		return fmt.Sprintf(" %s has earned nothing so far.", m.Key)
	}
	return fmt.Sprintf(" %s has earned %s so far.", m.Key, say.figure(m.earned))
}

// tooFew says how many months are there, of how many.
func (p *payback) tooFew() string {
	are := "none is"
	if n := p.pace.months; n == 1 {
		are = "1 is"
	} else if n > 1 {
		are = fmt.Sprintf("%d are", n)
	}
	return fmt.Sprintf("A pace takes %d whole months since the machine came; %s recorded.", paceLeast, are)
}
