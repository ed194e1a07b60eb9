package main

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
)

// isSpoken reports whether worth is asked about offers in the shop's words, not
// about a food whose price and size are options.
func isSpoken(flags *pflag.FlagSet, args []string) bool {
	return len(args) > 1 || len(args) == 1 && strings.Contains(strings.TrimSpace(args[0]), " ") && !flags.Changed("price") && !flags.Changed("size")
}

// runSpoken answers about one offer as worth does, and about several as a plan.
func runSpoken(a *app, o *worthOptions, flags *pflag.FlagSet, texts []string) error {
	common, err := o.query(flags, "")
	if err != nil {
		return err
	}
	g, err := o.stand(a, &common)
	if err != nil {
		return err
	}
	var notes []string
	var offers []reports.WorthQuery
	x := entry.NewLexicon(g.Records, nil)
	for _, text := range texts {
		spoken, err := x.ReadOffer(g.Records, text)
		if err != nil {
			return err
		}
		q := common
		q.Item = spoken.Item
		for _, option := range spoken.Options {
			if err := q.Set(option[0], option[1]); err != nil {
				return err
			}
		}
		if offers = append(offers, q); spoken.Note != "" {
			notes = append(notes, spoken.Note)
		}
	}
	if len(offers) == 1 && !common.Budget.Given() {
		return a.sayWorth(g, offers[0], o, notes...)
	}
	return a.sayOffers(g, offers, o, notes...)
}

// sayOffers prints what to buy of some offers; what is first goes before its notes.
func (a *app) sayOffers(g *ledger.Ledger, offers []reports.WorthQuery, o *worthOptions, first ...string) error {
	d, err := reports.PlanOf(g, offers)
	if err != nil {
		return a.foodError(err)
	}
	d.Notes = slices.Concat(first, d.Notes)
	return a.printReport(g, d, o.output)
}
