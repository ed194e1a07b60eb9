package manual

import (
	"strings"

	"putby/cmd/putby/internal/render"
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

// fill breaks a text into lines of at most width columns, where it has spaces; the
// first line begins with first, the others with rest.
func fill(text, first, rest string, width int) []string {
	return render.Fill(strings.Fields(text), first, rest, "", width)
}

// fold breaks a line that is to stay as it is, only where it is too long.
func fold(line string, width int) []string {
	if render.Width(line) <= width {
		return []string{line}
	}
	body := strings.TrimLeft(line, " ")
	indent := indentOf(line)
	below := indent + "    "
	if at := strings.Index(body, "  "); at > 0 { // a term and its text, in columns
		text := strings.TrimLeft(body[at:], " ")
		below = indent + strings.Repeat(" ", render.Width(body[:len(body)-len(text)]))
	}
	return render.Fill(strings.Split(body, " "), indent, below, "", width)
}

func splitLines(text string) []string {
	text = strings.Trim(text, "\n")
	if text == "" {
		return nil
	}
	return strings.Split(text, "\n")
}
