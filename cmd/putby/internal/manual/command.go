package manual

import (
	"slices"
	"strings"

	"putby/cmd/putby/internal/render"
)

// goesOn ends a line of a shell whose command goes on in the next.
const goesOn = ` \`

// programs begin the lines of a text that are typed in a shell: "$" stands
// before one whose output is shown.
var programs = []string{"putby", "$", "export", "psql", "duckdb"}

func isCommand(line string) bool {
	word, _, _ := strings.Cut(strings.TrimLeft(line, " "), " ")
	return slices.Contains(programs, word)
}

// foldAll breaks those of the lines that are too long. What is typed in a shell
// is broken so that it can be pasted as it stands.
func foldAll(lines []string, width int) []string {
	var list []string
	for len(lines) > 0 {
		n := 1
		if !isCommand(lines[0]) {
			if n = wrapped(lines); n > 1 && width < usualWidth {
				list = append(list, fill(strings.Join(lines[:n], " "), indentOf(lines[0]), indentOf(lines[1]), width)...)
			} else {
				list, n = append(list, fold(lines[0], width)...), 1
			}
		} else {
			for n < len(lines) && strings.HasSuffix(lines[n-1], goesOn) {
				n++
			}
			list = append(list, foldCommand(lines[:n], width)...)
		}
		lines = lines[n:]
	}
	return list
}

// wrapped is how many of the lines are one sentence of an answer: those that go on
// since the next word had no room on a screen of the usual width. Columns of a table
// have two spaces between them.
func wrapped(lines []string) int {
	n := 1
	for n < len(lines) && !isCommand(lines[n]) && !inColumns(lines[n-1]) && !inColumns(lines[n]) {
		next := strings.Fields(lines[n])
		if len(next) == 0 || next[0] == "*" || render.Width(lines[n-1]+" "+next[0]) <= usualWidth {
			break
		}
		n++
	}
	return n
}

func inColumns(line string) bool { return strings.Contains(strings.TrimLeft(line, " "), "  ") }

func indentOf(line string) string { return line[:len(line)-len(strings.TrimLeft(line, " "))] }

// foldCommand breaks a command between its words, and never in quotes, where the
// lines that it has are too long.
func foldCommand(lines []string, width int) []string {
	if !slices.ContainsFunc(lines, func(line string) bool { return render.Width(line) > width }) {
		return lines
	}
	indent := indentOf(lines[0])
	var words []string
	for _, line := range lines {
		words = append(words, shellWords(strings.TrimSuffix(line, goesOn))...)
	}
	return render.Fill(withValues(words), indent, indent+"    ", goesOn, width)
}

// withValues has an option and the word that it takes as one word, so that they
// stay in one line.
func withValues(words []string) []string {
	var list []string
	for i, word := range words {
		if i > 0 && strings.HasPrefix(strings.TrimLeft(words[i-1], "["), "--") && !strings.HasPrefix(word, "-") && !strings.HasPrefix(word, "[") {
			list[len(list)-1] += " " + word
			continue
		}
		list = append(list, word)
	}
	return list
}

// shellWords are the words of a command, with the quotes that they are typed in.
func shellWords(line string) []string {
	var words []string
	var quote rune // in which the place is, 0 outside
	begin := true
	for _, r := range line {
		switch {
		case quote == 0 && r == ' ':
			begin = true
			continue
		case quote == 0 && (r == '"' || r == '\''):
			quote = r
		case r == quote:
			quote = 0
		}
		if begin {
			words, begin = append(words, ""), false
		}
		words[len(words)-1] += string(r)
	}
	return words
}
