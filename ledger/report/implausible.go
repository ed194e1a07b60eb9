package report

import (
	"fmt"
	"slices"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// Implausible says which figures of records about to be added are far from this
// household's own, as a [Vetting] does. more are the records of rec with the new
// ones behind them.
func Implausible(rec, more *ledger.Records) []string {
	v := NewVetting(rec)
	v.LookBehind(more)
	odd, _ := v.Odd()
	return odd
}

// ImplausibleChanges says what is likely to be a slip of records as they are to be,
// and was not so of the same ones as they are, told by their lines.
func ImplausibleChanges(rec, was, now *ledger.Records) []string {
	odd := func(then *ledger.Records) []string {
		v := NewVetting(rec)
		v.LookChanged(was, then)
		odd, _ := v.Odd()
		return odd
	}
	before := odd(was)
	return slices.DeleteFunc(odd(now), func(words string) bool { return slices.Contains(before, words) })
}

// A Vetting says what a [figures.Vetting] finds, and keeps no more than that.
type Vetting struct {
	*figures.Vetting
	say   phrasing
	odd   []string
	told  map[string]bool
	count int // figures far off, those not kept in odd included
}

// mostOdd is how many figures that are far off are kept to be told one by one.
const mostOdd = 1000

// NewVetting begins with the records of a household as they are.
func NewVetting(rec *ledger.Records) *Vetting {
	v := &Vetting{say: phrasingOf(&rec.Settings), told: map[string]bool{}}
	v.Vetting = figures.NewVetting(rec, v.add)
	return v
}

// Odd returns what there is to say, one sentence each and none twice; of more
// than a thousand the first, and n is how many there are, each as often as it was
// seen from there on.
func (v *Vetting) Odd() (odd []string, n int) {
	v.End()
	return v.odd, v.count
}

// add notes a figure that is far off.
func (v *Vetting) add(o figures.Odd) {
	if len(v.odd) == mostOdd {
		v.count++
		return
	}
	if odd := v.words(o); !v.told[odd] {
		v.odd, v.told[odd] = append(v.odd, odd), true
		v.count++
	}
}

func (v *Vetting) words(o figures.Odd) string {
	switch o.What {
	case figures.FreeOnShelf:
		return fmt.Sprintf("the shelf price of %s is 0", o.Name)
	case figures.HighResidual:
		return fmt.Sprintf("%s is to bring %s back at its end, and %s was paid for it", o.Name, v.say.money(o.Have), v.say.money(o.Usual))
	case figures.HighRate:
		return fmt.Sprintf("tariff %s asks %s a kWh: a rate is in %s, not in hundredths of it", o.Name, v.say.show.Locale.Money(o.Number.String(), v.say.currency), v.say.currency.Code())
	case figures.FarEnergy:
		return fmt.Sprintf("run %s has %s kWh, far from the usual %s kWh on %s (%s)", o.Name, v.say.number(o.Number), v.say.number(o.Usual.Round(2, exact.HalfAway)), o.Machine, usualOf(o.Of, "run"))
	case figures.FarLength:
		what, of := "run "+o.Name, "run"
		if o.Phase != "" {
			what, of = o.Phase+" of "+what, "phase"
		}
		what += " takes " + exact.FormatDuration(o.Length)
		if o.Of == 0 {
			return what + ", which is no time at all"
		}
		return fmt.Sprintf("%s, far from the usual %s on %s (%s)", what, exact.FormatDuration(o.UsualLength().Round(time.Minute)), o.Machine, usualOf(o.Of, of))
	case figures.FarWeight:
		kg := func(r exact.Ratio) string {
			return v.say.amount(r.Round(exact.QuantityPlaces, exact.HalfEven), exact.Kg)
		}
		return fmt.Sprintf("%s of run %s weighed %s before drying, and %s was loaded: how dry it is goes by the %s", o.Name, o.Run, kg(o.Have), kg(o.Usual), kg(o.Have))
	case figures.HighPower:
		words := fmt.Sprintf("run %s has %s kWh in %s, which is %s W on average, and ", o.Name, v.say.number(o.Number),
			exact.FormatDuration(o.Length), v.say.number(o.Have.Round(0, exact.HalfAway)))
		if o.Usual.Sign() <= 0 {
			return words + fmt.Sprintf("a household socket gives %s W at most", v.say.number(exact.Int(figures.SocketWatts)))
		}
		return words + fmt.Sprintf("%s draws %s W at most (wattage.csv)", o.Machine, v.say.number(o.Usual.Round(0, exact.HalfAway)))
	}
	return fmt.Sprintf("%s is at %s, far from the usual %s (%s)", o.Name, v.say.price(o.Have, o.Unit), v.say.price(o.Usual, o.Unit), usualOf(o.Of, "price"))
}

// WeightOff says of a load whose weight before drying is not what was loaded; "" of any
// other.
func WeightOff(s *ledger.Settings, l *ledger.Load) string {
	odd, off := figures.WeightOff(l)
	if !off {
		return ""
	}
	return (&Vetting{say: phrasingOf(s)}).words(odd)
}

// usualOf says what a usual figure is.
func usualOf(n int, what string) string {
	if n == 1 {
		return "the only " + what + " known"
	}
	return fmt.Sprintf("the median of %d %ss", n, what)
}
