package main

import (
	"fmt"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// howToSayWhat explains the question about a thing that is not known.
const howToSayWhat = `Name a food or supply that the ledger has, if this is what the shop calls it; or
food or supply, to add a new one; or other: what it costs is spending only. The
answer is kept, so that it is asked once.`

// askUnknown asks what the things of a receipt are that nothing is called by.
func (a *app) askUnknown(in *entry.ReceiptIn) error {
	base, err := a.base()
	if err != nil {
		return err
	}
	unknown := entry.UnknownItems(base, *in)
	if unknown == nil {
		return nil
	}
	var answers []entry.Answer
	err = a.hold(howToAnswer, func(t *ask.Talk) error {
		answers = nil
		for _, name := range unknown {
			answer, err := askWhat(t, base, name)
			if err != nil {
				return err
			}
			answers = append(answers, answer)
		}
		return nil
	})
	if err != nil {
		return err
	}
	in.Learn(answers)
	return nil
}

// askWhat asks what a thing is.
func askWhat(t *ask.Talk, b *entry.Base, name string) (entry.Answer, error) {
	answer, rec := entry.Answer{Name: name}, b.Records
	x := entry.NewLexicon(rec, nil)
	words := []string{"food", "supply", "other"}
	offer := x.Near(name)
	if offer == "" {
		offer = "other"
	}
	known := append(ledger.Foods.In(rec), ledger.Supplies.In(rec)...)
	said, err := t.Ask(ask.Question{
		Key: name, What: fmt.Sprintf("what is %s: its name in the ledger, food, supply or other", name), Offer: offer, Help: howToSayWhat,
		Names: append(words, known...),
		Check: func(text string) (string, error) {
			if k, ok := x.Find(text); ok {
				return k.Item, nil
			}
			return ask.OneOf(words...)(text)
		},
	})
	if err != nil {
		return answer, err
	}
	switch said {
	case "other":
		return answer, nil
	case "food", "supply":
		answer.New = said
	default:
		answer.Item = said
		return answer, nil
	}
	k := ledger.MustKind(said)
	q := cellQuestion(b, k, nil, k.Column(map[string]string{"food": "basis", "supply": "kind"}[said]))
	q.Key = name + "/" + q.Key
	answer.As, err = t.Ask(q)
	return answer, err
}
