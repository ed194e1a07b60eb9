package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A TakeIn is what was taken out, as a person types it.
type TakeIn struct {
	Things []string // "yogurt", "2 rice", "pack c46-a", "0.5 kg onions"
	Reason string   // used, given or spoiled; "": used
	Date   string   // "": today
	Note   string
}

// Take records what was taken out: containers of a food, of the packs soonest
// due; containers of a pack; fresh food by its amount; pieces of a supply. It
// refuses more than is there.
func Take(b *Base, in TakeIn) (*Draft, error) {
	var bad Wrongs
	if len(in.Things) == 0 {
		bad.add("things", 0, noWords("say what was taken, such as %s", b.takable()))
	}
	day, err := b.day(in.Date)
	bad.add("date", 0, err)
	t := taking{b: b, in: in, day: day, gone: map[string]exact.Number{}, draft: &Draft{}}
	things, wrong := b.parseThings(in.Things)
	t.look(things)
	for i := range things {
		if wrong[i] == nil {
			wrong[i] = t.take(things[i])
		}
		bad.add("things", i+1, wrong[i])
	}
	if err := b.refused(&bad); err != nil {
		return nil, err
	}
	t.draft.heed(t.g, t.day, in.Reason)
	if in.Reason == ledger.Given.String() {
		t.mayStay()
	}
	return t.draft, nil
}

// takable is what to type to take something out, of the foods that are in store.
func (b *Base) takable() string {
	var foods []string
	if g, err := b.Ledger(); err == nil {
		for f := range g.Foods {
			if figures.InStore(g, f) > 1 {
				foods = append(foods, g.Foods[f].ID)
			}
		}
	}
	switch len(foods) {
	case 0:
		return `yogurt, "2 rice" or "0.5 kg onions"`
	case 1:
		return foods[0] + ` or "2 ` + foods[0] + `"`
	}
	return foods[0] + ` or "2 ` + foods[1] + `"`
}

// parseThings reads things, each with what is wrong with it.
func (b *Base) parseThings(texts []string) (things []thing, wrong []error) {
	things, wrong = make([]thing, len(texts)), make([]error, len(texts))
	for i, text := range texts {
		things[i], wrong[i] = b.parseThing(text)
	}
	return things, wrong
}

// refused is what is wrong with what was typed; faults that the records have already
// come first.
func (b *Base) refused(bad *Wrongs) error {
	err := bad.Err()
	if err != nil {
		if _, faults := b.Hand(); faults != nil {
			return faults
		}
	}
	return err
}

// A taking is a draft of draws in the making.
type taking struct {
	b     *Base
	g     *ledger.Ledger // what is in store of the foods, or all joined
	in    TakeIn
	day   exact.Date              // on which it is taken, in the ledger's zone
	gone  map[string]exact.Number // what this change takes already, by identifier
	draft *Draft

	items []string       // all foods and supplies of the things
	hand  bool           // g has what is in hand of them too
	then  *ledger.Ledger // what was in hand of them at the end of the day; nil: what is
}

// look finds what is in store of the foods of things.
func (t *taking) look(things []thing) {
	var foods, packs []string
	for _, thing := range things {
		if packs = append(packs, thing.pack); thing.food >= 0 {
			foods = append(foods, t.b.Records.Foods[thing.food].ID)
		}
		if thing.supply >= 0 {
			t.items = append(t.items, t.b.Records.Supplies[thing.supply].ID)
		}
	}
	t.g = t.b.Store(foods, packs)
	t.items = slices.Concat(t.items, foods, t.g.Records.Packs.Distinct(func(p *ledger.Pack) string { return p.Item }))
}

// lookInHand finds what is in hand of the foods and supplies of things too.
func (t *taking) lookInHand() {
	if !t.hand {
		t.g, t.then, t.hand = t.b.InHand(t.items...), t.b.InHandOn(t.day, t.items...), true
	}
}

func (t *taking) take(thing thing) error {
	switch {
	case thing.pack != "":
		return t.fromPack(thing)
	case thing.supply < 0 && !thing.amount.Given():
		return t.containers(thing)
	}
	t.lookInHand()
	if thing.supply >= 0 {
		return t.pieces(thing)
	}
	return t.fresh(thing, thing.amount)
}

// row adds a draw. Column is what quantity is of: pack or item.
func (t *taking) row(column, id, quantity string) {
	t.draft.Rows = append(t.draft.Rows, Row{ledger.MustKind("draw"), map[string]string{
		"date": t.day.String(), column: id, "quantity": quantity, "reason": cmp.Or(t.in.Reason, ledger.Used.String()), "note": t.in.Note,
	}})
}

// number is how many a thing is: 1 where none was said.
func (t *thing) number(of string) (int, error) {
	if t.count == "" {
		return 1, nil
	}
	n, err := exact.ParseNumber(t.count)
	count, whole := n.Int64()
	if err != nil || !whole || count < 1 || count > 1_000_000 {
		return 0, typed(t.text, t.count+" is not a whole number of "+of)
	}
	return int(count), nil
}

