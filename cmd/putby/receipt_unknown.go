package main

import (
	"cmp"
	"slices"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// howToSayWhat explains the question about a thing that is not known.
const howToSayWhat = `Name a food or supply that the ledger has, if this is what the shop calls it; or
food or supply, to add a new one; or service or other: what it costs is spending
only. The answer is kept, so that it is asked once.`

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
	was := *in
	return a.hold(howToAnswer, func(t *ask.Talk) error {
		*in = was
		for _, name := range unknown {
			answer, err := askWhat(t, name, base, name, entry.NewThings)
			if err != nil {
				return err
			}
			in.AddAnswer(answer)
		}
		return nil
	})
}

// askWhat asks what a thing is that nothing is called by: one of those that the ledger
// has, or a new one of a kind.
func askWhat(t *ask.Talk, key string, b *entry.Base, name string, kinds []string) (entry.Answer, error) {
	a, x := entry.Answer{Name: name}, entry.NewItemNames(b.Records, nil)
	last := len(kinds) - 1
	known := append(ledger.Foods.In(b.Records), ledger.Supplies.In(b.Records)...)
	said, err := t.Ask(ask.Question{
		Key: key, What: "what is " + name + ": " + strings.Join(slices.Concat([]string{"its name in the ledger"}, kinds[:last]), ", ") + " or " + kinds[last], Offer: cmp.Or(x.Near(name), kinds[last]),
		Help: howToSayWhat, Names: slices.Concat(kinds, known),
		Check: func(text string) (string, error) {
			if k, ok := x.Find(text); ok && (len(kinds) > 1 || k.Kind.String() == kinds[0]) {
				return k.Item, nil
			}
			return ask.OneOf(kinds...)(text)
		},
	})
	if err != nil {
		return a, err
	}
	if !slices.Contains(kinds, said) {
		a.Item = said
		return a, nil
	}
	a.Kind = said
	k, c, isNew := a.New()
	if !isNew {
		return a, nil
	}
	q := cellQuestion(b, k, nil, k.Column(k.Name))
	if _, err := q.Check(name); err != nil {
		if a.ID, err = q.Check(entry.Slug(name)); err != nil {
			q.Key, q.What = key+"/"+q.Key, "its identifier"
			if a.ID, err = t.Ask(q); err != nil {
				return a, err
			}
		}
	}
	q = cellQuestion(b, k, nil, c)
	q.Key = key + "/" + q.Key
	a.As, err = t.Ask(q)
	return a, err
}
