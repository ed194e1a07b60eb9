package manual

import (
	"strings"
	"unicode/utf8"
)

// A paragraph is lines of text that belong together.
type paragraph struct {
	kind  kind
	lines []string
}

// A kind is what a paragraph is, by what its first line begins with.
type kind int

const (
	prose    kind = iota
	verbatim      // a space: lines that stay as they are
	heading       // "# "
	item          // "- ": one of a list
)

func kindOf(line string) kind {
	switch {
	case strings.HasPrefix(line, "# "):
		return heading
	case strings.HasPrefix(line, "- "):
		return item
	case line[0] == ' ':
		return verbatim
	}
	return prose
}

// paragraphs takes a text apart. The lines of an item that follow its first
// begin with two spaces.
func paragraphs(text string) []paragraph {
	var list []paragraph
	fresh := true
	for line := range strings.SplitSeq(strings.Trim(text, "\n"), "\n") {
		if strings.TrimSpace(line) == "" {
			fresh = true
			continue
		}
		at := kindOf(line)
		if !fresh && at == verbatim && list[len(list)-1].kind == item {
			at = item
		} else if fresh || at == item || at != list[len(list)-1].kind {
			list = append(list, paragraph{kind: at})
		}
		last := &list[len(list)-1]
		last.lines, fresh = append(last.lines, strings.TrimRight(line, " ")), false
	}
	return list
}

// prose is a paragraph's text in one line, without the mark of its kind.
func (p paragraph) prose() string {
	text := strings.Join(p.lines, " ")
	if p.kind == heading || p.kind == item {
		text = text[len("# "):]
	}
	return strings.Join(strings.Fields(text), " ")
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

// fold breaks a line that is to stay as it is, only where it is too long.
func fold(line string, width int) []string {
	if utf8.RuneCountInString(line) <= width {
		return []string{line}
	}
	body := strings.TrimLeft(line, " ")
	indent := indentOf(line)
	below := indent + "    "
	if at := strings.Index(body, "  "); at > 0 { // a term and its text, in columns
		text := strings.TrimLeft(body[at:], " ")
		below = indent + strings.Repeat(" ", utf8.RuneCountInString(body[:len(body)-len(text)]))
	}
	return breakUp(strings.Split(body, " "), indent, below, "", width)
}

// breakUp sets words in lines of at most width columns. Each line that goes on
// ends in mark.
func breakUp(words []string, first, rest, mark string, width int) []string {
	var list []string
	at := first
	for i, word := range words {
		if i > 0 && utf8.RuneCountInString(at)+1+utf8.RuneCountInString(word)+len(mark) > width && strings.TrimSpace(at) != "" {
			list = append(list, at+mark)
			at = rest + word
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
