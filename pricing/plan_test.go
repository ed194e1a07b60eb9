package pricing_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

const hour = time.Hour

// drawCandidate draws a small food on offer: a cycle of 1 to 5 hours, due
// within 12.
func drawCandidate(t *rapid.T) pricing.Candidate {
	q := drawQuestion(t)
	q.limit, q.cycles = rapid.SampledFrom([]int{4, 3, 2, 1}).Draw(t, "few"), -1
	q.size, q.load = number(t, "size", 4, 20, 1), number(t, "load", 8, 30, 1)
	q.fresh = number(t, "fresh use", 0, 15, 1)
	// Worth it more often than not, so that foods compete for the machine.
	q.price = number(t, "price", 0, 80, 2)
	q.shelf, q.per = number(t, "shelf", 200, 900, 2), exact.Int(1)
	q.kwh, q.perUnit = number(t, "kWh", 0, 900, 3), number(t, "kWh per unit", 0, 300, 3)
	q.supplies, q.wear, q.work = exact.Money{}, q.wear.Times(num("0.1")).Round(6, exact.Down), exact.Money{}
	q.loaded, q.made = q.reconst, exact.Opt[exact.Number]{}
	q.container = q.container.Times(num("0.1")).Round(6, exact.Down)
	if rapid.IntRange(0, 9).Draw(t, "as dear as the shelf") == 0 {
		q.price, q.shelf, q.per = q.size, exact.Int(1), exact.Int(1)
	}
	return pricing.Candidate{
		Sale:  q.sale(),
		Cycle: time.Duration(rapid.SampledFrom([]int{3, 4, 2, 5, 1}).Draw(t, "cycle")) * hour,
		Due:   time.Duration(rapid.SampledFrom([]int{9, 6, 12, 5, 7, 8, 10, 4, 3, 11, 2, 0}).Draw(t, "due")) * hour,
	}
}

// Law: no choice of packages saves more whose cycles can be dried in time, in any
// order whatever, some of them out of the freezer, whose food fits in there and
// costs no more than the budget; and the plan itself keeps every date, the room
// and the budget.
func TestPlanAgainstBruteForce(t *testing.T) {
	contested, froze, poor, checked := 0, 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		shared := pricing.Shared{Turnaround: time.Duration(rapid.IntRange(0, 2).Draw(t, "turnaround")) * hour}
		if rapid.IntRange(0, 3).Draw(t, "has a freezer") > 0 {
			shared.Freezer = number(t, "freezer", 0, 90, 1)
		}
		if rapid.IntRange(0, 2).Draw(t, "has a budget") == 0 {
			shared.Budget = exact.Some(exact.MoneyOf(number(t, "budget", 0, 400, 2)))
		}
		candidates := make([]pricing.Candidate, rapid.IntRange(2, 3).Draw(t, "foods"))
		decisions := make([]pricing.Decision, len(candidates))
		alone := exact.Ratio{}
		for i := range candidates {
			c := drawCandidate(t)
			if rapid.IntRange(0, 4).Draw(t, "may be frozen") > 0 {
				c.Due /= 2 // fewer cycles are in time
				c.Frozen = exact.Some(c.Due + time.Duration(rapid.IntRange(-1, 12).Draw(t, "longer"))*hour)
				c.Litres = ratio(fmt.Sprint(rapid.IntRange(1, 3).Draw(t, "litres")), "2")
			}
			candidates[i], decisions[i] = c, mustDecide(t, c.Sale)
			k, _ := pricing.CyclesBefore(c.Due, c.Cycle, shared.Turnaround)
			c.Sale.MaxCycles = exact.Some(k)
			alone = alone.Add(mustDecide(t, c.Sale).Best.Saving)
		}
		p, err := pricing.MakePlan(candidates, shared)
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, p, candidates, shared)
		if !shared.Budget.Given() && shared.Freezer.IsZero() {
			checkFewest(t, p, decisions)
		}
		b := bruteForce{candidates: candidates, decisions: decisions, shared: shared}
		b.choose(0, exact.Ratio{}, exact.Money{})
		if !p.Saving.Equal(b.best) || !p.Short.IsZero() {
			t.Fatalf("plan saves %v (short of %v at most), the best choice %v", p.Saving, p.Short, b.best)
		}
		// A search that is cut gives a plan that can be, and never a bound that the best exceeds.
		few, err := pricing.MakePlanKeeping(candidates, shared, rapid.IntRange(1, 3).Draw(t, "keeping"))
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, few, candidates, shared)
		if few.Saving.Cmp(b.best) > 0 || few.Saving.Add(few.Short).Cmp(b.best) < 0 {
			t.Fatalf("a search that is cut saves %v, short of %v at most; the best is %v", few.Saving, few.Short, b.best)
		}
		checked++
		if p.Saving.Cmp(alone) < 0 {
			contested++
		}
		if slices.ContainsFunc(p.Order, func(s pricing.Stretch) bool { return s.Frozen }) {
			froze++
		}
		if shared.Budget.Given() && p.Saving.Cmp(alone) < 0 {
			poor++
		}
	})
	t.Logf("of %d, %d contested, %d with something frozen, %d with a budget that may bind", checked, contested, froze, poor)
	if checked > 50 && (20*contested < checked || 20*froze < checked || 20*poor < checked) {
		t.Errorf("foods compete for the machine in only %d of %d cases, use the freezer in %d, the budget in %d", contested, checked, froze, poor)
	}
}

