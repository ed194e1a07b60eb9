package serve

import (
	"bytes"
	"crypto/rand"
	"sync"
	"time"

	"putby/cmd/putby/internal/page"
)

// A newForm is a form as everybody is shown it who opens it in a minute: it is written
// once, and each is given marks of their own.
type newForm struct {
	minute     time.Time // its beginning
	once, seen string    // what stands for the marks, which nobody can have written
	making     sync.Once
	text       []byte
	err        error
}

// mostFormKept is how long a form may be to be kept: a stocktake of thousands of packs
// is asked for once in a while.
const mostFormKept = 256 << 10

// newForm is the form at a path in the minute of a moment. Make makes its page, with
// what stands for its marks; a form that cannot be made is made anew each time.
func (v *state) newForm(path string, now time.Time, make func(once, seen string) (page.Form, error)) (*newForm, error) {
	minute := now.Truncate(time.Minute)
	v.mu.Lock()
	f := v.forms[path]
	if f == nil || !f.minute.Equal(minute) {
		f = &newForm{minute: minute, once: rand.Text(), seen: rand.Text()}
		v.forms[path] = f
	}
	v.mu.Unlock()
	f.making.Do(func() {
		f.err = errBroken // stays where making it panics, since once runs never again
		var form page.Form
		var b bytes.Buffer
		if form, f.err = make(f.once, f.seen); f.err == nil {
			f.err = page.WriteForm(&b, form)
		}
		f.text = b.Bytes()
	})
	if f.err != nil || len(f.text) > mostFormKept {
		v.mu.Lock()
		defer v.mu.Unlock()
		if v.forms[path] == f {
			delete(v.forms, path)
		}
	}
	return f, f.err
}

// marked is the form with marks of its own.
func (f *newForm) marked(once, seen string) []byte {
	return bytes.ReplaceAll(bytes.ReplaceAll(f.text, []byte(f.once), []byte(once)), []byte(f.seen), []byte(seen))
}
