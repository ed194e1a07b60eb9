package folder

import (
	"slices"
	"strings"
)

// A lined text is a text taken apart into its lines.
type lined struct {
	text  string
	eol   string   // its habit
	start []int    // of each line, and at last the end
	line  []string // without line ends
}

func lineUp(text string) *lined {
	l := &lined{text: text, eol: "\n"}
	if strings.Contains(text, "\r\n") {
		l.eol = "\r\n"
	}
	at := 0
	for line := range strings.Lines(text) {
		l.start = append(l.start, at)
		l.line = append(l.line, bare(line))
		at += len(line)
	}
	l.start = append(l.start, at)
	return l
}

// bare is a line without its end.
func bare(line string) string { return strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r") }

// bareLines are the lines of a stretch, without line ends and without the blank
// ones round it: an appended row may begin with the line end of the one before.
func bareLines(stretch Text) []string {
	return lineUp(strings.Trim(string(stretch), "\r\n")).line
}

// find looks for the place where lines stood between what is round a hunk, in a
// text that something else has changed since: where they are, with most of the
// lines round them the same. No lines stand wherever enough of those do. Score
// says how many do; ok is false where there is no one place.
func (l *lined) find(lines []string, round Hunk) (at, score int, ok bool) {
	above, below := lineUp(string(round.Above)).line, lineUp(string(round.Below)).line
	at, score = -1, -1
	var ties []int
	for i := 0; i+len(lines) <= len(l.line); i++ {
		if !slices.Equal(l.line[i:i+len(lines)], lines) {
			continue
		}
		s := l.score(i, i+len(lines), above, below, round.End)
		switch {
		case s > score:
			at, score, ties = i, s, nil
		case s == score:
			ties = append(ties, i)
		}
	}
	if at < 0 || len(lines) == 0 && score == 0 {
		return 0, 0, false
	}
	for _, other := range ties {
		if len(lines) == 0 || !l.alike(at, other, len(lines)) {
			return 0, 0, false
		}
	}
	return at, score, true
}

// alike reports whether it is all the same which of two stretches is taken out:
// they and all between repeat each other.
func (l *lined) alike(a, b, size int) bool {
	return slices.Equal(l.line[a:b], l.line[a+size:b+size])
}

// score counts the lines round a place that are as they were, from it outwards:
// two for each, and one for the end of the text.
func (l *lined) score(from, to int, above, below []string, end bool) (score int) {
	for i, line := range slices.Backward(above) {
		if at := from - len(above) + i; at < 0 || l.line[at] != line {
			break
		}
		score += 2
	}
	for i, line := range below {
		if at := to + i; at >= len(l.line) || l.line[at] != line {
			return score
		}
		score += 2
	}
	if end && to+len(below) == len(l.line) {
		score++
	}
	return score
}

// merge makes the changes of hunks in a text that is no longer what they were
// made for, and returns what that comes to in this text. It reports false where
// one of them does not find its place.
func merge(text string, hunks []Hunk) ([]Hunk, bool) {
	l := lineUp(text)
	var list []Hunk
	for _, h := range hunks {
		removed := bareLines(h.Removed)
		at, _, ok := l.find(removed, h)
		if !ok {
			return nil, false
		}
		list = append(list, l.hunk(at, at+len(removed), bareLines(h.Added)))
	}
	slices.SortStableFunc(list, func(a, b Hunk) int { return a.At - b.At })
	for i, h := range list[min(1, len(list)):] {
		if h.At < list[i].At+len(list[i].Removed) {
			return nil, false
		}
	}
	return surround(text, list), true
}

// hunk puts lines in the place of others.
func (l *lined) hunk(from, to int, lines []string) Hunk {
	h := Hunk{At: l.start[from], Removed: Text(l.text[l.start[from]:l.start[to]])}
	if len(lines) == 0 {
		return h
	}
	added := strings.Join(lines, l.eol)
	switch open := l.text != "" && !strings.HasSuffix(l.text, "\n"); {
	case open && from == len(l.line): // behind a last line without its end
		added = l.eol + added + l.eol
	case open && to == len(l.line) && from < to: // in its place
	default:
		added += l.eol
	}
	h.Added = Text(added)
	return h
}

// standing tells of a text that was edited while a change with these hunks was
// being saved whether the change has been made in it, or is still open. Neither
// is true where that cannot be told. It has been made if of every hunk the lines that
// come stand there more often than they did before it (its Twins), or, of one that
// only removes, if the gap fits its place better than the lines. It is open if the
// lines that go are found for every hunk.
func standing(text string, hunks []Hunk) (made, open bool) {
	l := lineUp(text)
	made, open = len(hunks) > 0, len(hunks) > 0
	for _, h := range hunks {
		removed, added := bareLines(h.Removed), bareLines(h.Added)
		_, openScore, ok := l.find(removed, h)
		open = open && ok
		if len(added) > 0 {
			made = made && count(text, added) > h.Twins
			continue
		}
		_, madeScore, gone := l.find(nil, h)
		made = made && gone && (!ok || madeScore > openScore)
	}
	return made, open && !made
}

// count counts how often lines stand in a text, one behind the other.
func count(text string, lines []string) (n int) {
	for from := 0; ; {
		i := strings.Index(text[from:], lines[0])
		if i < 0 {
			return n
		}
		i += from
		from = i + 1
		if (i == 0 || text[i-1] == '\n') && begins(text[i:], lines) {
			n++
		}
	}
}

// begins reports whether a text begins with lines.
func begins(text string, lines []string) bool {
	for _, line := range lines {
		have, rest, _ := strings.Cut(text, "\n")
		if bare(have) != line {
			return false
		}
		text = rest
	}
	return true
}

// contextLines is how many lines round a hunk are kept with it.
const contextLines = 3

// surround notes the lines round each hunk that none of them touches, and how
// often the text has what each of them adds.
func surround(text string, hunks []Hunk) []Hunk {
	from := 0
	for i := range hunks {
		h, to := &hunks[i], len(text)
		if i+1 < len(hunks) {
			to = hunks[i+1].At
		}
		end := h.At + len(h.Removed)
		h.Above, h.Below = Text(lastLines(text[from:h.At])), Text(firstLines(text[end:to]))
		h.End = end+len(h.Below) == len(text)
		// Of what is large the first line mostly tells that there is no other.
		first, _, _ := strings.Cut(strings.Trim(string(h.Added), "\r\n"), "\n")
		if first != "" && strings.Contains(text, bare(first)) {
			h.Twins = count(text, bareLines(h.Added))
		}
		from = end
	}
	return hunks
}

func firstLines(text string) string {
	at := 0
	for range contextLines {
		i := strings.IndexByte(text[at:], '\n')
		if i < 0 {
			return text
		}
		at += i + 1
	}
	return text[:at]
}

func lastLines(text string) string {
	at := len(text)
	for range contextLines {
		if at == 0 {
			return text
		}
		at = strings.LastIndexByte(text[:at-1], '\n') + 1
	}
	return text[at:]
}