// bruteForce tries every number of packages of every food, every choice of the
// cycles that dry out of the freezer, and every order of all cycles.
type bruteForce struct {
	candidates []pricing.Candidate
	decisions  []pricing.Decision
	shared     pricing.Shared
	jobs       []job // of the foods taken so far
	room       exact.Ratio
	best       exact.Ratio
}

// A job is a cycle: how long it takes and when it must end.
type job struct{ takes, due time.Duration }

func (b *bruteForce) choose(food int, saving exact.Ratio, paid exact.Money) {
	if food == len(b.candidates) {
		if saving.Cmp(b.best) > 0 && b.inTime(append([]job(nil), b.jobs...), 0) {
			b.best = saving
		}
		return
	}
	c := b.candidates[food]
	for r := range b.decisions[food].Rows() {
		spent := paid.Add(r.Cost.Food)
		if budget, given := b.shared.Budget.Get(); given && spent.Cmp(budget) > 0 {
			continue
		}
		for frozen := range 1 << r.Cycles { // a bit for each cycle
			if frozen > 0 && (!c.Frozen.Given() || b.shared.Freezer.IsZero()) {
				break
			}
			taken, room := len(b.jobs), b.room
			left := r.Dried
			for k := range r.Cycles {
				load := c.Sale.Load
				if left.Less(load) {
					load = left
				}
				left = left.Sub(load)
				if frozen>>k&1 == 1 {
					b.jobs = append(b.jobs, job{c.Cycle, c.Frozen.Or(0)})
					b.room = b.room.Add(c.Litres.Times(load))
				} else {
					b.jobs = append(b.jobs, job{c.Cycle, c.Due})
				}
			}
			if b.room.Cmp(exact.RatioOf(b.shared.Freezer)) <= 0 {
				b.choose(food+1, saving.Add(r.Saving), spent)
			}
			b.jobs, b.room = b.jobs[:taken], room
		}
	}
}

// inTime reports whether some order of the cycles left, begun at now, keeps
// every date.
func (b *bruteForce) inTime(left []job, now time.Duration) bool {
	tried := map[job]bool{}
	for i, j := range left {
		if tried[j] || now+j.takes > j.due {
			continue
		}
		tried[j] = true
		rest := append(append([]job(nil), left[:i]...), left[i+1:]...)
		if b.inTime(rest, now+j.takes+b.shared.Turnaround) {
			return true
		}
	}
	return len(left) == 0
}

// checkPlan lays the plan out on a clock.
func checkPlan(t *rapid.T, p pricing.Plan, candidates []pricing.Candidate, s pricing.Shared) {
	var free, last time.Duration
	var saving, room exact.Ratio
	var paid exact.Money
	cycles := make([]int, len(candidates))
	for _, o := range p.Order {
		c := candidates[o.Candidate]
		k := time.Duration(o.Cycles)
		takes := k*c.Cycle + (k-1)*s.Turnaround
		due := c.Due
		if o.Frozen {
			due = c.Frozen.Or(0)
		}
		if o.Start != free || o.End != o.Start+takes || o.End > due || o.First != cycles[o.Candidate] {
			t.Fatalf("stretch %+v from %v, due %v", o, free, due)
		}
		cycles[o.Candidate] += o.Cycles
		last, free = o.End, o.End+s.Turnaround
	}
	for _, choice := range p.Choices {
		c := candidates[choice.Candidate]
		saving, paid = saving.Add(choice.Row.Saving), paid.Add(choice.Row.Cost.Food)
		room = room.Add(c.Litres.Times(choice.Frozen))
		if choice.Row.Cycles != cycles[choice.Candidate] {
			t.Fatalf("choice %+v has %d cycles in the order", choice, cycles[choice.Candidate])
		}
	}
	if budget, given := s.Budget.Get(); given && paid.Cmp(budget) > 0 || room.Cmp(exact.RatioOf(s.Freezer)) > 0 {
		t.Fatalf("%v litres in a freezer of %v, for %v", room, s.Freezer, paid)
	}
	if p.Busy != last || !p.Saving.Equal(saving) {
		t.Fatalf("busy until %v, said %v; saves %v, said %v", last, p.Busy, saving, p.Saving)
	}
}

