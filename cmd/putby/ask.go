package main

import (
	"errors"
	"fmt"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// errNotAnswered ends a dialogue that was broken off: nothing is saved.
var errNotAnswered = ask.ErrBroken

// howToAnswer opens a dialogue.
const howToAnswer = "Enter takes what is in brackets, - leaves it blank, ? explains, back goes one\nquestion back. Ctrl-C ends it, and then nothing is saved."

// tell says a line to the person who is asked. It goes where the questions go,
// so that it is seen even when output goes to a file.
func (a *app) tell(format string, args ...any) {
	for line := range strings.SplitSeq(fmt.Sprintf(format, args...), "\n") {
		fmt.Fprintln(a.prompt, printable(line))
	}
}

// hold holds a conversation with the person at the terminal. The first that is
// worth it begins with how to answer.
func (a *app) hold(intro string, dialogue func(*ask.Talk) error) error {
	if a.greeted {
		intro = ""
	}
	a.greeted = a.greeted || intro != ""
	return ask.Hold(a.lines(), a.prompt, intro, func(t *ask.Talk) error {
		t.Heed = a.heed
		return dialogue(t)
	})
}

// lines is where answers come from.
func (a *app) lines() ask.Lines {
	switch {
	case a.answers != nil:
	case a.keys != nil:
		a.answers = a.keys
	default:
		a.answers = ask.Plain(a.stdin, a.prompt)
	}
	return a.answers
}

// cellQuestion asks for a cell of a record that has some cells already.
func cellQuestion(b *entry.Base, k ledger.Kind, cells map[string]string, c *ledger.Column) ask.Question {
	names, _ := entry.Names(b.Records, c)
	if names == nil && !c.Own {
		names = c.Known(b.Records)
	}
	return ask.Question{
		Key: c.Name, What: c.Prompt(), Names: names, Help: entry.HowTo(c), Free: !entry.Figures(c),
		Check: func(answer string) (string, error) {
			text, err := b.Answer(k, cells, c, answer)
			if errors.Is(err, entry.ErrOdd) {
				err = fmt.Errorf("%w; %w", err, ask.ErrUnlikely)
			}
			return text, err
		},
	}
}
