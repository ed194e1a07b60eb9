package main

import (
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
)

// A wording is how a person is asked for the words of a command of the day, all
// in one answer.
type wording struct {
	what, help string
	offer      func(*entry.Base) string // may be nil
	names      func(*entry.Base) []string
	act        func(words []string) entry.Act
	named      bool // the act itself asks about figures, since it knows what is a name
}

// recordWords records what the words of a command say or, where there are none and somebody
// is there, what a person answers. About is as of [app.act].
func (a *app) recordWords(cmd *cobra.Command, o saving, about entry.About, w wording, words []string) error {
	if len(words) == 0 && a.ask {
		return a.askWords(cmd, o, w)
	}
	return a.act(cmd.Context(), o, about, w.act(words))
}

// askWords records what a person answers where a command was given no words. A
// slip is told when the answer is given.
func (a *app) askWords(cmd *cobra.Command, o saving, w wording) error {
	return a.add(cmd.Context(), o, nil, func(t *ask.Talk, b *entry.Base) (*draft, error) {
		if _, err := w.act(nil)(b); !errors.Is(err, entry.ErrUnsaid) {
			return nil, err // which no answer would mend
		}
		q := ask.Question{Key: "words", What: w.what + ", with ; between", Help: w.help, Names: w.names(b), Free: w.named, Check: func(answer string) (string, error) {
			_, err := w.act(splitParts(answer))(b)
			return answer, err
		}}
		if w.offer != nil {
			q.Offer = w.offer(b)
		}
		text, err := t.Ask(q)
		if err != nil {
			return nil, err
		}
		made, err := w.act(splitParts(text))(b)
		if err != nil {
			return nil, err
		}
		args := slices.Concat(commandWords(cmd), splitParts(text), flagWords(cmd))
		return &draft{Draft: *made, args: args, look: b.Foretell(made)}, nil
	})
}

// commandWords are the words that name a command.
func commandWords(cmd *cobra.Command) []string {
	return strings.Fields(cmd.CommandPath())[1:]
}

// flagWords are the flags that a command was given, but for those that a
// dialogue adds by itself.
func flagWords(cmd *cobra.Command) (words []string) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if slices.Contains([]string{"ledger", "ahead", "again"}, f.Name) {
			return
		}
		switch list, many := f.Value.(pflag.SliceValue); {
		case many:
			for _, text := range list.GetSlice() {
				words = append(words, "--"+f.Name, text)
			}
		case f.NoOptDefVal != "":
			words = append(words, "--"+f.Name)
		default:
			words = append(words, "--"+f.Name, f.Value.String())
		}
	})
	return words
}
