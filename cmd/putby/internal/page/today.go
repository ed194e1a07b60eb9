package page

import (
	"fmt"
	"slices"
	"time"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A today is the first screen: what the month came to, what comes next, what the
// last runs cost beside the shelf, and what the machine has paid.
type today struct {
	Title   string
	Month   []line // the first is the one to be seen
	Next    []todo
	More    int // that are due besides, further down
	Runs    []lastRun
	Machine *paidPart
}

// A todo is what comes next, and the form that does it.
type todo struct {
	What, Detail string
	Class        string // "past" where it is late
	To, Do       string
}

// A lastRun is what a food of one of the last runs cost a unit.
type lastRun struct {
	Food, Date string
	Cost       figureOf
	Shop       string
	Verdict    string
	Class      string // "good" or "loss"
}

// A paidPart is what the machine has paid of its price.
type paidPart struct {
	Words string
	Width string // of the bar, in percent
}

// How much the first screen shows.
const (
	todosMost    = 3
	lastRunsMost = 3
	soonDays     = 14 // what is due within them is a todo
)

// A screen is the first screen in the making.
type screen struct {
	teller
	g *ledger.Ledger
	r *figures.TodayResult
}

// newToday lays out the first screen as it is at a moment.
func newToday(r Reports, now time.Time) *today {
	if r.Today == nil {
		return nil
	}
	s := screen{tellerOf(r.Month.Doc), r.Ledger, r.Today.At(r.Ledger, now)}
	t := &today{Title: "Today, " + s.day(s.r.Day), Runs: s.runs(r.LastRuns), Machine: s.machine()}
	if m, ok := s.r.Month.Get(); ok {
		t.Title = monthName(m.This.From) + " so far"
		t.Month = s.month(&m.This)
	}
	t.Next = slices.Concat(s.moist(), s.finish(), s.pack(), s.fresh(), s.eat())
	if n := len(t.Next); n > todosMost {
		t.Next, t.More = t.Next[:todosMost], n-todosMost
	}
	return t
}

// month is what was saved and spent, the machine apart.
func (s *screen) month(m *figures.Stretch) []line {
	spent := m.Spent.Total().Sub(m.Spent[figures.MachinesSpent])
	list := []line{
		{"saved", "", s.figure(report.MoneyQuotient(m.Saved))},
		{"spent", "", s.figure(report.MoneyOf(spent))},
	}
	if m.Saved.Sign() < 0 {
		list[0].Name, list[0].Class = "saved: at a loss", "loss"
	}
	if lost := m.Saved.Sub(m.Net()); lost.Sign() != 0 {
		list = append(list, line{"lost", "loss", s.figure(report.MoneyQuotient(lost))})
	}
	if machine := m.Spent[figures.MachinesSpent]; !machine.IsZero() {
		list = append(list, line{"for the machine, apart", "", s.figure(report.MoneyOf(machine))})
	}
	return list
}

func (s *screen) name(food int) string { return render.Clean(s.g.Foods[food].Title()) }

func (s *screen) amount(food int, n exact.Number) string {
	return report.AmountOf(n, s.g.Foods[food].Basis).ShownWithUnit(s.currency, s.show)
}

// finish are the runs that are on.
func (s *screen) finish() (list []todo) {
	for _, r := range s.r.Running {
		names := ""
		for i, food := range r.Foods {
			if i > 0 {
				names += ", "
			}
			names += s.name(food)
		}
		t := todo{What: names, Detail: "in the machine for " + sinceWords(r.For), To: "/finish", Do: "Finish"}
		if end, ok := r.End.Get(); ok {
			t.Detail += ", usually until ~" + end.Format("Mon 15:04")
			if end.Before(s.r.Now) {
				t.Class = "past"
			}
		}
		list = append(list, t)
	}
	return list
}

// sinceWords is a length of time in whole hours, or minutes where it is short.
func sinceWords(d time.Duration) string {
	if d < time.Hour {
		return exact.FormatDuration(d.Truncate(time.Minute))
	}
	return exact.FormatDuration(d.Truncate(time.Hour))
}

// moist are the packs that were not dry.
func (s *screen) moist() (list []todo) {
	for _, pack := range s.r.Moist {
		list = append(list, todo{What: s.name(s.g.Packs[pack].Food) + " is not dry", Class: "past",
			Detail: "pack " + render.Clean(s.g.Records.Packs.At(pack).ID) + ": sealed, it can grow botulism: open it, do not taste it; if in doubt, throw it out"})
	}
	return list
}

// pack is what awaits packing.
func (s *screen) pack() (list []todo) {
	for i, a := range s.r.Awaiting {
		if w, moist := s.g.Wettest(a.Run); moist {
			if i > 0 && s.r.Awaiting[i-1].Run == a.Run {
				continue
			}
			list = append(list, todo{What: "Run " + render.Clean(s.g.Records.Runs[a.Run].ID) + " is not dry", Class: "past",
				Detail: report.WaterLeft(s.show, w) + ": dry it on before packing"})
			continue
		}
		left := a.ToPack.Round(ledger.ShownPlaces, exact.HalfAway)
		list = append(list, todo{What: s.name(a.Food), Detail: "~" + s.amount(a.Food, left) + " to pack, run " + render.Clean(s.g.Records.Runs[a.Run].ID), To: "/pack", Do: "Pack"})
	}
	return list
}

// fresh is the food in hand that turns soon, with what can be done about it.
func (s *screen) fresh() (list []todo) {
	for i := range s.r.Fresh {
		w := &s.r.Fresh[i]
		days, known := s.daysTo(w.UseBy).Get()
		if !known || days > soonDays {
			continue
		}
		t := todo{What: s.name(w.Food), Detail: s.amount(w.Food, w.Quantity) + " fresh, by " + s.day(w.UseBy) + ", " + awayOf(exact.Some(days)), To: "/take", Do: "Take out"}
		slot, dried := w.Slot.Get()
		switch {
		case w.Turned(s.r.Day):
			t.Class = "past"
		case dried && slot.InTime:
			t.To, t.Do = "/start", "Start"
		case w.Freezable:
			t.To, t.Do = "/freeze", "Freeze"
		}
		list = append(list, t)
	}
	return list
}

// eat are the packs that are due soon, the first of each food.
func (s *screen) eat() (list []todo) {
	seen := map[int]bool{}
	for _, p := range s.r.Store {
		days, known := s.daysTo(p.BestBy).Get()
		if !known || days > dueDays || seen[p.Food] || s.g.Moist(p.Pack) {
			continue
		}
		seen[p.Food] = true
		t := todo{What: s.name(p.Food), Detail: fmt.Sprintf("%d in store, best by %s, %s", p.Left, s.day(p.BestBy), awayOf(exact.Some(days))), To: "/take", Do: "Take out"}
		if days < 0 {
			t.Class = "past"
		}
		list = append(list, t)
	}
	return list
}

func (s *screen) daysTo(day exact.Date) (days exact.Opt[int]) {
	if day == exact.NoDate {
		return days
	}
	return exact.Some(int(day) - int(s.r.Day))
}

// runs sets the last runs beside the shelf.
func (s *screen) runs(rows []figures.CostRow) (list []lastRun) {
	for i := range rows {
		row := &rows[i]
		cost, ok := row.PerUnit().Get()
		if !ok {
			continue
		}
		per := report.PriceOf(cost, row.Unit)
		l := lastRun{Food: s.name(row.Food), Date: s.day(row.Date),
			Cost: figureOf{per.ShownWithUnit(s.currency, s.show), s.whole(per)}, Verdict: "no shelf price is known"}
		if shelf, ok := row.Shelf.Get(); ok {
			l.Shop = "the shop " + s.short(report.PriceOf(shelf, row.Unit))
			l.Verdict, l.Class = s.beside(cost, shelf)
			if row.OfBatch { // it costs more than what it is made of, or that was bought on offer
				l.Shop, l.Verdict, l.Class = "made of "+s.short(report.PriceOf(shelf, row.Unit)), "", ""
			}
		}
		if slices.ContainsFunc(s.r.Awaiting, func(a figures.Awaiting) bool { return a.Run == row.Run && a.Food == row.Food }) {
			l.Verdict, l.Class = "not all packed yet", ""
		}
		list = append(list, l)
	}
	return list
}

// beside says how a cost stands to what the shelf asks.
func (s *screen) beside(cost, shelf exact.Ratio) (words, class string) {
	if shelf.Sign() <= 0 || cost.Cmp(shelf) == 0 {
		return "as the shop asks", ""
	}
	off := shelf.Sub(cost).Quo(shelf).Times(exact.Int(100))
	whole := off.Round(0, exact.HalfAway).Abs()
	percent := s.show.Locale.Percent(whole.String())
	if whole.IsZero() {
		percent = "under " + s.show.Locale.Percent("1")
	}
	if off.Sign() < 0 {
		return "at a loss: " + percent + " above", "loss"
	}
	return percent + " below", "good"
}

// machine is what the machine has paid.
func (s *screen) machine() *paidPart {
	p, ok := s.r.Payback.Get()
	if !ok {
		return nil
	}
	m := &paidPart{Words: s.short(report.MoneyQuotient(p.Earned)) + " of " + s.short(report.MoneyOf(p.Target)) + " earned back", Width: "0%"}
	if part, ok := p.Part.Get(); ok {
		m.Words += " (" + s.show.Locale.Percent(part.Times(exact.Int(100)).Round(0, exact.HalfAway).String()) + ")"
		m.Width = percent(clamp(part))
	}
	switch {
	case p.Paid:
		m.Words += ": it is paid for"
	case p.By.Key != "":
		m.Words += ", all of it in ~" + monthName(p.By.From)
	default:
		m.Words += "; when all of it will be, nothing tells yet"
	}
	return m
}

// clamp keeps a part between nothing and the whole.
func clamp(part exact.Ratio) exact.Ratio {
	one := exact.RatioOf(exact.Int(1))
	switch {
	case part.Sign() < 0:
		return exact.Ratio{}
	case part.Cmp(one) > 0:
		return one
	}
	return part
}
