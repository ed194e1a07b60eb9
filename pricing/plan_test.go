package pricing_test

import (
	"errors"
	"fmt"
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

// Law: no choice of packages whose cycles can be dried in time, in any order
// whatever, saves more; and the plan itself keeps every date.
func TestPlanAgainstBruteForce(t *testing.T) {
	contested, checked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		turnaround := time.Duration(rapid.IntRange(0, 2).Draw(t, "turnaround")) * hour
		candidates := make([]pricing.Candidate, rapid.IntRange(2, 3).Draw(t, "foods"))
		decisions := make([]pricing.Decision, len(candidates))
		alone := exact.Ratio{}
		for i := range candidates {
			candidates[i] = drawCandidate(t)
			decisions[i] = mustDecide(t, candidates[i].Sale)
			s := candidates[i].Sale
			k, _ := pricing.CyclesBefore(candidates[i].Due, candidates[i].Cycle, turnaround)
			s.MaxCycles = exact.Some(k)
			alone = alone.Add(mustDecide(t, s).Best.Saving)
		}
		p, err := pricing.MakePlan(candidates, turnaround)
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, p, candidates, turnaround)
		checkFewest(t, p, decisions)
		b := bruteForce{candidates: candidates, decisions: decisions, turnaround: turnaround}
		b.choose(0, exact.Ratio{})
		if !p.Saving.Equal(b.best) {
			t.Fatalf("plan saves %v, the best choice %v", p.Saving, b.best)
		}
		checked++
		if p.Saving.Cmp(alone) < 0 {
			contested++
		}
	})
	t.Logf("%d of %d contested", contested, checked)
	if 20*contested < checked {
		t.Errorf("foods compete for the machine in only %d of %d cases", contested, checked)
	}
}

// bruteForce tries every number of packages of every food, and every order of
// their cycles.
type bruteForce struct {
	candidates []pricing.Candidate
	decisions  []pricing.Decision
	turnaround time.Duration
	cycles     []int // of each food taken so far
	best       exact.Ratio
}

func (b *bruteForce) choose(food int, saving exact.Ratio) {
	if food == len(b.candidates) {
		if saving.Cmp(b.best) > 0 && b.inTime(append([]int(nil), b.cycles...), 0) {
			b.best = saving
		}
		return
	}
	for r := range b.decisions[food].Rows() {
		b.cycles = append(b.cycles, r.Cycles)
		b.choose(food+1, saving.Add(r.Saving))
		b.cycles = b.cycles[:food]
	}
}

// inTime reports whether some order of the cycles left, begun at now, keeps
// every date.
func (b *bruteForce) inTime(left []int, now time.Duration) bool {
	done := true
	for i, k := range left {
		if k == 0 {
			continue
		}
		done = false
		end := now + b.candidates[i].Cycle
		if end > b.candidates[i].Due {
			continue
		}
		left[i]--
		ok := b.inTime(left, end+b.turnaround)
		left[i]++
		if ok {
			return true
		}
	}
	return done
}

// checkPlan lays the plan out on a clock.
func checkPlan(t *rapid.T, p pricing.Plan, candidates []pricing.Candidate, turnaround time.Duration) {
	var free, last time.Duration
	var saving exact.Ratio
	for _, choice := range p.Choices {
		c := candidates[choice.Candidate]
		saving = saving.Add(choice.Row.Saving)
		k := time.Duration(choice.Row.Cycles)
		if k == 0 {
			continue
		}
		takes := k*c.Cycle + (k-1)*turnaround
		if choice.Start != free || choice.End != choice.Start+takes || choice.End > c.Due {
			t.Fatalf("choice %+v from %v, due %v", choice, free, c.Due)
		}
		last, free = choice.End, choice.End+turnaround
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
	}, 2*hour)
	if err != nil {
		t.Fatal(err)
	}
	wantRatio(t, "saving", p.Saving, ratio("5", "1"))
	if len(p.Choices) != 2 || p.Choices[0].Candidate != 1 || p.Choices[1].Start != 14*hour || p.Busy != 26*hour {
		t.Errorf("plan %+v", p)
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
	}, 0)
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
	if p, err := pricing.MakePlan(nil, 0); err != nil || len(p.Choices) != 0 {
		t.Errorf("no candidates: %+v (%v)", p, err)
	}
	_, err := pricing.MakePlan([]pricing.Candidate{{Sale: broth(), Due: hour}}, 0)
	var wrong *pricing.SaleError
	if !errors.As(err, &wrong) || wrong.Field != "run" {
		t.Errorf("no run time: %v", err)
	}
	s := broth()
	s.Size = exact.Number{}
	if _, err = pricing.MakePlan([]pricing.Candidate{{Sale: s, Cycle: hour}}, 0); !errors.As(err, &wrong) || wrong.Field != "Size" {
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
	}, 3*time.Hour)
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
		if _, err := pricing.MakePlan(candidates, 3*hour); err != nil {
			b.Fatal(err)
		}
	}
}