// checkFewest refuses packages that save nothing more.
func checkFewest(t *rapid.T, p pricing.Plan, decisions []pricing.Decision) {
	for _, choice := range p.Choices {
		for n := range choice.Row.Packages {
			if decisions[choice.Candidate].Row(n).Saving.Cmp(choice.Row.Saving) >= 0 {
				t.Fatalf("%d packages of %d do not save less: %+v", n, choice.Candidate, choice.Row)
			}
		}
	}
}

// By hand: two foods that both want the whole of 24 hours. Berries turn after
// 14 h and gain 3.00 a cycle of 12 h; broth keeps for 26 h and gains 2.00 a
// cycle of 12 h. One cycle each, berries first, saves 5.00; two of broth 4.00.
func TestPlanByHand(t *testing.T) {
	food := func(shelf string) pricing.Sale {
		return pricing.Sale{
			Price: num("1"), Size: num("1"), Limit: exact.Some(9), Shelf: ratio(shelf, "1"),
			Load: num("1"), Yield: ratio("1", "1"), Each: num("1"),
		}
	}
	p, err := pricing.MakePlan([]pricing.Candidate{
		{Sale: food("3"), Cycle: 12 * hour, Due: 26 * hour},
		{Sale: food("4"), Cycle: 12 * hour, Due: 14 * hour},
	}, pricing.Shared{Turnaround: 2 * hour})
	if err != nil {
		t.Fatal(err)
	}
	wantRatio(t, "saving", p.Saving, ratio("5", "1"))
	if len(p.Choices) != 2 || p.Choices[0].Candidate != 1 || p.Choices[1].Start != 14*hour || p.Busy != 26*hour {
		t.Errorf("plan %+v", p)
	}
}

// By hand: 10 h are open for either of two foods, which save 5.00 and 6.00, and 10 h
// more for a third, which saves 1.00. A search that keeps one way takes the first food,
// and gives up 6.00 + 1.00 at most, what the others save each by itself; with the third
// it comes to 6.00, and what it gives up there, 5.00, is less. So it is short of 1.00 at
// most: the best, the second and third, saves 7.00.
func TestPlanShortByHand(t *testing.T) {
	food := func(shelf string) pricing.Sale {
		return pricing.Sale{
			Price: num("1"), Size: num("1"), Limit: exact.Some(1), Shelf: ratio(shelf, "1"),
			Load: num("1"), Yield: ratio("1", "1"), Each: num("1"),
		}
	}
	candidates := []pricing.Candidate{
		{Sale: food("6"), Cycle: 10 * hour, Due: 10 * hour},
		{Sale: food("7"), Cycle: 10 * hour, Due: 10 * hour},
		{Sale: food("2"), Cycle: 10 * hour, Due: 20 * hour},
	}
	for keep, want := range map[int][2]string{1: {"6", "1"}, 9: {"7", "0"}} {
		p, err := pricing.MakePlanKeeping(candidates, pricing.Shared{}, keep)
		if err != nil {
			t.Fatal(err)
		}
		wantRatio(t, fmt.Sprintf("saving with %d kept", keep), p.Saving, ratio(want[0], "1"))
		wantRatio(t, fmt.Sprintf("short with %d kept", keep), p.Short, ratio(want[1], "1"))
	}
}

// By hand: one cycle is in time for any of three foods, and two of them may wait frozen. The first fills
// a fifth of a cycle, which gives no room in the freezer. It saves 3, the others 6 and 4.50, or 2.00 and
// 1.50 for each litre that fits. With 3 litres it is left: 6 fresh, and 4.50 frozen.
func TestPlanFillsTheFreezerNoFurther(t *testing.T) {
	food := func(shelf string, most int) pricing.Sale {
		return pricing.Sale{
			Price: num("1"), Size: num("1"), Limit: exact.Some(most), Shelf: ratio(shelf, "1"),
			Load: num("5"), Yield: ratio("1", "1"), Each: num("1"),
		}
	}
	for freezer, saving := range map[string]string{"0": "6", "3": "10.5", "5": "12", "6": "13.5"} {
		p, err := pricing.MakePlan([]pricing.Candidate{
			{Sale: food("4", 1), Cycle: 12 * hour, Due: 12 * hour, Litres: ratio("1", "1")},
			{Sale: food("3", 3), Cycle: 12 * hour, Due: 13 * hour, Frozen: exact.Some(90 * hour), Litres: ratio("1", "1")},
			{Sale: food("2.5", 3), Cycle: 12 * hour, Due: 13 * hour, Frozen: exact.Some(90 * hour), Litres: ratio("1", "1")},
		}, pricing.Shared{Turnaround: 2 * hour, Freezer: num(freezer)})
		if err != nil {
			t.Fatal(err)
		}
		wantRatio(t, "saving with a freezer of "+freezer+" L", p.Saving, exact.RatioOf(num(saving)))
	}
}

