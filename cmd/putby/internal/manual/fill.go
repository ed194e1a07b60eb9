package manual

import (
	"strings"
	"unicode/utf8"
)

// A paragraph is lines of text that belong together.
type paragraph struct {
	lines    []string
	verbatim bool // lines that begin with a space
}

// paragraphs takes a text apart.
func paragraphs(text string) []paragraph {
	var list []paragraph
	fresh := true
	for line := range strings.SplitSeq(strings.Trim(text, "\n"), "\n") {
		if strings.TrimSpace(line) == "" {
			fresh = true
			continue
		}
		verbatim := line[0] == ' '
		if fresh || list[len(list)-1].verbatim != verbatim {
			list = append(list, paragraph{verbatim: verbatim})
		}
		last := &list[len(list)-1]
		last.lines, fresh = append(last.lines, strings.TrimRight(line, " ")), false
	}
	return list
}

// fill breaks words into lines of at most width columns, where they have
// spaces; the first line begins with first, the others with rest.
func fill(text, first, rest string, width int) []string {
	var list []string
	line, some := first, false
	for word := range strings.FieldsSeq(text) {
		if some && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			list = append(list, line)
			line, some = rest, false
		}
		if some {
			line += " "
		}
		line, some = line+word, true
	}
	return append(list, line)
}

// fold breaks a line that is to stay as it is, only where it is too long. Each
// line that goes on ends in mark.
func fold(line, mark string, width int) []string {
	if utf8.RuneCountInString(line) <= width {
		return []string{line}
	}
	body := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(body)]
	below := indent + "    "
	if at := strings.Index(body, "  "); at > 0 { // a term and its text, in columns
		text := strings.TrimLeft(body[at:], " ")
		below = indent + strings.Repeat(" ", utf8.RuneCountInString(body[:len(body)-len(text)]))
	}
	var list []string
	at := indent
	for i, word := range strings.Split(body, " ") {
		if i > 0 && utf8.RuneCountInString(at)+1+utf8.RuneCountInString(word)+len(mark) > width && strings.TrimSpace(at) != "" {
			list = append(list, at+mark)
			at = below + word
			continue
		}
		if i > 0 {
			at += " "
		}
		at += word
	}
	return append(list, at)
}

func splitLines(text string) []string {
	text = strings.Trim(text, "\n")
	if text == "" {
		return nil
	}
	return strings.Split(text, "\n")
}
