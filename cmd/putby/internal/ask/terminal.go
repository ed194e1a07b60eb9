package ask

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"sync"

	"golang.org/x/term"
)

// A Terminal reads lines that a person edits: arrow keys, the answers given
// before by Up, names completed by Tab.
type Terminal struct {
	in    *os.File
	out   io.Writer
	lines *term.Terminal
	past  memory
	names []string

	mu  sync.Mutex
	was *term.State // the terminal's own mode, while a line is edited
}

// OnTerminal reads from a terminal, and prompts on out.
func OnTerminal(in *os.File, out io.Writer) *Terminal {
	t := &Terminal{in: in, out: out}
	t.lines = term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{ahead{in}, out}, "")
	t.lines.History = &t.past
	t.lines.AutoCompleteCallback = t.complete
	return t
}

// ahead reads what may have been typed before the terminal was taken over: then
// Linux hands on a Ctrl-D as a zero.
type ahead struct{ in io.Reader }

// Read reads keys.
func (a ahead) Read(p []byte) (int, error) {
	n, err := a.in.Read(p)
	for i := range p[:n] {
		if n > 1 && p[i] == 0 {
			p[i] = ctrlD
		}
	}
	return n, err
}

const ctrlD = 4

// Line shows the prompt and has a line edited. Ctrl-C, and Ctrl-D on an empty
// line, are [io.EOF].
func (t *Terminal) Line(p Prompt) (string, error) {
	if err := t.raw(); err != nil {
		return "", err
	}
	defer t.Restore()
	if width, height, err := term.GetSize(int(t.in.Fd())); err == nil && width > 0 {
		_ = t.lines.SetSize(width, height)
	}
	t.names, t.past.offer = p.Names, p.Offer
	t.lines.SetPrompt(Printable(p.Text))
	line, err := t.lines.ReadLine()
	if err != nil {
		fmt.Fprint(t.out, "\r\n")
		return "", err
	}
	return strings.TrimSpace(line), nil
}

// raw takes the terminal over.
func (t *Terminal) raw() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	was, err := term.MakeRaw(int(t.in.Fd()))
	t.was = was
	return err
}

// Restore gives the terminal back, at any time and from anywhere. Where there is
// none it does nothing.
func (t *Terminal) Restore() {
	if t == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.was != nil {
		_ = term.Restore(int(t.in.Fd()), t.was)
		t.was = nil
	}
}

// complete completes a name by Tab, and lists those that it may be where it gets
// no further.
func (t *Terminal) complete(line string, pos int, key rune) (string, int, bool) {
	if key != '\t' {
		return "", 0, false
	}
	head, left := Complete(line[:pos], t.names)
	if head == line[:pos] && len(left) > 1 {
		slices.Sort(left)
		more := ""
		if n := len(left) - mostNames; n > 0 {
			left, more = left[:mostNames], fmt.Sprintf("  and %d more", n)
		}
		fmt.Fprintln(t.lines, Printable("  "+strings.Join(left, "  ")+more))
	}
	return head + line[pos:], len(head), true
}

// Complete completes the name that text ends with, as far as that is certain,
// and returns what is left to choose from.
func Complete(text string, names []string) (done string, left []string) {
	for at := range len(text) + 1 {
		if at > 0 && !strings.ContainsRune(" ;,", rune(text[at-1])) {
			continue
		}
		begun := strings.ToLower(text[at:])
		for _, name := range names {
			if strings.HasPrefix(strings.ToLower(name), begun) {
				left = append(left, name)
			}
		}
		if left == nil {
			continue
		}
		if so := common(left); len(so) > len(begun) || len(left) == 1 {
			text = text[:at] + so
		}
		return text, left
	}
	return text, nil
}

// common is how far names agree.
func common(names []string) string {
	first := []rune(names[0])
	for _, name := range names[1:] {
		other := []rune(name)
		n := 0
		for n < min(len(first), len(other)) && first[n] == other[n] {
			n++
		}
		first = first[:n]
	}
	return string(first)
}

// memory is what Up brings back: what is offered, then the answers before.
type memory struct {
	offer   string
	answers []string // the newest last, each once
}

// Add keeps an answer.
func (m *memory) Add(answer string) {
	if answer = strings.TrimSpace(answer); answer == "" || slices.Contains(passing, answer) {
		return
	}
	m.answers = slices.DeleteFunc(m.answers, func(a string) bool { return a == answer })
	m.answers = append(m.answers, answer)
}

// passing are answers that nobody wants back.
var passing = []string{"?", "-", "back", "yes", "y", "no", "n"}

// Len is how many there are.
func (m *memory) Len() int { return len(m.answers) + min(len(m.offer), 1) }

// At is the answer that was given so many answers ago.
func (m *memory) At(ago int) string {
	if m.offer != "" {
		if ago == 0 {
			return m.offer
		}
		ago--
	}
	return m.answers[len(m.answers)-1-ago]
}
