package folder

import (
	"compress/flate"
	"io"
	"runtime/debug"
	"slices"
	"strings"
)

// longText is how long a text that is added must be to be squeezed.
const longText = 8 << 20

// squeeze keeps the long texts that a change adds in little memory until the
// function that it returns is called: while the records are joined nobody reads
// them, and an import may add as much as all that the ledger has.
func (s *staged) squeeze() (restore func()) {
	var back []func()
	for i := range s.change.Files {
		f := &s.change.Files[i]
		text := s.texts[f.Name]
		if text == nil || !f.isLong() {
			continue
		}
		h, size := &f.Hunks[0], len(f.Hunks[0].Added)
		small := squeezed(*text)
		_, read := s.files.texts[f.Name]
		*text, h.Added = "", ""
		if read {
			s.files.texts[f.Name] = ""
		}
		back = append(back, func() {
			*text = small.text()
			if h.Added = Text((*text)[h.At : h.At+size]); read {
				s.files.texts[f.Name] = *text
			}
		})
	}
	if back == nil {
		return func() {}
	}
	debug.FreeOSMemory() // so that the join finds room where the texts were
	return func() {
		debug.FreeOSMemory() // and the texts where the join was
		for _, b := range back {
			b()
		}
	}
}

// long reports whether a change adds a long text.
func (s *staged) long() bool { return slices.ContainsFunc(s.change.Files, FileChange.isLong) }

func (f FileChange) isLong() bool { return len(f.Hunks) == 1 && len(f.Hunks[0].Added) >= longText }

// A packed text is one that is held in little memory.
type packed struct {
	data string
	size int
}

func squeezed(text string) packed {
	var b strings.Builder
	w, _ := flate.NewWriter(&b, flate.BestSpeed) // the level is one that there is
	for piece := range pieces(text) {
		_, _ = io.WriteString(w, piece) // a builder takes everything
	}
	_ = w.Close()
	return packed{b.String(), len(text)}
}

// text returns the text as it was.
func (p packed) text() string {
	var b strings.Builder
	b.Grow(p.size)
	_, _ = io.Copy(&b, flate.NewReader(strings.NewReader(p.data)))
	return b.String()
}
