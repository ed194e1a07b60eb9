package serve

import (
	"crypto/rand"
	"sync"

	"putby/cmd/putby/internal/page"
)

// mostForms is how many forms are remembered.
const mostForms = 1000

// forms remembers the forms that were shown, so that each records once.
type forms struct {
	mu    sync.Mutex
	state map[string]*outcome // nil until it was recorded
	order []string            // oldest first
}

// An outcome is what became of a form.
type outcome struct {
	number   int // of the change
	said     []string
	cautions []string
	change   []page.Changed
	links    []page.Link
}

func newForms() *forms { return &forms{state: map[string]*outcome{}} }

// issue returns the mark of a new form.
func (f *forms) issue() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	once := rand.Text()
	f.state[once] = nil
	if f.order = append(f.order, once); len(f.order) > mostForms {
		delete(f.state, f.order[0])
		f.order = f.order[1:]
	}
	return once
}

// find returns what became of a form, nil when it was not recorded yet, and
// whether it was shown at all.
func (f *forms) find(once string) (*outcome, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	o, ok := f.state[once]
	return o, ok
}

// record notes what became of a form.
func (f *forms) record(once string, o *outcome) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.state[once] = o
}
