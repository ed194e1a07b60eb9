package ledger

import (
	"hash/maphash"
	"slices"
	"strings"

	"putby/pricing/exact"
)

// A store holds what compact rows cannot hold themselves.
type store struct {
	pages []string // texts, each behind its length
	wide  []exact.Quantity
	uses  [][]Use
	rests []*ReceiptRest
}

// A textAt says where a text is in a store: its page, and where it begins there.
// 0 is the empty text.
type textAt uint32

const (
	pageBits  = 16
	mostPage  = 1 << pageBits
	firstPage = 1 << 9
	mostPages = 1 << (32 - pageBits) // a file of a ledger is smaller
	// A text's length is one byte, or this one and four more.
	longText = 0xff
	longHead = 5
)

// text returns a text. It keeps its page in memory.
func (s *store) text(at textAt) string {
	if at == 0 {
		return ""
	}
	page := s.pages[at>>pageBits][at&(mostPage-1):]
	if n := int(page[0]); n != longText {
		return page[1 : 1+n]
	}
	n := int(page[1])<<24 | int(page[2])<<16 | int(page[3])<<8 | int(page[4])
	return page[longHead : longHead+n]
}

// Forms beside those of package exact.
const (
	noForm   = exact.MaxForm + 1 // there is no number
	wideForm = exact.MaxForm + 2 // the digits are a position in the store
)

// amount returns the amount that has digits in a form.
func (s *store) amount(digits int64, form exact.Form) exact.Quantity {
	if form == wideForm {
		return s.wide[digits]
	}
	return form.Of(digits)
}

func (s *store) number(digits int64, form exact.Form) exact.Number {
	return s.amount(digits, form).Number()
}

func (s *store) money(digits int64, form exact.Form) exact.Money {
	return exact.MoneyOf(s.number(digits, form))
}

func (s *store) maybe(digits int64, form exact.Form) exact.Opt[exact.Number] {
	if form == noForm {
		return exact.Opt[exact.Number]{}
	}
	return exact.Some(s.number(digits, form))
}

// of returns what of few records something holds, where it is one of those.
func of[T any](list []T, at int32) (none T) {
	if at == 0 {
		return none
	}
	return list[at-1]
}

// A packer puts into a store what compact rows cannot hold themselves. Rows share
// the texts that were met last.
type packer struct {
	*store
	page strings.Builder // the last of pages
	seed maphash.Seed
	last [512]textAt // by hash; a text that comes later takes the place of an earlier
}

// newPacker makes a store that goes on from another, which may be nil and is not
// changed.
func newPacker(from *store) *packer {
	p := &packer{store: new(store), seed: maphash.MakeSeed()}
	if from != nil {
		*p.store = store{slices.Clip(from.pages), slices.Clip(from.wide), slices.Clip(from.uses), slices.Clip(from.rests)}
	}
	return p
}

// put keeps a text, and nothing of what it is a part of. A page may grow beyond
// mostPage by one long text, but each begins below it, so that pageBits say where.
func (p *packer) put(text string) textAt {
	if text == "" {
		return 0
	}
	last := &p.last[maphash.String(p.seed, text)%uint64(len(p.last))]
	if *last != 0 && p.text(*last) == text {
		return *last
	}
	n := len(text)
	if p.page.Len()+longHead+n > p.page.Cap() || p.page.Len() >= mostPage {
		p.addPage(longHead + n)
	}
	at := p.page.Len()
	if n < longText {
		p.page.WriteByte(byte(n))
	} else {
		p.page.Write([]byte{longText, byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)})
	}
	p.page.WriteString(text)
	p.pages[len(p.pages)-1] = p.page.String()
	*last = textAt((len(p.pages)-1)<<pageBits | at)
	return *last
}

// addPage begins a new page with room for so many bytes at least. Pages grow, so that
// a few records take little.
func (p *packer) addPage(room int) {
	size := min(max(2*p.page.Cap(), firstPage), mostPage)
	if len(p.pages) == mostPages {
		panic("ledger: a list holds more text than can be found again")
	}
	p.page = strings.Builder{}
	p.page.Grow(max(1+room, size))
	if len(p.pages) == 0 {
		p.page.WriteByte(0) // no text begins at 0
	}
	p.pages = append(p.pages, p.page.String())
}

// amount keeps an amount, as digits and form.
func (p *packer) amount(q exact.Quantity) (int64, exact.Form) {
	if digits, form, ok := q.Compact(); ok {
		return digits, form
	}
	p.wide = append(p.wide, q)
	return int64(len(p.wide) - 1), wideForm
}

func (p *packer) number(n exact.Number) (int64, exact.Form) { return p.amount(exact.NoUnit.Of(n)) }

func (p *packer) money(m exact.Money) (int64, exact.Form) { return p.number(m.Number()) }

func (p *packer) maybe(n exact.Opt[exact.Number]) (int64, exact.Form) {
	if number, given := n.Get(); given {
		return p.number(number)
	}
	return 0, noForm
}
