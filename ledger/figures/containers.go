package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Packing is what a container gives and what goes into it.
type Packing struct {
	Each exact.Number // in the food's basis unit
	With []ledger.Use // supplies per container; none where they are not counted, or at a price of their own
	cost func(containers int) exact.Money
}

// packingOf finds the packing as it is given, else as last done for the food.
// The error is a [*FactError] or a [*MissingError].
func packingOf(g *ledger.Ledger, q *WorthQuery, m Made) (p Packing, err error) {
	if slices.Contains(q.Without, ledger.SuppliesCost) {
		return p, nil
	}
	each, with := q.Each, q.With
	if i := lastPackOf(g, m.Dried); i >= 0 {
		last := g.Records.Packs.At(i)
		if !each.Given() {
			each = last.Each
		}
		if with == nil {
			with = append([]ledger.Use{}, last.With...) // not nil: packed in nothing that is counted
		}
	}
	var problems problems
	if each.Given() || each.Sign() > 0 { // a bare number is one of pieces
		p.Each, err = m.eaten(g, EachFact, each)
		problems.add(err)
	} else {
		problems.add(lack(Missing{Fact: EachFact, Food: m.Dried}))
	}
	cost, given := q.PackCost.Get()
	switch {
	case given:
		cost = post(g, cost.Ratio())
		p.cost = func(n int) exact.Money { return cost.Times(exact.Int(int64(n))) }
	case with == nil: // neither given nor known from a pack
		problems.add(lack(Missing{Fact: WithFact, Food: m.Dried}))
	default:
		p.With = with
		p.cost = func(n int) exact.Money {
			sum, _ := suppliesCost(g, with, n)
			return sum
		}
		problems.add(priced(g, with))
	}
	return p, problems.err()
}

// priced checks that every supply is recorded with a price of some kind.
func priced(g *ledger.Ledger, with []ledger.Use) error {
	for _, u := range with {
		i, ok := g.FindSupply(u.Supply)
		if !ok {
			return &FactError{Fact: WithFact, Fault: Unknown, Name: u.Supply}
		}
		if !g.Supplies[i].Price.Given() && len(g.SupplyStock(i).Lots()) == 0 {
			return lack(Missing{Fact: PackCostFact, Supply: u.Supply})
		}
	}
	return nil
}

// A SupplyNote is what to know about what a supply costs.
type SupplyNote struct {
	Kind         SupplyNoteKind
	Supply       string
	Wanted, Rest exact.Number // AtNewest: uses wanted, and those of them that are not in hand
	Stated       string       // StatedOfSupply: what the ledger notes
}

// A SupplyNoteKind says what it is.
type SupplyNoteKind uint8

// The notes.
const (
	StatedOfSupply SupplyNoteKind = iota
	NoSupply                      // there is none of that name: it is left out
	SupplyUnpriced                // it has no receipt and no list price: it is left out
	AtNewest                      // what is not in hand is taken at what the newest cost
)

// suppliesCost is what so many times the uses would cost if they were drawn now:
// from the lots in hand, and beyond them at list price, or where there is none
// at what the newest lot cost.
func suppliesCost(g *ledger.Ledger, with []ledger.Use, times int) (sum exact.Money, notes []SupplyNote) {
	n := exact.Int(int64(times))
	for _, u := range with {
		cost, stated, err := g.NextUses([]ledger.Use{u}, n)
		if err != nil {
			var note SupplyNote
			cost, note = beyondLots(g, u, n)
			notes = append(notes, note)
		} else {
			for _, s := range stated {
				notes = append(notes, SupplyNote{Stated: s})
			}
		}
		sum = sum.Add(cost)
	}
	return sum, notes
}

// beyondLots prices uses that lots do not cover and that have no list price.
func beyondLots(g *ledger.Ledger, u ledger.Use, times exact.Number) (exact.Money, SupplyNote) {
	i, ok := g.FindSupply(u.Supply)
	if !ok {
		return exact.Money{}, SupplyNote{Kind: NoSupply, Supply: u.Supply}
	}
	stock := g.SupplyStock(i)
	lots := stock.Lots()
	if len(lots) == 0 {
		return exact.Money{}, SupplyNote{Kind: SupplyUnpriced, Supply: u.Supply}
	}
	newest := &g.Lots[lots[len(lots)-1]]
	wanted := u.Number.Mul(times)
	rest := wanted.Sub(stock.Left)
	// As NextUses would: all that is in hand at what it carries, and only the rest at the newest.
	cost := stock.Cost.Add(post(g, newest.UnitCost().Times(rest)))
	return cost, SupplyNote{Kind: AtNewest, Supply: u.Supply, Wanted: wanted, Rest: rest}
}

// A SupplyNeed is how many pieces of a supply it takes to pack, beside those
// that are free now.
type SupplyNeed struct {
	Supply       int         // position in Supplies
	Needed, Free exact.Ratio // pieces
}

// needs are what so many containers take, by the piece.
func (p *Packing) needs(g *ledger.Ledger, containers int) (list []SupplyNeed) {
	for _, u := range p.With {
		i, _ := g.FindSupply(u.Supply)
		list = addNeed(list, NeedOf(g, i, u.Number.Mul(exact.Int(int64(containers)))))
	}
	return list
}

// NeedOf is what so many uses of a supply at a position take in pieces: of what serves
// again one each.
func NeedOf(g *ledger.Ledger, supply int, uses exact.Number) SupplyNeed {
	pieces := exact.RatioOf(uses)
	if s := &g.Supplies[supply]; !s.ServesAgain() {
		pieces = pieces.Quo(wholeRatio(s.Uses))
	}
	return SupplyNeed{supply, pieces, g.Pieces(supply).Free}
}

// addNeed adds what is needed of a supply to what is needed already.
func addNeed(list []SupplyNeed, n SupplyNeed) []SupplyNeed {
	if n.Needed.IsZero() {
		return list
	}
	at := slices.IndexFunc(list, func(have SupplyNeed) bool { return have.Supply == n.Supply })
	if at < 0 {
		return append(list, n)
	}
	list[at].Needed = list[at].Needed.Add(n.Needed)
	return list
}

// After is how many pieces are free then; below 0: so many are missing.
func (n SupplyNeed) After() exact.Ratio { return n.Free.Sub(n.Needed) }

// Short is how many whole pieces must be bought beside those free now.
func (n SupplyNeed) Short() int {
	more, _ := n.Needed.Sub(n.Free).Ceil().Int64()
	return max(int(more), 0)
}
