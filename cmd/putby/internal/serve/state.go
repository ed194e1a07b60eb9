package serve

import (
	"bytes"
	"errors"
	"sync"
	"sync/atomic"
	"time"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A state is the ledger as its files were at one moment. What is worked out of it
// is worked out once.
type state struct {
	dir      string
	files    *folder.Cache // that have its records
	rec      *ledger.Records
	faults   ledger.Faults
	whole    atomic.Pointer[ledger.Ledger] // all records joined, without a fault
	was      atomic.Pointer[ledger.Ledger] // that of the state before, until whole is made
	judged   atomic.Pointer[ledger.Ledger] // that by which the last form was judged, until then
	number   int                           // from 0, in the order in which they were read
	printing bool                          // its page is on its way, since a form was saved; kept.mu guards it

	mu     sync.Mutex
	joined []*joined // the last ones
	page   *pageOn   // of the last day
	card   *cardOn
	forms  map[string]*newForm // by their paths
	told   map[int][]string    // what changes recorded, in words, by their numbers
}

// A joined ledger is one that somebody joins, and others wait for.
type joined struct {
	through, prices exact.Date // last day of records, and of prices; NoDate: all of them
	once            sync.Once
	g               *ledger.Ledger
	err             error
}

// A pageOn is the page of a day, and as it was sent last.
type pageOn struct {
	day  exact.Date // the last that counts, in the ledger's zone
	once sync.Once
	page *page.Page
	err  error

	mu     sync.Mutex
	minute time.Time // that text is of
	text   written
}

// A written text is one that is sent more than once.
type written struct{ plain, packed []byte }

// A cardOn is the card for the shop of a day.
type cardOn struct {
	day  exact.Date // the last that counts, in the ledger's zone
	now  time.Time  // see [entry.Moment.Begins]
	once sync.Once
	doc  report.Told[report.ShopCard]
	err  error
}

// errBroken is what is left of working something out that a mistake of putby's
// broke off: it would break off again.
var errBroken = errors.New("the ledger as it is now cannot be worked out: putby serve has printed why")

// mostJoined is how many days a state is kept joined for: today, all records, and
// a few that somebody asks about.
const mostJoined = 4

// join returns the ledger through a day, with the prices known on another.
func (v *state) join(through, prices exact.Date) (*ledger.Ledger, error) {
	j := v.joinOf(through, prices)
	j.once.Do(func() {
		j.err = errBroken                                 // stays where this panics, since once runs never again
		if through != exact.NoDate && through == prices { // most days are after all that is recorded
			all, err := v.join(exact.NoDate, exact.NoDate)
			if err != nil {
				j.err = err
				return
			}
			if g, ok := all.On(through); ok {
				j.g, j.err = g, nil
				return
			}
		}
		if through == exact.NoDate && prices == exact.NoDate {
			j.g, j.err = v.joinWhole()
			return
		}
		var faults ledger.Faults
		j.g, faults = ledger.Join(v.rec, ledger.Options{Through: through, PricesThrough: prices, Read: v.faults})
		folder.Locate(v.dir, faults)
		j.err = faults.Err()
	})
	return j.g, j.err
}

// joinWhole joins all records. Where they only go on from the state before, or are those
// by which the last form was judged, the most of it is done.
func (v *state) joinWhole() (*ledger.Ledger, error) {
	// Each is let go at the first try, so that no ledger of before is kept in memory.
	for _, was := range []*ledger.Ledger{v.judged.Swap(nil), v.was.Swap(nil)} {
		if was == nil || len(v.faults) > 0 {
			continue
		}
		if g, ok := was.Continued(v.rec); ok {
			v.found(g)
			return g, nil
		}
	}
	g, faults := ledger.Join(v.rec, ledger.Options{Read: v.faults})
	if faults == nil {
		v.found(g)
		return g, nil
	}
	folder.Locate(v.dir, faults)
	return g, faults.Err()
}

// found notes that all records are joined without a fault.
func (v *state) found(g *ledger.Ledger) {
	v.whole.Store(g)
	v.files.NoteSound(v.rec)
}

func (v *state) joinOf(through, prices exact.Date) *joined {
	v.mu.Lock()
	defer v.mu.Unlock()
	for _, j := range v.joined {
		if j.through == through && j.prices == prices {
			return j
		}
	}
	j := &joined{through: through, prices: prices}
	v.joined = append(v.joined[max(0, len(v.joined)+1-mostJoined):], j) // the oldest makes room
	return j
}

// pageOn is the page of the ledger as it stands on a day.
func (v *state) pageOn(day exact.Date) (*pageOn, error) {
	v.mu.Lock()
	// One page alone: only that of today is asked for again and again.
	if v.page == nil || v.page.day != day {
		v.page = &pageOn{day: day}
	}
	p := v.page
	v.mu.Unlock()
	p.once.Do(func() {
		p.err = errBroken
		var r page.Reports
		r, p.err = page.ReportsAt(func(through exact.Date) (*ledger.Ledger, error) { return v.join(through, day) }, figures.Query{AsOf: day})
		if p.err == nil {
			p.page, p.err = page.Make(r, true)
		}
	})
	return p, p.err
}

// hasPageOn reports whether the last page that was begun is that of a day.
func (v *state) hasPageOn(day exact.Date) bool {
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.page != nil && v.page.day == day
}

// at is the page as it is in the minute of a moment.
func (p *pageOn) at(now time.Time, links []page.Link) (written, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if minute := now.Truncate(time.Minute); p.text.plain == nil || !p.minute.Equal(minute) {
		var b bytes.Buffer
		if err := p.page.Write(&b, minute, links...); err != nil {
			return written{}, err
		}
		p.minute, p.text = minute, written{b.Bytes(), squeeze(b.Bytes())}
	}
	return p.text, nil
}

// momentOf is the moment at which a state is looked at.
func (s *server) momentOf(v *state) entry.Moment { return entry.At(v.rec, s.Now()) }

// ledger is the ledger as it stands on a day, today by default.
func (s *server) ledger(asOf string) (*ledger.Ledger, error) {
	now, err := s.kept.state()
	if err != nil {
		return nil, err
	}
	day, err := s.momentOf(now).Standing(asOf)
	if err != nil {
		return nil, question.OptionFault("as-of", "write it as today, yesterday or a date such as 2025-02-28", "%v", err)
	}
	return now.join(day, day)
}

// page is the page that a browser with some cookies is shown.
func (s *server) page(cookies string) (written, error) {
	now, err := s.kept.pageState(cookies)
	if err != nil {
		return written{}, err
	}
	at := s.momentOf(now)
	p, err := s.kept.pageOf(now, at.Today)
	if err != nil {
		return written{}, err
	}
	return p.at(at.Now, s.links(now.rec))
}

// base is the ledger that a form is about to be filled in for, joined already, and the
// state that it is of. Its error may be the faults that the ledger has.
func (s *server) base() (*entry.Base, *state, error) {
	now, err := s.kept.state()
	if err != nil {
		return nil, nil, err
	}
	g, err := now.join(exact.NoDate, exact.NoDate)
	if err != nil {
		return nil, nil, err
	}
	return entry.NewJoined(g, s.momentOf(now)), now, nil
}