// left is what is left of a pack, with what this change takes.
func (t *taking) left(pack int) int {
	n, _ := t.gone["pack "+t.g.Records.Packs.At(pack).ID].Int64()
	return t.g.Packs[pack].Left() - int(n)
}

func (t *taking) drawPack(pack, count int) {
	id := t.g.Records.Packs.At(pack).ID
	t.gone["pack "+id] = t.gone["pack "+id].Add(exact.Int(int64(count)))
	t.row("pack", id, strconv.Itoa(count))
}

// fromPack takes containers of a pack.
func (t *taking) fromPack(thing thing) error {
	if thing.amount.Given() {
		return typed(thing.text, "of a pack whole containers are taken, such as \"2 pack "+thing.pack+"\"")
	}
	n, err := thing.number("containers")
	if err != nil {
		return err
	}
	i, _ := t.g.FindPack(thing.pack)
	if packed := t.g.Records.Packs.At(i).Date; packed > t.day {
		return typed(thing.text, fmt.Sprintf("pack %s was packed on %s, after %s", thing.pack, t.g.Settings.Show().Date(packed), t.g.Settings.Show().Date(t.day)))
	}
	if left := t.left(i); n > left {
		return typed(thing.text, fmt.Sprintf("%s of pack %s %s left", howMany(left), thing.pack, isAre(left)))
	}
	t.drawPack(i, n)
	return nil
}

// containers takes containers of a food, of the packs soonest due. A food of
// which none is in store, and that is counted in pieces, is taken fresh.
func (t *taking) containers(thing thing) error {
	food := &t.g.Foods[thing.food]
	due, there := t.inStore(thing.food)
	if len(due) == 0 && food.Basis == exact.Ea {
		t.lookInHand()
		n, err := thing.number("pieces")
		if err != nil {
			return err
		}
		return t.fresh(thing, exact.Ea.Of(exact.Int(int64(n))))
	}
	want, err := thing.number("containers")
	switch {
	case err != nil:
		return typed(thing.text, fmt.Sprintf("%s is not a whole number of containers; of fresh %s write the unit too, such as \"%s %v %s\"", thing.count, food.Title(), thing.count, food.Basis, food.ID))
	case there < want:
		t.lookInHand()
		return typed(thing.text, t.tooFew(thing.food, there))
	}
	for _, i := range due {
		if n := min(t.left(i), want); n > 0 {
			t.drawPack(i, n)
			want -= n
		}
	}
	return nil
}

// inStore are the packs of a food of which any can be taken on the day, those soonest
// due first, and how many containers they have.
func (t *taking) inStore(food int) (due []int, there int) {
	due = figures.PacksDue(t.g, food, t.day)
	for _, i := range due {
		there += t.left(i)
	}
	return due, there
}

// tooFew says what there is of a food of which not enough containers are in
// store.
func (t *taking) tooFew(food, there int) string {
	f := &t.g.Foods[food]
	if there > 0 {
		return fmt.Sprintf("only %s of %s %s in store: \"%d %s\" takes all", howMany(there), f.Title(), isAre(there), there, f.ID)
	}
	if t.then != nil {
		if n := figures.InStore(t.then, food); n > 0 {
			return fmt.Sprintf("of %s the %s in store%s %s taken out since, by later records: change or take out one of those first, as %s shows them", f.Title(), howMany(n), t.onDay(), wasWere(n), t.g.Settings.Say(advice.Do(advice.List("draw"))))
		}
	}
	if left := t.inHand(food); left.Sign() > 0 {
		amount := t.g.Settings.Show().Typeable(left, f.Basis)
		return fmt.Sprintf("no container of %s is in store; %s of it is in hand fresh%s: \"%s %s\" takes that", f.Title(), amount, t.onDay(), amount, f.ID)
	}
	return "no container of " + f.Title() + " is in store, and none of it is in hand fresh" + t.onDay()
}

// inHand is what is in hand fresh of a food, less what this change takes: on the day,
// and after all that came later.
func (t *taking) inHand(food int) exact.Number {
	left := t.g.FoodStock(food).Left
	if t.then != nil {
		left = left.Min(t.then.FoodStock(food).Left)
	}
	return left.Sub(t.gone["fresh "+t.g.Foods[food].ID])
}

// onDay says of which day it is what is in hand, where later records tell of more
// days.
func (t *taking) onDay() string { return onDay(t.then) }

// onDay names the day of a ledger as it was; "" for nil, which is as it is.
func onDay(then *ledger.Ledger) string {
	if then == nil {
		return ""
	}
	return " on " + then.Settings.Locale.Date(then.AsOf)
}

