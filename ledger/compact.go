package ledger

import (
	"time"

	"putby/pricing/exact"
)

// This file holds how records of long files are packed. A number is its digits as an
// int64, with an [exact.Form] that says where the point and which unit; one that does
// not fit is in the store, and so are texts and what few records have, found by the
// places that the row keeps. So rows have no pointers, and collecting garbage passes
// them over. A field of a record in records.go has its place in the row, in pack and
// in unpack: TestPackedIsTheSame looks for one that was forgotten. An int64 below is such
// digits, or a position in the store where its form is wideForm; units and meanings are
// those of records.go, and a line is of the record's own file.

// A packedReceipt is a ReceiptRow.
type packedReceipt struct {
	count, size, price             int64 // digits, as their forms have them
	line                           int32
	date                           exact.Date
	receipt, shop, number, item    textAt
	rest                           int32 // of the store's, from 1
	kind                           ReceiptKind
	countForm, sizeForm, priceForm exact.Form
}

func (packedReceipt) pack(r *ReceiptRow, p *packer) (c packedReceipt) {
	c.line, c.date, c.kind = int32(r.Line), r.Date, r.Kind
	c.receipt, c.shop, c.number, c.item = p.put(r.Receipt), p.put(r.Shop), p.put(r.Number), p.put(r.Item)
	c.count, c.countForm = p.number(r.Count)
	c.size, c.sizeForm = p.amount(r.Size)
	c.price, c.priceForm = p.money(r.Price)
	if r.Rest != nil {
		rest := *r.Rest
		rest.Note = p.text(p.put(rest.Note))
		p.rests = append(p.rests, &rest)
		c.rest = int32(len(p.rests))
	}
	return c
}

func (c packedReceipt) at() int32 { return c.line }

func (c packedReceipt) unpack(s *store) ReceiptRow {
	return ReceiptRow{
		Line: int(c.line), Date: c.date, Kind: c.kind,
		Receipt: s.text(c.receipt), Shop: s.text(c.shop), Number: s.text(c.number), Item: s.text(c.item),
		Count: s.number(c.count, c.countForm), Size: s.amount(c.size, c.sizeForm), Price: s.money(c.price, c.priceForm),
		Rest: of(s.rests, c.rest),
	}
}

// A packedPhase is a Phase.
type packedPhase struct {
	length             time.Duration // 31 days at most
	watts, kwh         int64         // digits; in noForm: not given
	line, step         int32         // step: order within the run
	run                textAt
	phase              PhaseName
	wattsForm, kwhForm exact.Form
}

func (packedPhase) pack(r *Phase, p *packer) (c packedPhase) {
	c.line, c.step, c.run, c.length, c.phase = r.Line, r.Step, p.put(r.Run), r.Length, r.Phase
	c.watts, c.wattsForm = p.maybe(r.Watts)
	c.kwh, c.kwhForm = p.maybe(r.KWh)
	return c
}

func (c packedPhase) at() int32 { return c.line }

func (c packedPhase) unpack(s *store) Phase {
	return Phase{
		Line: c.line, Step: c.step, Run: s.text(c.run), Length: c.length,
		Watts: s.maybe(c.watts, c.wattsForm), KWh: s.maybe(c.kwh, c.kwhForm), Phase: c.phase,
	}
}

// A packedLoad is a Load.
type packedLoad struct {
	quantity, trays, wet, dry, lost                     int64 // digits; trays in noForm: not given
	line                                                int32
	run, item, receipt, number                          textAt
	quantityForm, traysForm, wetForm, dryForm, lostForm exact.Form
}

func (packedLoad) pack(r *Load, p *packer) (c packedLoad) {
	c.line, c.run, c.item, c.receipt, c.number = int32(r.Line), p.put(r.Run), p.put(r.Item), p.put(r.Receipt), p.put(r.Number)
	c.quantity, c.quantityForm = p.amount(r.Quantity)
	c.trays, c.traysForm = p.maybe(r.Trays)
	c.wet, c.wetForm = p.amount(r.Wet)
	c.dry, c.dryForm = p.amount(r.Dry)
	c.lost, c.lostForm = p.amount(r.Lost)
	return c
}