// What is dried comes first, in its order; then what is eaten fresh alone, in the
// order in which it turns.
func TestPlanListsFreshFoodLast(t *testing.T) {
	food := func(fresh string) pricing.Sale {
		return pricing.Sale{
			Price: num("1"), Size: num("1"), Limit: exact.Some(1), Shelf: ratio("3", "1"), FreshUse: num(fresh),
			Load: num("1"), Yield: ratio("1", "1"), Each: num("1"),
		}
	}
	p, err := pricing.MakePlan([]pricing.Candidate{
		{Sale: food("1"), Cycle: hour, Due: 2 * hour}, {Sale: food("0"), Cycle: hour, Due: 9 * hour},
		{Sale: food("1"), Cycle: hour, Due: hour}, {Sale: food("0"), Cycle: hour, Due: 8 * hour},
	}, pricing.Shared{})
	if err != nil {
		t.Fatal(err)
	}
	var order []int
	for _, c := range p.Choices {
		order = append(order, c.Candidate)
	}
	if got := fmt.Sprint(order); got != "[3 1 2 0]" {
		t.Errorf("the choices are in the order %s, want what is dried and then what is eaten fresh: [3 1 2 0]", got)
	}
}

func TestPlanErrors(t *testing.T) {
	if p, err := pricing.MakePlan(nil, pricing.Shared{}); err != nil || len(p.Choices) != 0 {
		t.Errorf("no candidates: %+v (%v)", p, err)
	}
	_, err := pricing.MakePlan([]pricing.Candidate{{Sale: broth(), Due: hour}}, pricing.Shared{})
	var wrong *pricing.SaleError
	if !errors.As(err, &wrong) || wrong.Field != "run" {
		t.Errorf("no run time: %v", err)
	}
	s := broth()
	s.Size = exact.Number{}
	if _, err = pricing.MakePlan([]pricing.Candidate{{Sale: s, Cycle: hour}}, pricing.Shared{}); !errors.As(err, &wrong) || wrong.Field != "Size" {
		t.Errorf("no size: %v", err)
	}
}

func ExampleMakePlan() {
	berries := broth()
	berries.Price, berries.Shelf = num("1.10"), ratio("4.20", "1")
	foods := []string{"broth", "berries"}
	plan, err := pricing.MakePlan([]pricing.Candidate{
		{Sale: broth(), Cycle: 26 * time.Hour, Due: 6 * 24 * time.Hour},
		{Sale: berries, Cycle: 34 * time.Hour, Due: 3 * 24 * time.Hour},
	}, pricing.Shared{Turnaround: 3 * time.Hour})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range plan.Choices {
		fmt.Printf("%d of %s, dried from %v to %v\n", c.Row.Packages, foods[c.Candidate], c.Start, c.End)
	}
	fmt.Println("saves", plan.Saving.Round(2, exact.HalfAway).Fixed(2))
	// Output:
	// 10 of berries, dried from 0s to 71h0m0s
	// 10 of broth, dried from 74h0m0s to 129h0m0s
	// saves 24.80
}

// A household's fridge: eight foods, each with a handful of cycles at most.
func BenchmarkMakePlan(b *testing.B) {
	var candidates []pricing.Candidate
	for i := range 8 {
		s := broth()
		s.Limit, s.MaxCycles = exact.Some(40+i), exact.Opt[int]{}
		s.Price = exact.New(int64(60+3*i), 2)
		candidates = append(candidates, pricing.Candidate{
			Sale: s, Cycle: time.Duration(20+i)*hour + time.Duration(7*i)*time.Minute, Due: time.Duration(100+40*i) * hour,
		})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := pricing.MakePlan(candidates, pricing.Shared{Turnaround: 3 * hour}); err != nil {
			b.Fatal(err)
		}
	}
}
