package entry

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// know writes the ledger's identifier for what the line calls a food, a supply
// or a machine. An error is of [ErrItem].
func (l *Line) know(x *ItemNames) error {
	if !l.Named() || l.Item == "" {
		return nil
	}
	k, ok := x.findKind(l.Kind, l.Item)
	if !ok {
		kind := l.Kind.String()
		f := &ledger.Fault{Kind: ErrItem, Field: kind, What: fmt.Sprintf("no %s is called %s", kind, quote(l.Item)), Hint: x.nearOf(l.Kind, l.Item)}
		if f.Hint == "" {
			f.Do = []advice.Doing{advice.Do(advice.Act(kind+" add")).With(kind, cmp.Or(Slug(l.Item), "NAME"))}
		}
		return f
	}
	l.Item = k.Item
	return nil
}

// nearOf is the identifier of a thing of a kind that is called nearly so.
func (x *ItemNames) nearOf(kind ledger.ReceiptKind, text string) string {
	var ids []string
	for id, k := range x.exact {
		if k.Kind == kind {
			ids = append(ids, id)
		}
	}
	return ledger.Nearest(text, ids)
}

// Complete fills in the size of the packages where a line of a food or a supply
// leaves it out: that of last time, or of the food's piece. It says what it took.
func (l *Line) Complete(rec *ledger.Records, shop string) (note string) {
	if l.Size != "" || l.Per != "" || l.Kind != ledger.FoodLine && l.Kind != ledger.SupplyLine {
		return ""
	}
	if l.Kind == ledger.SupplyLine && l.Count != "" {
		return "" // so many pieces
	}
	title := titleOf(rec, l.Item)
	if size, why := lastSize(rec, shop, l.Item); size != "" {
		l.Size = size
		return fmt.Sprintf("%s: packages of %s, %s.", title, size, why)
	}
	if f := slices.IndexFunc(rec.Foods, func(f ledger.Food) bool { return f.ID == l.Item }); f >= 0 {
		if size, ok := pieceOf(&rec.Foods[f]); ok {
			l.Size = size
			return fmt.Sprintf("%s: pieces of %s, as the food's record has it.", title, size)
		}
	}
	return ""
}

// lastSize is the size of the package in which a thing was bought last: in that
// shop, or else anywhere, or what a shelf asks for. What is weighed at the till has
// none.
func lastSize(rec *ledger.Records, shop, item string) (size, why string) {
	row := latest(rec.Receipts.All(), func(r *ledger.ReceiptRow) (exact.Date, int) {
		return r.Date, rank(r.Item == item && r.Kind.Bought() && r.Size.Given() && r.Count.IsInt(), anyCase(r.Shop) == anyCase(shop))
	})
	if row != nil {
		return row.Size.String(), "as bought last (" + placed(rec, row.Shop, row.Date) + ")"
	}
	ask := latest(slices.All(rec.Shelf), func(s *ledger.ShelfRow) (exact.Date, int) {
		return s.Date, rank(s.Item == item && s.Size.Sign() > 0, false)
	})
	if ask != nil {
		return ask.Size.String(), "as on the shelf (" + placed(rec, ask.Shop, ask.Date) + ")"
	}
	return "", ""
}

// pieceOf is the size of a piece of a food as it is bought: of one counted in
// pieces 1 ea, of another its edible weight with what is thrown away, to the gram.
func pieceOf(f *ledger.Food) (size string, ok bool) {
	if f.Basis == exact.Ea {
		return "1 ea", true
	}
	kg, ok := f.PieceKg.Get()
	if !ok {
		return "", false
	}
	bought := kg.Over(f.EdiblePart()).Times(exact.Int(1000)).Round(0, exact.HalfEven)
	return exact.G.Of(bought).String(), bought.Sign() > 0
}

// titleOf is what people call a food or a supply.
func titleOf(rec *ledger.Records, id string) string {
	return titleAmong(slices.Concat(rec.NamedFoods(), rec.NamedSupplies()), id)
}

func titleAmong(list []ledger.Named, id string) string {
	for _, n := range list {
		if n.ID == id && n.Name != "" {
			return n.Name
		}
	}
	return id
}

// placed says where and when.
func placed(rec *ledger.Records, shop string, day exact.Date) string {
	if shop == "" {
		return rec.Settings.Show().Date(day)
	}
	return shop + ", " + rec.Settings.Show().Date(day)
}