func (c packedLoad) at() int32 { return c.line }

func (c packedLoad) unpack(s *store) Load {
	return Load{
		Line: int(c.line), Run: s.text(c.run), Item: s.text(c.item), Receipt: s.text(c.receipt), Number: s.text(c.number),
		Quantity: s.amount(c.quantity, c.quantityForm), Trays: s.maybe(c.trays, c.traysForm),
		Wet: s.amount(c.wet, c.wetForm), Dry: s.amount(c.dry, c.dryForm), Lost: s.amount(c.lost, c.lostForm),
	}
}

// A packedPack is a Pack.
type packedPack struct {
	each, dry         int64 // digits
	line              int32
	id, run, item     textAt
	date, bestBy      exact.Date // bestBy NoDate: by the food
	count             int32      // containers
	with              int32      // of the store's, from 1
	place             textAt
	cost              int32 // position among what is wide in the store, from 1; few have one
	eachForm, dryForm exact.Form
	all               bool
}

func (packedPack) pack(r *Pack, p *packer) (c packedPack) {
	c.line, c.id, c.run, c.item = int32(r.Line), p.put(r.ID), p.put(r.Run), p.put(r.Item)
	c.date, c.bestBy, c.count, c.place, c.all = r.Date, r.BestBy, int32(r.Count), p.put(r.Place), r.All
	c.each, c.eachForm = p.amount(r.Each)
	c.dry, c.dryForm = p.amount(r.Dry)
	if r.Cost != (exact.Money{}) {
		p.wide = append(p.wide, exact.NoUnit.Of(r.Cost.Number()))
		c.cost = int32(len(p.wide))
	}
	if last := len(p.uses) - 1; len(r.With) > 0 {
		if last < 0 || !sameList(r.With, p.uses[last]) {
			p.uses = append(p.uses, r.With)
		}
		c.with = int32(len(p.uses))
	}
	return c
}

func (c packedPack) at() int32 { return c.line }

func (c packedPack) unpack(s *store) Pack {
	return Pack{
		Line: int(c.line), ID: s.text(c.id), Run: s.text(c.run), Item: s.text(c.item), Date: c.date, BestBy: c.bestBy,
		Count: int(c.count), Each: s.amount(c.each, c.eachForm), Dry: s.amount(c.dry, c.dryForm),
		With: of(s.uses, c.with), Place: s.text(c.place), Cost: exact.MoneyOf(of(s.wide, c.cost).Number()), All: c.all,
	}
}

// sameList reports whether two lists are one, as those of rows that say the same
// are: see read in field.go. It is for sparing room and time; lists that are equal and
// not one are only kept twice.
func sameList[T any](a, b []T) bool { return len(a) > 0 && len(a) == len(b) && &a[0] == &b[0] }

// A packedDraw is a Draw.
type packedDraw struct {
	quantity       int64 // digits; without a unit containers or pieces
	line           int32
	date           exact.Date
	of, item, note textAt
	form           exact.Form
	reason         Reason
}

func (packedDraw) pack(r *Draw, p *packer) (c packedDraw) {
	c.line, c.date, c.reason = int32(r.Line), r.Date, r.Reason
	c.of, c.item, c.note = p.put(r.Pack), p.put(r.Item), p.put(r.Note)
	c.quantity, c.form = p.amount(r.Quantity)
	return c
}

func (c packedDraw) at() int32 { return c.line }

func (c packedDraw) unpack(s *store) Draw {
	return Draw{
		Line: int(c.line), Date: c.date, Reason: c.reason, Pack: s.text(c.of), Item: s.text(c.item),
		Quantity: s.amount(c.quantity, c.form), Note: s.text(c.note),
	}
}
