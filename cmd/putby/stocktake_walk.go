package main

import (
	"cmp"
	"fmt"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
	reports "putby/ledger/report"
)

const walkIntro = "Enter: the books are right. A number: what is there. -: not looked at. back: one\nquestion back. Ctrl-C ends it, and then nothing is saved."

// walk asks of one thing after the other how many are there, place by place.
func (a *app) walk(o *stocktakeOptions) (entry.StocktakeIn, error) {
	in := entry.StocktakeIn{Date: o.date, Note: o.note}
	b, err := a.base()
	if err != nil {
		return in, err
	}
	list, g, err := entry.ToCount(b, o.date, o.query)
	if err != nil {
		return in, err
	}
	err = a.hold(walkIntro, func(t *ask.Talk) error {
		in.Counted = nil
		for i, c := range list {
			if i == 0 || reports.Whereabouts(g, c) != reports.Whereabouts(g, list[i-1]) {
				t.Tell("%s", reports.Whereabouts(g, c))
			}
			if err := askCount(t, g, c, &in); err != nil {
				return err
			}
		}
		draft, err := entry.Stocktake(b, in)
		if err != nil {
			return amended(t, err)
		}
		counted, ok := entry.Joined(b.Records, draft.Rows)
		if !ok || o.dryRun {
			return nil // the saving says what is wrong
		}
		return t.Agree(draft.Lines(counted), "save it")
	})
	return in, err
}

// skipped is the answer about what was not looked at.
const skipped = "-"

// askCount asks how much is there of something, and where fresh food is gone what
// became of it.
func askCount(t *ask.Talk, g *ledger.Ledger, c figures.Countable, in *entry.StocktakeIn) error {
	c = entry.WithReturned(g, c, in.Counted)
	key := fmt.Sprintf("count %d %d %d", c.Pack, c.Food, c.Supply)
	text, err := t.Ask(ask.Question{
		Key: key, What: "  " + entry.Counting(g, c), Offer: entry.BooksText(g, c), Dash: true,
		Help: "How much is there now. - where you do not look.",
		Check: func(answer string) (string, error) {
			if answer == skipped {
				return answer, nil
			}
			_, _, err := entry.ReadCount(g, c, answer)
			return answer, err
		},
	})
	if err != nil || text == skipped {
		return err
	}
	gone := ""
	if _, agrees, err := entry.ReadCount(g, c, text); err == nil && !agrees && c.Pack < 0 && c.Food >= 0 {
		words := append(entry.Became, "missing")
		if gone, err = t.Ask(ask.Question{Key: key + "/gone", What: "  the rest was eaten, given or spoiled (missing: nobody knows)", Offer: entry.Became[0], Names: words, Check: ask.OneOf(words...)}); err != nil {
			return err
		}
		if gone == "missing" { // which is what a stocktake makes of it where nothing is said
			gone = ""
		}
	}
	in.Counted = append(in.Counted, entry.CountedOf(g, c, cmp.Or(text, entry.BooksText(g, c)), gone))
	return nil
}
