package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/manual"
)

const helpLong = `Show the help of a command (help receipt add is receipt add --help), or read
about a topic. The topics:

`

// newHelpCommand tells of commands, and of topics that no single command is
// about.
func newHelpCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "help [COMMAND | TOPIC]", Short: "help about a command or a topic",
		Long:    helpLong + topicList(),
		Example: "  putby help receipt add\n  putby help recording",
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
			about, _, _ := cmd.Root().Find(args)
			var names []cobra.Completion
			for _, c := range about.Commands() {
				if c.IsAvailableCommand() {
					names = append(names, cobra.CompletionWithDesc(c.Name(), c.Short))
				}
			}
			if len(args) == 0 {
				for _, name := range manual.Topics() {
					topic, _ := manual.Topic(name)
					names = append(names, cobra.CompletionWithDesc(name, topic.Short))
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runHelp(a, cmd, args) },
	}
}

func runHelp(a *app, cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		_, err := io.WriteString(a.stdout, overview())
		return err
	}
	if len(args) == 1 {
		if topic, ok := manual.Topic(strings.ToLower(args[0])); ok {
			_, err := io.WriteString(a.stdout, manual.Help(topic, a.width))
			return err
		}
	}
	about, rest, err := cmd.Root().Find(args)
	if err != nil {
		return misused("%v", err)
	}
	if len(rest) > 0 {
		return noCommand(about, rest)
	}
	return about.Help()
}

// topicList says what each topic is about, in lines of two columns.
func topicList() string {
	var list strings.Builder
	for _, name := range manual.Topics() {
		topic, _ := manual.Topic(name)
		list.WriteString("  " + padded(name, 14) + topic.Short + "\n")
	}
	return list.String()
}
