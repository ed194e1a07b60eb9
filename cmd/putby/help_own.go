package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"putby/ledger"
)

// mostToPeek is how many bytes of files help reads for an example: it has to be
// there at once.
const mostToPeek = 2 << 20

// ownExamples write an example of a command about a pack of the household's;
// none is written where they return nothing. Only what changes no record is here.
var ownExamples = map[string]func(rec *ledger.Records, p *ledger.Pack) string{
	"putby explain": func(_ *ledger.Records, p *ledger.Pack) string { return p.Run },
	"putby trace":   func(_ *ledger.Records, p *ledger.Pack) string { return p.ID + " --kind pack" },
	"putby cost":    func(_ *ledger.Records, p *ledger.Pack) string { return "--item " + p.Item },
	"putby compare": func(_ *ledger.Records, p *ledger.Pack) string { return "--item " + p.Item },
	"putby when":    func(_ *ledger.Records, p *ledger.Pack) string { return p.Item },
	"putby offers": func(rec *ledger.Records, p *ledger.Pack) string {
		if lastAsked(rec, p.Item) == nil {
			return ""
		}
		return p.Item
	},
	"putby worth": func(rec *ledger.Records, p *ledger.Pack) string {
		price := lastAsked(rec, p.Item)
		if price == nil {
			return ""
		}
		size := strings.ReplaceAll(price.Size.String(), " ", "")
		return p.Item + " --price " + price.Price.Fixed(rec.Settings.Currency.Minor()) + " --size " + size
	},
}

// lastAsked is the last price that a shop asked for a food.
func lastAsked(rec *ledger.Records, food string) *ledger.ShelfRow {
	var last *ledger.ShelfRow
	for i := range rec.Shelf {
		if r := &rec.Shelf[i]; r.Item == food && (last == nil || r.Date >= last.Date) {
			last = r
		}
	}
	return last
}

// plain is what every shell takes as it is.
const plain = `^[A-Za-z0-9._/ -]+$`

// ownExample is an example of a command about what the household packed last. It
// is empty where there is no ledger, or one with faults, or a large one: help
// neither fails nor waits.
func (a *app) ownExample(command string) string {
	write := ownExamples[command]
	if write == nil || !quicklyRead(a.ledgerDir()) {
		return ""
	}
	s, err := a.stand("")
	if err != nil || len(s.faults) > 0 {
		return ""
	}
	about := ""
	for i := s.rec.Packs.Len() - 1; i >= 0 && about == ""; i-- {
		if p := s.rec.Packs.At(i); p.Run != "" && p.Date <= s.day {
			about = write(s.rec, &p)
		}
	}
	if about == "" {
		return ""
	}
	if a.dir != "" {
		about += " --ledger " + a.dir
	}
	if !regexp.MustCompile(plain).MatchString(about) || strings.Contains(a.dir, " ") {
		return ""
	}
	return "  " + command + " " + about + "\n"
}

// quicklyRead reports whether all tables of a ledger are small.
func quicklyRead(dir string) bool {
	files, err := filepath.Glob(filepath.Join(dir, "*.csv"))
	if err != nil {
		return false
	}
	size := int64(0)
	for _, name := range files {
		info, err := os.Stat(name)
		if err != nil || !info.Mode().IsRegular() {
			return false
		}
		size += info.Size()
	}
	return size > 0 && size <= mostToPeek
}
