package main

import (
	"errors"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/intake"
)

// choiceHints say by which flags a choice is made. %s stands for the fault's own
// hint; where there is none, that comes before the sentence.
var choiceHints = [ledger.Choices]string{
	ledger.WhichLedger:    "name the ledger's folder with --ledger DIR, or begin one with putby init DIR",
	ledger.ThisLedger:     "name it with --ledger, or give the folder in which it and others lie",
	ledger.DateOrder:      "say the order with --dates dmy, mdy or ymd, or in the map",
	ledger.MainDateOrder:  "say the order with --dates dmy, mdy or ymd, or in the map; rows of another order are then bad rows",
	ledger.DecimalSign:    "say the decimal sign with --decimal point or comma, or in the map",
	ledger.FileZone:       "name the file's zone with --zone, such as --zone Europe/Berlin",
	ledger.OtherZone:      "if the file's clock is that of another zone, name it with --zone, such as --zone UTC",
	ledger.OtherZoneOrOne: "keep one of the two; if the file's clock is that of another zone, say --zone, and if it has several areas, keep one",
	ledger.PerKWh:         "say --per kWh if they are for a kWh, or --per MWh if they are really for a MWh",
	ledger.PerMWh:         "say --per MWh if they are for a MWh, or --per kWh if they are really for a kWh",
	ledger.PriceColumn:    "name one with --column %s",
	ledger.NameMeaning:    "say what %s is with --name TEXT=ITEM or in " + intake.NamesFile + ", or add it to the ledger",
	ledger.NameSize:       "give its size with --name \"TEXT=ITEM SIZE\" or in " + intake.NamesFile + ", or fill size in the map",
	ledger.DaysAhead:      "correct the date, or give --ahead if it is meant",
	ledger.WhichTariff:    "name it, such as --as %s",
	ledger.BandsFrom:      "say from which date it is, such as --from 2026-01-01, or give another name with --as",
	ledger.PutInPlace:     "give --replace to put this log in its place",
	ledger.OtherPrices:    "give another name, or another date with --from; putby remove tariff @LINE takes a row out",
}

// kindHints are the flags that help with whatever fault of a kind.
var kindHints = []struct {
	kind  error
	flags string
}{
	{intake.ErrHeader, "--column COLUMN=HEADER, or --value COLUMN=VALUE for what the file does not have"},
	{intake.ErrAmbiguous, "--dates or --decimal, or for one column --how"},
	{intake.ErrMixed, "--dates or --decimal, or for one column --how"},
	{intake.ErrEncoding, "--encoding"},
	{intake.ErrNoSheet, "--sheet"},
}

// faultHint says what to try, with the flags by which it is done.
func faultHint(f *ledger.Fault) string {
	hint := choiceHints[f.Choice]
	if f.Do != nil {
		return advice.After(commands{}, f.Hint, f.Do)
	}
	switch {
	case errors.Is(f, entry.ErrAhead):
		return choiceHints[ledger.DaysAhead]
	case errors.Is(f, entry.ErrAgain):
		return "leave it, or give --again if it was bought twice"
	case strings.Contains(hint, "%s"):
		hint = strings.Replace(hint, "%s", f.Hint, 1)
	default:
		hint = joined(f.Hint, "; ", hint)
	}
	for _, k := range kindHints {
		if errors.Is(f, k.kind) {
			return joined(hint, "; by ", k.flags)
		}
	}
	return hint
}

// joined joins two texts, of which either may be empty.
func joined(a, mark, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + mark + b
}
