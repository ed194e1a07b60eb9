package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// stores values the packs in store at the end of each period afresh, pack by
// pack, and holds that against what came in and went out. The error is
// [ErrUnbalanced].
func (t *tallier) stores() error {
	c := storeByDay{g: t.g, wants: func(pack int) bool { return t.scope.wantsPack(t.g, pack) }, taken: make([]int, len(t.g.Packs))}
	c.order()
	var before exact.Money
	for i := range t.tallies {
		row := &t.tallies[i]
		c.through(t.periods[i].To)
		row.Opening, row.Closing = before, c.value
		before = c.value
		// Two ways to one sum: a move in a wrong period, twice or nowhere is seen here.
		if !row.left().Equal(row.Closing) {
			return ErrUnbalanced
		}
	}
	if t.everything() && !before.Equal(t.g.InStore()) {
		return ErrUnbalanced
	}
	return nil
}

// A storeByDay is the packs in store as time goes by.
type storeByDay struct {
	g     *ledger.Ledger
	wants func(pack int) bool
	packs []int         // still to come, by date
	moves []ledger.Move // still to come, as the ledger has them
	taken []int         // containers gone, by pack
	value exact.Money   // what is in store cost
}

// order puts the packs that were packed in order of date; moves are in it.
func (c *storeByDay) order() {
	for i := range c.g.Packs {
		if c.g.Packs[i].Done && c.wants(i) {
			c.packs = append(c.packs, i)
		}
	}
	date := c.g.Records.PackDate
	slices.SortStableFunc(c.packs, func(a, b int) int { return cmp.Compare(date(a), date(b)) })
	c.moves = c.g.Moves
}

// through goes on to the end of a day. Containers leave in order, so those left cost
// the pack's total less its first so many, and each move the difference of two of
// those: no rounding comes between.
func (c *storeByDay) through(day exact.Date) {
	for len(c.packs) > 0 && c.g.Records.PackDate(c.packs[0]) <= day {
		p := &c.g.Packs[c.packs[0]]
		c.value = c.value.Add(p.Total()).Sub(p.First(c.taken[c.packs[0]]))
		c.packs = c.packs[1:]
	}
	for len(c.moves) > 0 && c.moves[0].Date <= day {
		m := &c.moves[0]
		c.moves = c.moves[1:]
		if m.Pack < 0 || !c.wants(m.Pack) {
			continue
		}
		n, _ := m.Quantity.Int64()
		p, was := &c.g.Packs[m.Pack], c.taken[m.Pack]
		c.taken[m.Pack] += int(n)
		c.value = c.value.Add(p.First(was)).Sub(p.First(c.taken[m.Pack]))
	}
}
