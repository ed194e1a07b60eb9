package main

import (
	"strings"

	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/question"
)

// isSpoken reports whether worth is asked about offers in the shop's words, not
// about a food whose price and size are options.
func isSpoken(flags *pflag.FlagSet, args []string) bool {
	return len(args) > 1 || len(args) == 1 && strings.Contains(strings.TrimSpace(args[0]), " ") && !flags.Changed("price") && !flags.Changed("size")
}

// spokenOffers reads offers in the shop's words, each with what the flags say of all
// of them, and notes on how they were understood.
func spokenOffers(rec *ledger.Records, common question.WorthQuery, texts []string) (offers []question.WorthQuery, notes []string, err error) {
	x := entry.NewLexicon(rec, nil)
	for _, text := range texts {
		spoken, err := x.ReadOffer(rec, text)
		if err != nil {
			return nil, nil, err
		}
		q := common
		q.Item = spoken.Item
		for _, option := range spoken.Options {
			if err := q.Set(option[0], option[1]); err != nil {
				return nil, nil, err
			}
		}
		if offers = append(offers, q); spoken.Note != "" {
			notes = append(notes, spoken.Note)
		}
	}
	return offers, notes, nil
}
