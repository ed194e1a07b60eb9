package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
)

// newSettingCommand is the command of settings, which are edited, not added.
func newSettingCommand(a *app) *cobra.Command {
	k := ledger.SettingsKind()
	cmd := newGroupCommand(k.Name, k.Short, settingHelp())
	show := newShowCommand(a, k)
	show.Example = "  putby setting show currency"
	cmd.AddCommand(newListCommand(a, k), show)
	return cmd
}

func settingHelp() string {
	var b strings.Builder
	b.WriteString("List the settings, or show one. They are kept in settings.csv. To set one:\n\n" +
		"  putby edit setting hour_value value=12\n\nThe settings:\n\n")
	for _, s := range ledger.SettingColumns() {
		fmt.Fprintf(&b, "  %-20s %s\n", s.Name, s.Help)
	}
	return b.String()
}