// fresh takes an amount of fresh food.
func (t *taking) fresh(thing thing, amount exact.Quantity) error {
	f := &t.g.Foods[thing.food]
	n, err := f.InBasis(amount)
	left := t.inHand(thing.food)
	switch {
	case err != nil:
		return typed(thing.text, err.Error())
	case n.Sign() <= 0:
		return typed(thing.text, "the amount is not above 0")
	case left.Less(n) && left.Sign() > 0:
		amount := t.g.Settings.Show().Typeable(left, f.Basis)
		return typed(thing.text, fmt.Sprintf("only %s of %s is in hand fresh%s%s: \"%s %s\" takes all", amount, f.Title(), t.onDay(), lessRefuse(f), amount, f.ID))
	case left.Less(n):
		why := "no " + f.Title() + " is in hand fresh" + t.onDay()
		if _, there := t.inStore(thing.food); there > 0 {
			why += fmt.Sprintf("; of its %s in store write how many, such as \"1 %s\"", howMany(there), f.ID)
		}
		return typed(thing.text, why)
	}
	t.gone["fresh "+f.ID] = t.gone["fresh "+f.ID].Add(n)
	t.row("item", f.ID, amount.String())
	return nil
}

// pieces takes pieces of a supply.
func (t *taking) pieces(thing thing) error {
	s := &t.g.Supplies[thing.supply]
	n, err := exact.ParseNumber(cmp.Or(thing.count, "1"))
	switch {
	case thing.amount.Given():
		return typed(thing.text, "of a supply pieces are taken, such as \"2 "+s.ID+"\"")
	case err != nil || n.Sign() <= 0 || s.ServesAgain() && !n.IsInt():
		return typed(thing.text, thing.count+" is not a number of pieces of "+s.Title())
	}
	free := t.g.Pieces(thing.supply).Free
	// On an earlier day no more can be taken than there was then, nor than later records left.
	if t.then != nil {
		if then := t.then.Pieces(thing.supply).Free; then.Cmp(free) < 0 {
			free = then
		}
	}
	free = free.Sub(exact.RatioOf(t.gone["supply "+s.ID]))
	if free.Cmp(exact.RatioOf(n)) < 0 {
		what := "there"
		if s.ServesAgain() {
			what = "there empty"
		}
		if free.Sign() <= 0 {
			return typed(thing.text, fmt.Sprintf("no %s is %s%s", s.Title(), what, t.onDay()))
		}
		return typed(thing.text, fmt.Sprintf("only %s of %s is %s%s", t.g.Settings.Show().Number(free.Round(3, exact.Down)), s.Title(), what, t.onDay()))
	}
	t.gone["supply "+s.ID] = t.gone["supply "+s.ID].Add(n)
	t.row("item", s.ID, n.String())
	return nil
}

// mayStay says of what serves again, of packs given away, that it counts as returned, and
// how to record that it is not.
func (t *taking) mayStay() {
	var things []string
	sums := map[string]exact.Number{}
	for _, row := range t.draft.Rows {
		i, _ := t.g.FindPack(row.Cells["pack"])
		if row.Cells["pack"] == "" {
			continue
		}
		count, _ := exact.ParseNumber(row.Cells["quantity"])
		// Only a jar, bag or lid that serves again counts as returned: all else went when it was packed.
		for _, u := range t.g.Records.Packs.At(i).With {
			again := func(s ledger.Supply) bool { return s.ID == u.Supply && s.ServesAgain() }
			if !slices.ContainsFunc(t.g.Records.Supplies, again) {
				continue
			}
			if _, there := sums[u.Supply]; !there {
				things = append(things, u.Supply)
			}
			sums[u.Supply] = sums[u.Supply].Add(count.Mul(u.Number))
		}
	}
	if things == nil {
		return
	}
	for i, id := range things {
		things[i] = sums[id].String() + " " + id
	}
	gone := advice.Do(advice.Take, things...).With("reason", t.in.Reason).With("date", t.day.String())
	t.draft.After = append(t.draft.After, report.Remark{Words: "The containers count as returned. Record those that are not: " + t.g.Settings.Say(gone)})
}

// Draw records one draw by its cells, as records have them.
func Draw(b *Base, cells map[string]string) *Draft {
	d := &Draft{Rows: []Row{{ledger.MustKind("draw"), cells}}}
	d.heed(b.Store([]string{cells["item"]}, []string{cells["pack"]}), b.At.Day(cells["date"]), cells["reason"])
	return d
}

// heed adds to draws what to know: best-by past before they are saved, cautions of what
// is opened after, and of each pack how to bring it back.
func (d *Draft) heed(g *ledger.Ledger, day exact.Date, reason string) {
	names := thingsIn(d.Rows)
	spoiled := reason == ledger.Spoiled.String()
	if !spoiled {
		d.Heed = report.PastDue(g, day, names...)
		d.After = report.Opened(g, names...)
	}
	d.Advise = func(g *ledger.Ledger) []report.Remark { return report.TakenOut(g, !spoiled, slices.Compact(names)...) }
}

// howMany is a number of containers.
func howMany(n int) string {
	switch n {
	case 0:
		return "no container"
	case 1:
		return "1 container"
	}
	return fmt.Sprintf("%d containers", n)
}

func wasWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were all"
}

func isAre(n int) string {
	if n < 2 {
		return "is"
	}
	return "are"
}
