package main

import (
	"cmp"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/manual"
)

// pageOf gathers what is known of a command.
func pageOf(cmd *cobra.Command) manual.Page {
	cmd.InitDefaultHelpFlag()
	p := manual.Page{
		Name: cmd.CommandPath(), Short: cmd.Short, Text: cmp.Or(cmd.Long, cmd.Short), Examples: cmd.Example,
		Flags: entriesOf(cmd.LocalFlags(), cmd.Root().PersistentFlags()), Global: entriesOf(cmd.Root().PersistentFlags(), nil),
		Commands: groupsOf(cmd),
	}
	if cmd.HasSubCommands() {
		p.Usage = []string{cmd.CommandPath() + " COMMAND"}
	}
	if !cmd.HasSubCommands() || cmd.HasLocalFlags() && cmd.Use != cmd.Name() {
		p.Usage = append(p.Usage, cmd.UseLine())
	}
	for _, s := range statuses {
		p.Statuses = append(p.Statuses, manual.Entry{Term: strconv.Itoa(s.status), Text: s.means})
	}
	if cmd.HasParent() {
		p.See = []string{cmd.Parent().CommandPath()}
	}
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			p.See = append(p.See, c.CommandPath())
		}
	}
	return p
}

// entriesOf lists flags, without those that others have.
func entriesOf(flags, others *pflag.FlagSet) []manual.Entry {
	var list []manual.Entry
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden || others != nil && others.Lookup(f.Name) != nil {
			return
		}
		word, text := pflag.UnquoteUsage(f)
		term := "    --" + f.Name
		if f.Shorthand != "" {
			term = "-" + f.Shorthand + ", --" + f.Name
		}
		if word != "" {
			term += " " + strings.ToUpper(word)
		}
		if d := f.DefValue; d != "" && d != "false" && d != "[]" && !strings.Contains(text, "(") {
			text += " (" + d + ")"
		}
		list = append(list, manual.Entry{Term: term, Text: text})
	})
	return list
}

// groupsOf lists the commands below one, by group.
func groupsOf(cmd *cobra.Command) []manual.Group {
	var list []manual.Group
	add := func(title, id string) {
		var g manual.Group
		for _, c := range cmd.Commands() {
			if c.GroupID == id && (c.IsAvailableCommand() || c.Name() == "help") {
				g.Entries = append(g.Entries, manual.Entry{Term: c.Name(), Text: c.Short})
			}
		}
		if g.Title = title; g.Entries != nil {
			list = append(list, g)
		}
	}
	for _, group := range cmd.Groups() {
		add(strings.TrimSuffix(group.Title, ":"), group.ID)
	}
	add("Commands", "")
	return list
}

// setHelp has help written by this program's manual, as wide as the terminal;
// its examples begin with one of the household's own.
func setHelp(a *app, root *cobra.Command) {
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) {
		page := pageOf(cmd)
		page.Examples = a.ownExample(page.Name) + page.Examples
		_, _ = cmd.OutOrStdout().Write([]byte(manual.Help(page, a.width)))
	})
}

// everyCommand walks the tree of commands that a person may give, in order.
func everyCommand(cmd *cobra.Command, do func(*cobra.Command)) {
	do(cmd)
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			everyCommand(c, do)
		}
	}
}
