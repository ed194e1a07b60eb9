package ask

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
)

// Lines reads answers, a line each.
type Lines interface {
	Line(Prompt) (string, error)
}

// A Prompt is what stands before an answer.
type Prompt struct {
	Text  string
	Offer string   // to be brought up and edited
	Names []string // to be completed
}

// Plain reads lines from where nobody edits them, such as a file of answers.
func Plain(in io.Reader, out io.Writer) Lines { return &plain{bufio.NewReader(in), out} }

type plain struct {
	in  *bufio.Reader // one is kept, since it may have read ahead
	out io.Writer
}

// Line shows the prompt and reads a line.
func (p *plain) Line(prompt Prompt) (string, error) {
	fmt.Fprint(p.out, Printable(prompt.Text))
	line, err := p.in.ReadString('\n')
	if err != nil && (line == "" || !errors.Is(err, io.EOF)) {
		fmt.Fprintln(p.out)
		return "", err
	}
	return strings.TrimSpace(line), nil
}

// Printable keeps control characters, and those that turn text round, from the
// terminal.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return '\uFFFD'
		}
		return r
	}, s)
}
