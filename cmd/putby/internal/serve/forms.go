package serve

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"net/url"
	"slices"
	"sync"

	"putby/cmd/putby/internal/page"
)

// Of how many forms it is remembered what became of them, and of how many what was typed.
const (
	mostForms = 1000
	mostKept  = 100
)

// forms knows the forms that were shown, so that each records once, and remembers what
// those held that were not recorded. A form that was shown is known by its mark, which
// nobody else can make: however many are opened meanwhile, it is not forgotten.
type forms struct {
	key   []byte // by which marks are made
	mu    sync.Mutex
	state map[string]*outcome // of those recorded
	order []string            // oldest first
	sent  map[string]*sending
	later []string // of those sent, oldest first
}

// A sending is a form that was sent and not recorded.
type sending struct {
	values url.Values
	err    error // why, where it cannot be found out again
}

// An outcome is what became of a form.
type outcome struct {
	number   int      // of the change
	title    string   // of the form
	said     []string // what it comes to
	know     []string // what else to know
	cautions []string
	change   []page.Changed
	packs    []string // that were made
	next     []page.Doing
	sent     url.Values
	to       string // where it led instead of to the page of what was saved
}

// of reports whether it is what became of a form with just these values.
func (o *outcome) of(values url.Values) bool {
	return o.sent == nil || maps.EqualFunc(o.sent, values, func(a, b []string) bool { return slices.Equal(a, b) })
}

func newForms() *forms {
	return &forms{key: []byte(rand.Text()), state: map[string]*outcome{}, sent: map[string]*sending{}}
}

// issue returns the mark of a new form.
func (f *forms) issue() string {
	once := newMark()
	return once + f.sign(once)
}

// sign is what a mark that was issued ends in.
func (f *forms) sign(once string) string {
	h := hmac.New(sha256.New, f.key)
	h.Write([]byte(once))
	return hex.EncodeToString(h.Sum(nil)[:signBytes])
}

const signBytes = 16 // two characters each

// issued reports whether a mark is that of a form that was shown.
func (f *forms) issued(once string) bool {
	begin := max(len(once)-2*signBytes, 0)
	return hmac.Equal([]byte(once[begin:]), []byte(f.sign(once[:begin])))
}

// newMark is the mark of a button, by which nobody has to know that it was shown.
func newMark() string { return rand.Text() }

// find returns what became of a form, nil when it was not recorded yet, and
// whether it was shown at all.
func (f *forms) find(once string) (*outcome, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	o := f.state[once]
	return o, o != nil || f.issued(once)
}

// record remembers what became of a form, of so many the last.
func (f *forms) record(once string, o *outcome) {
	f.mu.Lock()
	defer f.mu.Unlock()
	delete(f.sent, once)
	if f.state[once] == nil {
		f.order = append(f.order, once)
	}
	f.state[once] = o
	if len(f.order) > mostForms {
		delete(f.state, f.order[0])
		f.order = f.order[1:]
	}
}

// keep keeps what a form held.
func (f *forms) keep(once string, s *sending) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.sent[once] == nil {
		f.later = append(f.later, once)
	}
	f.sent[once] = s
	if len(f.later) > mostKept {
		delete(f.sent, f.later[0])
		f.later = f.later[1:]
	}
}

// kept returns what a form held.
func (f *forms) kept(once string) (*sending, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	s, ok := f.sent[once]
	return s, ok
}
