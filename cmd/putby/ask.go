package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"putby/ledger"
)

// errNotAnswered ends a dialogue that was broken off: nothing is saved.
var errNotAnswered = errors.New("broken off: nothing was saved")

// askFor asks for a column, offering a default that an empty answer takes.
func (a *app) askFor(c ledger.Column, offer string) (string, error) {
	return a.question(c.Name+" ("+c.Help+")", offer)
}

// question asks on standard error, where a person reads even when output goes
// to a file.
func (a *app) question(what, offer string) (string, error) {
	prompt := what + ": "
	if offer != "" {
		prompt = what + " [" + printable(offer) + "]: "
	}
	fmt.Fprint(a.stderr, prompt)
	answer, err := a.readLine()
	if err != nil {
		fmt.Fprintln(a.stderr)
		return "", errNotAnswered
	}
	if answer == "" {
		return offer, nil
	}
	return answer, nil
}

// readLine reads an answer. One reader is kept, since it may have read ahead.
func (a *app) readLine() (string, error) {
	if a.answers == nil {
		a.answers = bufio.NewReader(a.stdin)
	}
	line, err := a.answers.ReadString('\n')
	if err != nil && (line == "" || !errors.Is(err, io.EOF)) {
		return "", err
	}
	return strings.TrimSpace(line), nil
}

// confirm asks for a last look; an empty answer is yes.
func (a *app) confirm(what string) error {
	answer, err := a.question(what+" (yes or no)", "yes")
	if err != nil {
		return err
	}
	if !strings.HasPrefix(strings.ToLower(answer), "y") {
		return errNotAnswered
	}
	return nil
}
