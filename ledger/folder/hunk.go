package folder

import (
	"encoding/json"
	"strings"
	"unicode/utf8"
)

// A Hunk is a stretch of a file that a change replaced, in whole lines.
type Hunk struct {
	At      int  `json:"at"` // byte offset in the file as it was before
	Removed Text `json:"removed,omitempty"`
	Added   Text `json:"added,omitempty"`
	// The lines above and below that stay, at most three each, by which its place
	// is found again in a file that was edited since; End says that no more follow.
	Above Text `json:"above,omitempty"`
	Below Text `json:"below,omitempty"`
	End   bool `json:"end,omitempty"`
	Twins int  `json:"twins,omitempty"` // how often the file had what is added already
}

// Text is a part of a file. In JSON it is a string where it is UTF-8, and
// otherwise an object with its bytes, so that it comes back as it was.
type Text string

type rawText struct {
	Base64 []byte `json:"base64"`
}

// MarshalJSON writes the text.
func (t Text) MarshalJSON() ([]byte, error) {
	if utf8.ValidString(string(t)) {
		return json.Marshal(string(t))
	}
	return json.Marshal(rawText{[]byte(t)})
}

// UnmarshalJSON reads the text.
func (t *Text) UnmarshalJSON(data []byte) error {
	if len(data) > 0 && data[0] == '{' {
		var raw rawText
		if err := json.Unmarshal(data, &raw); err != nil {
			return err
		}
		*t = Text(raw.Base64)
		return nil
	}
	return json.Unmarshal(data, (*string)(t))
}

// apply makes the changes of hunks, which are in order, in a text. It reports
// false when the text is not what they were made for.
func apply(text string, hunks []Hunk) (string, bool) {
	size, end := len(text), 0
	for _, h := range hunks {
		if h.At < end || h.At > len(text) || !strings.HasPrefix(text[h.At:], string(h.Removed)) {
			return "", false
		}
		end = h.At + len(h.Removed)
		size += len(h.Added) - len(h.Removed)
	}
	var b strings.Builder
	b.Grow(size)
	end = 0
	for _, h := range hunks {
		b.WriteString(text[end:h.At])
		b.WriteString(string(h.Added))
		end = h.At + len(h.Removed)
	}
	b.WriteString(text[end:])
	return b.String(), true
}

// share makes what hunks have put into a text a part of that text, so that it is
// not in memory twice.
func share(text string, hunks []Hunk) {
	shift := 0
	for i := range hunks {
		h := &hunks[i]
		from := h.At + shift
		h.Added = Text(text[from : from+len(h.Added)])
		shift += len(h.Added) - len(h.Removed)
	}
}

// reverse returns the hunks that take back what hunks do.
func reverse(hunks []Hunk) []Hunk {
	back, shift := make([]Hunk, len(hunks)), 0
	for i, h := range hunks {
		back[i] = h
		back[i].At, back[i].Removed, back[i].Added = h.At+shift, h.Added, h.Removed
		shift += len(h.Added) - len(h.Removed)
	}
	return back
}

// diff returns the one hunk that turns before into after, in whole lines.
func diff(before, after string) []Hunk {
	if before == after {
		return nil
	}
	head := 0
	for most := min(len(before), len(after)); head < most && before[head] == after[head]; head++ {
	}
	head = strings.LastIndexByte(before[:head], '\n') + 1
	old, new := before[head:], after[head:]
	tail := 0
	for most := min(len(old), len(new)); tail < most && old[len(old)-1-tail] == new[len(new)-1-tail]; tail++ {
	}
	// The tail begins behind a line end that it does not hold itself.
	if i := strings.IndexByte(old[len(old)-tail:], '\n'); i >= 0 {
		tail -= i + 1
	} else {
		tail = 0
	}
	return surround(before, []Hunk{{At: head, Removed: Text(old[:len(old)-tail]), Added: Text(new[:len(new)-tail])}})
}
