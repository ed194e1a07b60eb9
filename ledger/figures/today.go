package figures

import (
	"cmp"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A TodayQuery asks what a household must know now.
type TodayQuery struct {
	Now time.Time // in the ledger's zone; its day is the ledger's own
	// Faulty says that the records have faults. What can be told of them all the
	// same is what there is and when it is due; sums of money are left out, and for
	// how many loads supplies last, which a receipt that cannot be read may have more of.
	Faulty bool
	// Start is when somebody is there to load. Where it is given, [Next] is worked
	// out, which prices hundreds of starts of each food.
	Start exact.Opt[energy.Window]
	// What is worked out of the day already; nil is worked out.
	OnHand  *OnHandResult
	Payback *PaybackResult
}

// A TodayResult is what a household must know now.
type TodayResult struct {
	Now      time.Time  // the moment asked about
	Day      exact.Date // that moment's date: the day at which the ledger stands
	Running  []RunningNow
	Awaiting []Awaiting    // packing, in order of the records
	Fresh    []Waiting     // what turns soonest first; of one day, in the order of Next
	Next     []NextFood    // none where nothing tells what a run costs
	Store    []PackInStore // the soonest due first
	Loads    []LoadsLeft   // the fewest first
	Month    exact.Opt[MonthSoFar]
	Payback  exact.Opt[PaidSoFar]
	Later    []ledger.Dated // records of later days, which count nowhere yet
}

// A RunningNow is a run that has begun and not ended.
type RunningNow struct {
	Run   int                  // position in Runs
	For   time.Duration        // since its start; 0 where that is still to come this day
	End   exact.Opt[time.Time] // as usual: an estimate
	Foods []int                // in the order in which they are loaded
}

// A MonthSoFar is the month of a day up to it, beside the whole month before.
type MonthSoFar struct {
	This, Last Stretch
	HasLast    bool // something was recorded by then
}

// A PaidSoFar is what the machines have paid of what they cost.
type PaidSoFar struct {
	Target exact.Money            // with repairs, less what comes back at their end
	Earned exact.Ratio            // money
	Part   exact.Opt[exact.Ratio] // of the target; not given where that is nothing
	Paid   bool                   // and nothing lost since
	By     Period                 // the month in which it will be, an estimate; no key: nothing tells
}

// Today works out what a household must know now. The ledger must be joined
// through the day of the query's moment; it may be one that has faults, where the
// query says so. The error may be [ErrUnbalanced].
func Today(g *ledger.Ledger, q TodayQuery) (*TodayResult, error) {
	day := exact.DateIn(q.Now)
	hand, err := q.OnHand, error(nil)
	if hand == nil {
		if hand, err = OnHand(g, OnHandQuery{Query: Query{AsOf: day}}); err != nil {
			return nil, err
		}
	}
	// A copy of the packs: those given with the query keep their order.
	r := &TodayResult{Day: day, Awaiting: hand.Awaiting, Store: slices.Clone(hand.Packs), Later: g.Records.After(day)}
	slices.SortStableFunc(r.Store, func(a, b PackInStore) int { return cmp.Compare(orLast(a.BestBy), orLast(b.BestBy)) })
	r = r.At(g, q.Now)
	if q.Faulty {
		r.Loads = nil
		return r, nil
	}
	paid := q.Payback
	if paid == nil {
		if paid, err = Payback(g, PaybackQuery{Query: Query{AsOf: day}}); err != nil {
			return nil, err
		}
	}
	r.Payback = paidSoFar(paid)
	if r.Month, err = monthSoFar(g, day, paid); err != nil {
		return nil, err
	}
	if start, ok := q.Start.Get(); ok {
		r.Plan(g, start)
	}
	return r, nil
}

// The starts that a day's screen looks at.
const (
	nextDays = 7
	nextStep = 15 * time.Minute
)

// Plan works out what the machine should take next, with starts within a window, and
// puts the fresh food in that order. A day's screen never fails by it: where the
// records do not tell what a run costs, there is none.
func (r *TodayResult) Plan(g *ledger.Ledger, start energy.Window) {
	next, err := Next(g, WhenQuery{From: r.Now.Truncate(time.Minute), Days: nextDays, Step: nextStep, Start: exact.Some(start)})
	if err != nil {
		return
	}
	r.Next = next
	slices.SortStableFunc(r.Fresh, func(a, b Waiting) int {
		return cmp.Or(cmp.Compare(orLast(a.UseBy), orLast(b.UseBy)), cmp.Compare(r.rank(&a), r.rank(&b)))
	})
}

// rank is the place of fresh food in Next; what is not in it comes last.
func (r *TodayResult) rank(w *Waiting) int {
	for i := range r.Next {
		if n := &r.Next[i]; n.Food == w.Food && n.UseBy == w.UseBy && !w.Frozen {
			return i
		}
	}
	return len(r.Next)
}

// NextOf is what Next says of fresh food; nil where it does not have it.
func (r *TodayResult) NextOf(w *Waiting) *NextFood {
	if i := r.rank(w); i < len(r.Next) {
		return &r.Next[i]
	}
	return nil
}

// At is what a household must know at another moment of the same day, without
// what the machine should take next.
func (r *TodayResult) At(g *ledger.Ledger, now time.Time) *TodayResult {
	at := *r
	at.Now, at.Running, at.Next = now, nil, nil
	for _, i := range Running(g) {
		at.Running = append(at.Running, runningNow(g, i, now))
	}
	at.Fresh = WaitingFood(g, now)
	at.Loads = RoomForLoads(g, at.Fresh)
	return &at
}

func runningNow(g *ledger.Ledger, run int, now time.Time) RunningNow {
	r := RunningNow{Run: run, For: max(0, now.Sub(g.Records.Runs[run].Start)), End: UsualEnd(g, run)}
	for i := range g.Runs[run].Items {
		r.Foods = append(r.Foods, g.Runs[run].Items[i].Food)
	}
	return r
}

// monthSoFar sets the month of a day beside the one before; there is none where
// nothing is recorded yet. What the machines have paid has all months already, where
// there are machines.
func monthSoFar(g *ledger.Ledger, day exact.Date, paid *PaybackResult) (m exact.Opt[MonthSoFar], err error) {
	first, _, recorded := moneyDays(g)
	if !recorded {
		return m, nil
	}
	for i := range paid.Months {
		if this := &paid.Months[i]; this.From <= day && day <= this.To && paid.Food < 0 && paid.Machine < 0 {
			so := MonthSoFar{This: this.Stretch}
			if so.HasLast = first < this.From; so.HasLast {
				so.Last = paid.Months[i-1].Stretch
			}
			return exact.Some(so), nil
		}
	}
	month, err := Month(g, MonthQuery{Query: Query{From: day, To: day, AsOf: day}})
	if err != nil {
		return m, err
	}
	return exact.Some(MonthSoFar{month.Rows[0], month.Last.Before, month.Last.HasBefore}), nil
}

// paidSoFar is what the machines have paid; there is none where no receipt has
// one.
func paidSoFar(r *PaybackResult) (p exact.Opt[PaidSoFar]) {
	if r.Outlay.Machines == 0 {
		return p
	}
	paid := PaidSoFar{Target: r.Outlay.Target(), Earned: r.Earned(), Part: r.Part(), Paid: r.Since.Key != "", By: r.Pace.Paid}
	return exact.Some(paid)
}
