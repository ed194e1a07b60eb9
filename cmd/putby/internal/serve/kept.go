package serve

import (
	"fmt"
	"maps"
	"sync"
	"time"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// A kept ledger stays read and joined between requests. Each asks it for the
// [state] of the moment, which is a new one as soon as any file has changed. While a
// form is saved, and until the ledger with it is joined, everybody is answered by the
// ledger as it was before; who sent the form waits until then, and so sees what was
// saved. What is saved while another ledger is joined is joined together after it.
//
// Of its locks one is taken after the other in this order, or alone: joining and printing,
// which are held for as long as a ledger is joined or its page made, and which nobody who
// only reads ever takes; reading, which lasts for a save; mu, for a few assignments, and
// within it those of a state. So nobody who reads waits for a save: reading is given up as
// soon as one begins, and mu is never held while anything is worked out.
type kept struct {
	Served
	files *folder.Cache

	reading chan struct{}  // full while files are read, or a form changes them
	newest  *state         // as they were when last read
	judged  *ledger.Ledger // by which what a form saved last was judged

	mu      sync.Mutex
	last    *state         // by which requests are answered
	saving  bool           // a form changes files, or is about to
	begins  chan struct{}  // closed when the next form does
	next    *sync.Once     // joins what was saved since files were last read; nil: nothing was
	joins   bool           // what was saved is joined
	printed *state         // the last whose page was made
	saw     map[string]int // the numbers of the states that have what browsers saved, by their cookies

	joining, printing sync.Mutex // held while that is done
}

func newKept(h Served) *kept {
	files := folder.NewCache(h.Dir)
	files.Wording = formWords{}
	return &kept{Served: h, files: files, saw: map[string]int{}, reading: make(chan struct{}, 1), begins: make(chan struct{})}
}

// state returns the ledger as its files are now, unless what a form saved is on its
// way: then as it was before.
func (k *kept) state() (*state, error) {
	v, begins := k.before()
	for v == nil {
		select {
		case <-begins:
			v, begins = k.before()
			continue
		case k.reading <- struct{}{}:
		}
		defer k.readingEnds()
		if v, _ = k.before(); v != nil {
			break
		}
		v, err := k.read()
		if err == nil {
			k.put(v, false)
		}
		return v, err
	}
	return v, nil
}

func (k *kept) readingEnds() { <-k.reading }

// before is the ledger before what a form saves; nil while none does, with what tells
// when one begins to. Before there is a ledger nothing tells.
func (k *kept) before() (*state, <-chan struct{}) {
	k.mu.Lock()
	defer k.mu.Unlock()
	switch {
	case k.last == nil:
		return nil, nil
	case k.saving || k.next != nil || k.joins:
		return k.last, nil
	}
	return nil, k.begins
}

// read returns the ledger as its files are now. Reading is held.
func (k *kept) read() (*state, error) {
	rec, faults, err := k.files.Read()
	if err != nil {
		return nil, err
	}
	before := k.newest
	if before != nil && before.rec == rec {
		return before, nil
	}
	k.newest = &state{dir: k.Dir, files: k.files, rec: rec, faults: faults, forms: map[string]*newForm{}, told: map[int][]string{}}
	if before != nil {
		k.newest.number = before.number + 1
		k.newest.was.Store(before.whole.Load())
		k.newest.judged.Store(k.judged)
		k.judged = nil
	}
	return k.newest, nil
}

// put has requests answered by a ledger; its page may be on its way.
func (k *kept) put(v *state, printing bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	v.printing = v.printing || printing
	if k.last == nil || k.last.number < v.number {
		k.last = v
	}
}

// save has a form change files, and returns what shows the ledger with it.
func (k *kept) save(change func()) *sync.Once {
	k.saves(true)
	defer k.saves(false)
	k.reading <- struct{}{}
	defer k.readingEnds()
	change()
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.next == nil {
		k.next = new(sync.Once)
	}
	return k.next
}

func (k *kept) saves(on bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.saving = on; on {
		close(k.begins)
		k.begins = make(chan struct{})
	}
}

// show has requests answered by the ledger with all that is saved by now.
func (k *kept) show() {
	k.joining.Lock()
	defer k.joining.Unlock()
	defer func() {
		k.mu.Lock()
		defer k.mu.Unlock()
		k.joins = false
	}()
	v, err := k.readSaved()
	if err != nil {
		return // whoever asks next is told
	}
	day := k.today(v)
	_, err = v.join(exact.NoDate, exact.NoDate)
	if err == nil {
		_, err = v.join(day, day)
	}
	if k.put(v, err == nil); err == nil {
		go k.print()
	}
}

// readSaved reads the ledger to be shown. What is saved from then on is shown next.
func (k *kept) readSaved() (*state, error) {
	k.reading <- struct{}{}
	defer k.readingEnds()
	k.mu.Lock()
	k.next, k.joins = nil, true
	k.mu.Unlock()
	return k.read()
}

// today is the day at which a ledger stands now.
func (k *kept) today(v *state) exact.Date { return entry.At(v.rec, k.Now()).Today }

// print makes the page of the ledger by which requests are answered. Then it rests, so
// that pages take no more than a third of the time while much is saved.
func (k *kept) print() {
	k.printing.Lock()
	defer k.printing.Unlock()
	begun := time.Now()
	defer func() { time.Sleep(2 * time.Since(begun)) }()
	k.mu.Lock()
	v, made := k.last, k.last == k.printed
	k.mu.Unlock()
	if made {
		return
	}
	err := k.Guard(func() error {
		_, _ = k.pageOf(v, k.today(v)) // whoever opens the page is told what is wrong
		return nil
	})
	if err != nil {
		fmt.Fprintln(k.Log, "putby serve:", err)
	}
}

// pageOf is the page of a ledger as it stands on a day, made once.
func (k *kept) pageOf(v *state, day exact.Date) (*pageOn, error) {
	p, err := v.pageOn(day)
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.printed == nil || k.printed.number < v.number {
		k.printed = v
		maps.DeleteFunc(k.saw, func(_ string, number int) bool { return number <= v.number })
	}
	return p, nil
}

// known is the last ledger that was joined whole, to go on with; nil: there is none.
func (k *kept) known() *ledger.Ledger {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.last == nil {
		return nil
	}
	return k.last.whole.Load()
}

// sees notes that a browser saved something, and that the ledger as it is shown has it.
func (k *kept) sees(cookies string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.last != nil && k.last != k.printed {
		k.saw[cookies] = k.last.number
	}
}

// pageState is the ledger whose page a browser is shown. The page takes longer to make
// than all else: until that of what others saved is made, there is the one before.
func (k *kept) pageState(cookies string) (*state, error) {
	v, err := k.state()
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if p := k.printed; v.printing && p != nil && p.number >= k.saw[cookies] && p.hasPageOn(k.today(v)) {
		return p, nil
	}
	return v, nil
}
