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

// reverse returns the hunks that take back what hunks do.
func reverse(hunks []Hunk) []Hunk {
	back, shift := make([]Hunk, len(hunks)), 0
	for i, h := range hunks {
		back[i] = Hunk{h.At + shift, h.Added, h.Removed}
		shift += len(h.Added) - len(h.Removed)
	}
	return back
}

// merge makes the changes of hunks in a text that is no longer what they were
// made for: wherever the lines to be removed are found once, and only once.
// Line ends may have changed meanwhile. It reports false when that cannot be
// done for all of them.
func merge(text string, hunks []Hunk) (string, bool) {
	for _, h := range hunks {
		removed, added := strings.Trim(string(h.Removed), "\r\n"), strings.Trim(string(h.Added), "\r\n")
		at, end, ok := findLines(text, removed)
		if !ok {
			// The other line ends.
			from, to := "\n", "\r\n"
			if strings.Contains(removed, to) {
				from, to = to, from
			}
			removed, added = strings.ReplaceAll(removed, from, to), strings.ReplaceAll(added, from, to)
			if at, end, ok = findLines(text, removed); !ok {
				return "", false
			}
		}
		if added != "" {
			added += text[at+len(removed) : end]
		}
		text = text[:at] + added + text[end:]
	}
	return text, true
}

// findLines finds whole lines, given without the last one's line end, that are
// in a text once and only once. It returns where they begin, and where the
// next line does.
func findLines(text, lines string) (at, end int, ok bool) {
	if lines == "" {
		return 0, 0, false
	}
	for from := 0; ; {
		i := strings.Index(text[from:], lines)
		if i < 0 {
			return at, end, ok
		}
		i += from
		from = i + 1
		rest := text[i+len(lines):]
		size := newScanner(rest, 0).lineEnd(0)
		if i > 0 && text[i-1] != '\n' || size == 0 && rest != "" {
			continue
		}
		if ok {
			return 0, 0, false
		}
		at, end, ok = i, i+len(lines)+size, true
	}
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
	return []Hunk{{head, Text(old[:len(old)-tail]), Text(new[:len(new)-tail])}}
}
