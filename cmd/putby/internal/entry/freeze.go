package entry

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// A FreezeIn is what went into the freezer, as a person types it.
type FreezeIn struct {
	Things []string // "3 kg strawberries"; a name alone is all that is in hand
	Date   string   // "": today
	Note   string
}

// Freeze records that fresh food in hand went into the freezer, to wait for the
// machine. It refuses more than is in hand and is not frozen.
func Freeze(b *Base, in FreezeIn) (*Draft, error) {
	var bad Wrongs
	if len(in.Things) == 0 {
		bad.add("things", 0, noWords("say what went into the freezer, such as \"3 kg strawberries\""))
	}
	day, err := b.day(in.Date)
	bad.add("date", 0, err)
	things, wrong := b.parseThings(in.Things)
	var foods []string
	for i := range things {
		if wrong[i] == nil && things[i].food >= 0 {
			foods = append(foods, b.Records.Foods[things[i].food].ID)
		}
	}
	f := freezing{day: day, gone: map[int]exact.Number{}, draft: &Draft{}}
	// Where later records took of the food too, what was in hand on the day counts, not what is left now.
	if f.g = b.InHandOn(day, foods...); f.g != nil {
		f.onDay = onDay(f.g)
	} else {
		f.g = b.InHand(foods...)
	}
	for i, thing := range things {
		if wrong[i] == nil {
			wrong[i] = f.freeze(thing, in.Note)
		}
		bad.add("things", i+1, wrong[i])
	}
	if err := b.refused(&bad); err != nil {
		return nil, err
	}
	return f.draft, nil
}

// A freezing is a draft of what went into the freezer in the making.
type freezing struct {
	g     *ledger.Ledger       // what was in hand at the end of the day
	day   exact.Date           // on which it went in, in the ledger's zone
	onDay string               // which, where later records tell of more
	gone  map[int]exact.Number // by food, what this change freezes already
	draft *Draft
}

func (f *freezing) freeze(thing thing, note string) error {
	if thing.food < 0 {
		return typed(thing.text, "only fresh food goes into the freezer, such as \"3 kg strawberries\"")
	}
	food := &f.g.Foods[thing.food]
	if thing.count != "" && food.Basis != exact.Ea {
		return typed(thing.text, fmt.Sprintf("it has no unit: write \"%s %v %s\"", thing.count, food.Basis, food.ID))
	}
	loose, frozen := f.inHand(thing.food)
	n, amount, err := f.amount(thing, loose)
	if err != nil {
		return err
	}
	switch {
	case loose.Sign() <= 0 && frozen.Sign() > 0:
		return typed(thing.text, "all "+food.Title()+" in hand"+f.onDay+", "+f.g.Settings.Show().Amount(frozen, food.Basis)+", is frozen already")
	case loose.Sign() <= 0:
		return typed(thing.text, "no "+food.Title()+" is in hand"+f.onDay+": a receipt of it may be missing, or what was eaten or dried is recorded already")
	case n.Sign() <= 0:
		return typed(thing.text, "the amount is not above 0")
	case loose.Less(n):
		amount := f.g.Settings.Show().Typeable(loose, food.Basis)
		return typed(thing.text, fmt.Sprintf("only %s of %s is in hand and not frozen%s: \"%s %s\" freezes all", amount, food.Title(), f.onDay, amount, food.ID))
	}
	f.gone[thing.food] = f.gone[thing.food].Add(n)
	f.heed(thing.food)
	f.draft.Rows = append(f.draft.Rows, Row{ledger.MustKind("frozen"), map[string]string{
		"date": f.day.String(), "item": food.ID, "quantity": amount.String(), "note": note,
	}})
	return nil
}

// amount is how much of a food is meant: all that is not frozen, where only its
// name was given.
func (f *freezing) amount(thing thing, loose exact.Number) (exact.Number, exact.Quantity, error) {
	food, amount := &f.g.Foods[thing.food], thing.amount
	switch {
	case thing.count != "": // pieces
		n, err := thing.number("pieces")
		if err != nil {
			return exact.Number{}, amount, err
		}
		amount = exact.Ea.Of(exact.Int(int64(n)))
	case !amount.Given():
		amount = food.Basis.Of(loose.Round(exact.MaxFraction, exact.Down))
	}
	n, err := food.InBasis(amount)
	if err != nil {
		return n, amount, typed(thing.text, err.Error())
	}
	return n, amount, nil
}

// inHand is what is in hand of a food that is not frozen, less what this change
// freezes, and what is.
func (f *freezing) inHand(food int) (loose, frozen exact.Number) {
	for _, p := range f.g.FreshParts(food) {
		if p.Frozen {
			frozen = frozen.Add(p.Quantity)
		} else {
			loose = loose.Add(p.Quantity)
		}
	}
	return loose.Sub(f.gone[food]), frozen
}

// heed says of food that has turned that freezing makes it no fresher, and of one
// that keeps nobody knows how long what would tell.
func (f *freezing) heed(food int) {
	about := &f.g.Foods[food]
	for _, p := range f.g.FreshParts(food) {
		if !p.Frozen && p.Turned(f.day) {
			f.draft.Notes = append(f.draft.Notes, fmt.Sprintf("Some of the %s was to be used by %s: freezing makes it no fresher. If in doubt, throw it out.", about.Title(), f.g.Settings.Show().Date(p.UseBy)))
			break
		}
	}
	if !about.FrozenDays.Given() {
		f.draft.Notes = append(f.draft.Notes, fmt.Sprintf("How long %s keeps frozen is not known. To record it: %s", about.Title(), f.g.Settings.Say(advice.Do(advice.Edit, "food", about.ID).Such("frozen_days", "DAYS"))))
	}
}
