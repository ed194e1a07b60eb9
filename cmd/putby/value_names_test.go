package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// vague are names of values that say no more than that there is one.
var vague = []string{"text", "word", "string", "strings", "stringArray", "value", "name"}

// TestValueNames holds that each flag says what it takes: --shop SHOP, not --shop
// text.
func TestValueNames(t *testing.T) {
	everyCommand(newRootCommand(&app{}), func(cmd *cobra.Command) {
		cmd.Flags().VisitAll(func(f *pflag.Flag) {
			if name, _ := pflag.UnquoteUsage(f); name != f.Name && slices.Contains(vague, strings.ToLower(name)) {
				t.Errorf("%s: --%s %s", cmd.CommandPath(), f.Name, name)
			}
		})
	})
}
