package page

import (
	"fmt"
	"slices"
	"strings"

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
	foodTeller
	r *figures.TodayResult
}

// newToday lays out the first screen of a day as it is at a moment.
func newToday(r Reports, day *figures.TodayResult) *today {
	if day == nil {
		return nil
	}
	s := screen{foodTeller{tellerOf(r.Month.Doc), r.Ledger}, day}
	t := &today{Title: "Today, " + s.day(s.r.Day), Runs: s.runs(r.LastRuns), Machine: s.machine()}
	if m, ok := s.r.Month.Get(); ok {
		t.Title = monthName(m.This.From) + " so far"
		t.Month = s.month(&m.This)
	}
	t.Next = s.todos()
	if n := len(t.Next); n > todosMost {
		t.Next, t.More = t.Next[:todosMost], n-todosMost // the rest stands further down the page
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
	if lost := m.Gone(); !lost.IsZero() {
		list = append(list, line{"lost", "loss", s.figure(report.MoneyQuotient(lost.Ratio()))})
	}
	if machine := m.Spent[figures.MachinesSpent]; !machine.IsZero() {
		list = append(list, line{"for the machine, apart", "", s.figure(report.MoneyOf(machine))})
	}
	return list
}

// todos are what comes next, of fresh food and of the store as far as it is due soon.
func (s *screen) todos() (list []todo) {
	for _, do := range s.r.ToDo(s.g) {
		switch do.Task {
		case figures.OpenPack:
			list = append(list, todo{What: s.name(do.Pack.Food) + " is not dry", Class: "past",
				Detail: "pack " + s.pack(do.Pack) + ": sealed, it can grow botulism: open it, do not taste it; if in doubt, throw it out"})
		case figures.Finish:
			list = append(list, s.finish(&do))
		case figures.DryOn:
			w, _ := s.g.Wettest(do.Run)
			list = append(list, todo{What: "Run " + s.run(do.Run) + " is not dry", Class: "past",
				Detail: report.WaterLeft(s.show, w) + ": dry it on before packing"})
		case figures.PackRun:
			for _, a := range do.Awaiting {
				left := a.ToPack.Round(ledger.ShownPlaces, exact.HalfAway)
				list = append(list, todo{What: s.name(a.Food), Detail: "~" + s.amount(a.Food, left) + " to pack, run " + s.run(do.Run), To: "/pack", Do: "Pack"})
			}
		case figures.EatPack:
			if days, known := figures.DaysLeft(s.r.Day, do.Pack.BestBy).Get(); known && days <= dueDays {
				list = append(list, s.eat(do.Pack, days))
			}
		default:
			if days, known := figures.DaysLeft(s.r.Day, do.Fresh.UseBy).Get(); known && days <= soonDays {
				list = append(list, s.fresh(&do, days))
			}
		}
	}
	return list
}

func (s *screen) pack(p *figures.PackInStore) string {
	return render.Clean(s.g.Records.Packs.At(p.Pack).ID)
}

func (s *screen) run(i int) string { return render.Clean(s.g.Records.Runs[i].ID) }

// finish is a run that is on.
func (s *screen) finish(do *figures.ToDo) todo {
	var names []string
	for _, food := range do.Running.Foods {
		names = append(names, s.name(food))
	}
	t := todo{What: strings.Join(names, ", "), Detail: "in the machine for " + report.Roughly(do.Running.For), To: "/finish", Do: "Finish"}
	if end, ok := do.Running.End.Get(); ok {
		t.Detail += ", usually until ~" + end.Format("Mon 15:04")
		if end.Before(s.r.Now) {
			t.Class = "past"
		}
	}
	return t
}

// fresh is food in hand that turns soon, with what is best done with it.
func (s *screen) fresh(do *figures.ToDo, days int) todo {
	w := do.Fresh
	t := todo{What: s.name(w.Food), Detail: s.amount(w.Food, w.Quantity) + " fresh, by " + s.day(w.UseBy) + ", " + awayOf(exact.Some(days)), To: "/take", Do: "Take out"}
	switch {
	case do.Task == figures.LookOver:
		t.Class = "past"
	case do.Task == figures.DryFresh, do.Task == figures.TellRun:
		t.To, t.Do = "/start", "Start"
	case do.Freeze:
		t.To, t.Do = "/freeze", "Freeze"
	}
	return t
}

// eat is the pack of a food that is due first.
func (s *screen) eat(p *figures.PackInStore, days int) todo {
	t := todo{What: s.name(p.Food), Detail: fmt.Sprintf("%d in store, best by %s, %s", p.Left, s.day(p.BestBy), awayOf(exact.Some(days))), To: "/take", Do: "Take out"}
	if days < 0 {
		t.Class = "past"
	}
	return t
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
		// What is packed of it so far bears its whole cost: to call that a loss would be wrong.
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
		m.Width = percent(part.Max(exact.Ratio{}).Min(exact.RatioOf(exact.Int(1))))
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
