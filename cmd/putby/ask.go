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
const howToAnswer = "Enter takes what is in brackets, - leaves it blank. Ctrl-C breaks off, and then\nnothing is saved."

// tell says a line to the person who is asked. It goes where the questions go,
// so that it is seen even when output goes to a file.
func (a *app) tell(format string, args ...any) {
	for line := range strings.SplitSeq(fmt.Sprintf(format, args...), "\n") {
		fmt.Fprintln(a.prompt, printable(line))
	}
}

// A reading turns an answer into what is recorded, or says why it cannot be.
type reading = func(answer string) (string, error)

// question asks until it gets an answer that can be read. An empty answer takes
// what is offered; read may be nil.
func (a *app) question(what, offer string, read reading) (string, error) {
	prompt := what + ": "
	if offer != "" {
		prompt = what + " [" + offer + "]: "
	}
	for {
		answer, err := a.lines().Line(ask.Prompt{Text: prompt, Offer: offer})
		switch {
		case err != nil:
			return "", errNotAnswered
		case answer == "":
			answer = offer
		case answer == "-":
			answer = ""
		}
		if read == nil {
			return answer, nil
		}
		text, err := read(answer)
		if err == nil {
			return text, nil
		}
		a.tell("  %v", err)
	}
}

// hold holds a conversation with the person at the terminal.
func (a *app) hold(intro string, dialogue func(*ask.Talk) error) error {
	return ask.Hold(a.lines(), a.prompt, intro, dialogue)
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

// confirm asks for leave; an empty answer is yes.
func (a *app) confirm(what string) error {
	answer, err := a.question(what, "yes", ask.OneOf("yes", "no"))
	if err == nil && answer != "yes" {
		err = errNotAnswered
	}
	return err
}

// readCell reads an answer as a cell of a record, with the words today and
// yesterday for dates, and the beginnings of names and words.
func readCell(k ledger.Kind, rec *ledger.Records, at entry.Moment, c *ledger.Column) reading {
	return func(answer string) (string, error) {
		answer = at.Typed(rec, c, answer)
		names, closed := entry.Names(rec, c)
		if name, ok := ask.Begun(answer, names); ok && closed {
			answer = name
		}
		if f := k.CellFault(rec.Settings.Zone, c.Name, answer); f != nil {
			return "", faultText(f)
		}
		if err := at.AheadCell(c, answer); err != nil {
			return "", err
		}
		if near, unknown := entry.Unknown(rec, c, answer); unknown {
			return "", unknownName(answer, near)
		}
		return answer, nil
	}
}

func unknownName(text, near string) error {
	if near != "" {
		return fmt.Errorf("the ledger has no %s; did you mean %s?", text, near)
	}
	return fmt.Errorf("the ledger has no %s", text)
}

// faultText says what is wrong with an answer, without a place in a file.
func faultText(f *ledger.Fault) error {
	if f.Hint != "" {
		return fmt.Errorf("%s (%s)", f.What, f.Hint)
	}
	return errors.New(f.What)
}
