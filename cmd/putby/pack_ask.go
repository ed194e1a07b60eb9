package main

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// errOpening ends a dialogue of packs before it begins: they are of no run.
var errOpening = errors.New("no run awaits packing")

const packLineHelp = `A line for each food: "chives 2 x 90 g"; "apples 7", each as last time; behind it, if
you like, the dry weight in one (dry 75 g) and what goes with one (with 1 jar-1l, 1 lid).`

// askPacks asks for packs in one answer, and then for what neither that nor the
// ledger tells.
func (a *app) askPacks(cmd *cobra.Command, o *packOptions, in entry.PackIn, pack func(*entry.Base, entry.PackIn) (*entry.Draft, error)) error {
	return a.add(cmd.Context(), o.saving, nil, func(t *ask.Talk, b *entry.Base) (*draft, error) {
		asks, ofRun, err := b.AsksOfPacks(in.Cells)
		if err == nil && !ofRun {
			err = errOpening
		}
		if err != nil {
			return nil, err
		}
		f := packForm{t: t, b: b, in: entry.PackIn{Cells: maps.Clone(in.Cells)}}
		if err := f.ask(asks); err != nil {
			return nil, err
		}
		made, err := pack(b, f.in)
		if err != nil {
			return nil, err
		}
		args := slices.Concat(commandWords(cmd), f.in.Lines, f.said, flagWords(cmd))
		return &draft{Draft: *made, args: args, look: append(b.Foretell(made), f.more...)}, nil
	})
}

// A packForm is packs that a person is asked for.
type packForm struct {
	t    *ask.Talk
	b    *entry.Base
	in   entry.PackIn
	said []string // flags that say what was asked for besides the lines
	more []string // the same, for the last look
}

func (f *packForm) ask(asks entry.PackAsks) error {
	text, err := f.t.Ask(ask.Question{
		Key: "packs", What: "what was packed, with ; between", Offer: strings.Join(asks.Lines, "; "), Names: ledger.Foods.In(f.b.Records), Help: packLineHelp,
		Check: func(answer string) (string, error) {
			in := f.in
			if in.Lines = splitParts(answer); in.Lines == nil {
				return "", errors.New(`say how many containers, such as "chives 2 x 90 g"`)
			}
			_, err := entry.Pack(f.b, in)
			return answer, err
		},
	})
	if err != nil {
		return err
	}
	f.in.Lines = splitParts(text)
	if err := f.with(); err != nil {
		return err
	}
	k := ledger.MustKind("pack")
	for _, c := range asks.Columns {
		if f.in.Cells[c.Name], err = f.t.Ask(cellQuestion(f.b, k, f.in.Cells, c)); err != nil {
			return err
		}
		f.more = append(f.more, strings.TrimSpace(c.Name+" "+f.in.Cells[c.Name]))
		f.said = append(f.said, "--"+flagName(c.Name), f.in.Cells[c.Name])
	}
	return nil
}

// with asks what goes with a container of foods that were never packed before.
func (f *packForm) with() error {
	k := ledger.MustKind("pack")
	for {
		made, err := entry.Pack(f.b, f.in)
		if err != nil {
			return err
		}
		line, food, lacks := made.Unsaid()
		if !lacks {
			return nil
		}
		q := cellQuestion(f.b, k, made.Rows[line].Cells, k.Column("with"))
		q.Key, q.What = "with "+food, "what goes with a container of "+food+", such as 1 jar-1l, 1 lid (- nothing)"
		text, err := f.t.Ask(q)
		if err != nil {
			return err
		}
		if text == "" {
			text = "nothing"
		}
		f.in.Lines[line] += " with " + text
	}
}
