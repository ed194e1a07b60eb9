package main

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

// isInWords reports whether worth is asked about offers in the shop's words, not
// about a food whose price and size are options.
func isInWords(flags *pflag.FlagSet, args []string) bool {
	return len(args) > 1 || len(args) == 1 && strings.Contains(strings.TrimSpace(args[0]), " ") && !flags.Changed("price") && !flags.Changed("size")
}

// offersInWords reads offers in the shop's words, each with what the flags say of all
// of them; sizes are of which packages they are taken to be, and notes what else is taken
// for granted.
func offersInWords(rec *ledger.Records, common question.WorthQuery, texts []string) (offers []question.WorthQuery, sizes, notes []string, err error) {
	x := entry.NewItemNames(rec, nil)
	for _, text := range texts {
		offer, err := x.ReadOffer(rec, common.AsOf, text)
		if err != nil {
			return nil, nil, nil, err
		}
		q := common
		q.Item = offer.Item
		for _, option := range offer.Options {
			if err := q.Set(option[0], option[1]); err != nil {
				return nil, nil, nil, err
			}
		}
		offers = append(offers, q)
		if offer.Size != "" {
			sizes = append(sizes, offer.Size)
		}
		if offer.Note != "" {
			notes = append(notes, offer.Note)
		}
	}
	return offers, sizes, notes, nil
}

// sizesFirst says before the answer, to people, of which packages it is; JSON and CSV
// have it as a note.
func sizesFirst(d reports.Doc, sizes []string, format string) reports.Doc {
	switch {
	case len(sizes) == 0:
	case len(d.Words) == 0, format == render.JSON.String(), format == render.CSV.String():
		d.Notes = slices.Concat(sizes, d.Notes)
	default:
		d.Words = slices.Clone(d.Words)
		d.Words[0] = strings.Join(sizes, " ") + " " + d.Words[0]
	}
	return d
}
