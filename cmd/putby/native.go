package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
	"putby/pricing/locale"
)

// freeValues are what flags take that is no figure, whatever stands in it: files,
// and names of all kinds.
var freeValues = []string{
	"file", "folder", "address", "identifier", "note", "who", "place", "zone", "locale", "label", "map", "header", "sheet", "table",
	"food", "machine", "tariff", "shop", "supply", "pack", "run", "batch", "receipt", "item", "household",
	"COLUMN=HEADER", "COLUMN=WORDS", "TEXT=ITEM",
}

// wordFigures are the commands whose arguments may be figures. Those of others
// are names, files, or cells and things that are asked about where they are read,
// since there it is known what is a name.
var wordFigures = []string{"receipt add", "pack add", "tariff add", "start", "worth"}

// native reads the figures of a command line as the household's locale writes
// them, and refuses those that can be read in two ways. The words of records are
// read by package entry, as answers and forms are; here are the flags of reports,
// which are read before the ledger is.
func (a *app) native(cmd *cobra.Command, args []string) error {
	var texts []string
	if _, path, _ := strings.Cut(cmd.CommandPath(), " "); slices.Contains(wordFigures, path) {
		texts = slices.Clone(args)
	}
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if !isFree(f) {
			texts = append(texts, flagTexts(f)...)
		}
	})
	if !slices.ContainsFunc(texts, hasSign) {
		return nil
	}
	l := a.locale()
	for _, text := range texts {
		if err := entry.TwoWays(l, text); err != nil {
			return misused("%v", err)
		}
	}
	if cmd.Flags().Lookup("format") == nil && cmd.Flags().Lookup("as-of") == nil {
		return nil
	}
	var err error
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if _, several := f.Value.(pflag.SliceValue); !several && !isFree(f) {
			if text := f.Value.String(); hasSign(text) && entry.Native(l, text) != text {
				err = f.Value.Set(entry.Native(l, text))
			}
		}
	})
	return err
}

// isFree reports whether a flag takes what is no figure.
func isFree(f *pflag.Flag) bool {
	if cell, ok := f.Value.(*cellFlag); ok {
		return cell.free
	}
	takes, _ := pflag.UnquoteUsage(f)
	return slices.Contains(freeValues, takes)
}

// flagTexts is what a flag was given.
func flagTexts(f *pflag.Flag) []string {
	if list, several := f.Value.(pflag.SliceValue); several {
		return list.GetSlice()
	}
	return []string{f.Value.String()}
}

// hasSign reports whether a text has a digit behind something that may be a
// decimal sign, or part a date or thousands.
func hasSign(text string) bool {
	for i := 1; i < len(text); i++ {
		if text[i] >= '0' && text[i] <= '9' && !strings.ContainsRune("0123456789-:", rune(text[i-1])) {
			return true
		}
	}
	return false
}

// locale is that of the ledger; plain where there is none.
func (a *app) locale() locale.Locale { return folder.SettingsOf(a.ledgerDir()).Locale }

// heed refuses an answer in which a number can be read in two ways.
func (a *app) heed(answer string) error {
	if !hasSign(answer) {
		return nil
	}
	return entry.TwoWays(a.locale(), answer)
}
