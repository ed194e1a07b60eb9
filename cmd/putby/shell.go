package main

import (
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

// peek reads the ledger for the shell, which is told nothing of faults.
func (a *app) peek() *ledger.Records {
	rec, _, err := folder.Read(a.ledgerDir())
	if err != nil {
		return &ledger.Records{}
	}
	return rec
}

// completeFlag offers the shell names of the ledger for a flag.
func (a *app) completeFlag(cmd *cobra.Command, flag string, names func(*ledger.Records) []string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return names(a.peek()), cobra.ShellCompDirectiveNoFileComp
	})
}

// completeRecord offers the shell a kind of record, then the name of one, then
// its columns.
func (a *app) completeRecord(_ *cobra.Command, args []string, text string) ([]cobra.Completion, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return entry.KindNames(), cobra.ShellCompDirectiveNoFileComp
	case 1:
		return entry.Own(a.peek(), args[0]), cobra.ShellCompDirectiveNoFileComp
	}
	k, _ := ledger.KindOf(args[0])
	return a.completeCell(k, text)
}

// completeCell offers the columns of a kind, and behind a column's name what its
// cells may hold.
func (a *app) completeCell(k ledger.Kind, text string) ([]cobra.Completion, cobra.ShellCompDirective) {
	column, _, found := strings.Cut(text, "=")
	if found && k.Has(column) {
		names, _ := entry.Names(a.peek(), k.Column(column))
		return around(column+"=", names, ""), cobra.ShellCompDirectiveNoFileComp
	}
	return around("", k.Header(), "="), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

// around puts texts before and behind each of some words.
func around(before string, words []string, behind string) []string {
	list := make([]string, len(words))
	for i, word := range words {
		list[i] = before + word + behind
	}
	return list
}

// completeOwn offers the shell the names of the records of one kind.
func (a *app) completeOwn(k ledger.Kind) cobra.CompletionFunc {
	return a.completeOnce(func(rec *ledger.Records) []string { return entry.Own(rec, k.Name) })
}

// completeFirst offers the shell the names of several kinds of things, for the
// first argument alone.
func (a *app) completeFirst(kinds ...ledger.Thing) cobra.CompletionFunc {
	return a.completeOnce(namesOf(kinds))
}

// completeOnce offers the shell names of the ledger for the first argument.
func (a *app) completeOnce(names func(*ledger.Records) []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return names(a.peek()), cobra.ShellCompDirectiveNoFileComp
	}
}

// completeFoods offers the shell the foods, each with what people call it.
func (a *app) completeFoods(cmd *cobra.Command, args []string, text string) ([]cobra.Completion, cobra.ShellCompDirective) {
	return a.completeOnce(func(rec *ledger.Records) (names []cobra.Completion) {
		for i := range rec.Foods {
			names = append(names, cobra.CompletionWithDesc(rec.Foods[i].ID, printable(rec.Foods[i].Name)))
		}
		return names
	})(cmd, args, text)
}

// completeNames offers the shell the ledger's names for every flag that is
// called after a kind of thing and that no command completes itself.
func (a *app) completeNames(root *cobra.Command) {
	everyCommand(root, func(cmd *cobra.Command) {
		for thing := ledger.Foods; thing <= ledger.Places; thing++ {
			a.completeMissing(cmd, thing.String(), thing.In)
		}
		a.completeMissing(cmd, "item", ledger.Foods.In)
	})
}

// completeMissing completes a flag that the command has and does not complete
// itself.
func (a *app) completeMissing(cmd *cobra.Command, flag string, names func(*ledger.Records) []string) {
	if _, done := cmd.GetFlagCompletionFunc(flag); !done && cmd.Flags().Lookup(flag) != nil {
		a.completeFlag(cmd, flag, names)
	}
}

// completeLast offers the shell names for the last word of a flag that holds
// amounts of things, such as "1 jar-1l, 1 lid".
func (a *app) completeLast(cmd *cobra.Command, flag string, names func(*ledger.Records) []string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, a.behind(names))
}

// completeThings offers the shell the names of several kinds of things, for any
// number of arguments, behind what stands before them in one.
func (a *app) completeThings(kinds ...ledger.Thing) cobra.CompletionFunc {
	return a.behind(namesOf(kinds))
}

// namesOf are the names of several kinds of things.
func namesOf(kinds []ledger.Thing) func(*ledger.Records) []string {
	return func(rec *ledger.Records) (names []string) {
		for _, kind := range kinds {
			names = append(names, kind.In(rec)...)
		}
		return names
	}
}

// behind offers the shell names behind what stands before them in one text.
func (a *app) behind(names func(*ledger.Records) []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, _ []string, text string) ([]cobra.Completion, cobra.ShellCompDirective) {
		at := strings.LastIndexByte(text, ' ') + 1
		return around(text[:at], names(a.peek()), ""), cobra.ShellCompDirectiveNoFileComp
	}
}

const completionLong = `Write the completion of putby for a shell: commands, flags, and the names of the
ledger's own foods, runs, packs and so on. Each shell's help says where its
completion belongs.`

// addCompletion adds the commands that write completion for shells.
func addCompletion(root *cobra.Command) {
	root.SetCompletionCommandGroupID("setup")
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		if c.Name() != "completion" {
			continue
		}
		c.Short, c.Long, c.Args, c.RunE = "completion for your shell", completionLong, noCommand, func(cmd *cobra.Command, _ []string) error { return cmd.Help() }
		for _, shell := range c.Commands() {
			shell.Short = "completion for " + shell.Name()
			shell.Example = "  putby completion " + shell.Name() + " > putby." + shell.Name()
		}
	}
}
