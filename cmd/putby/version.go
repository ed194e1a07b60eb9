package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"putby/ledger/nutrients"
)

func newVersionCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "version", Short: "which putby this is",
		Long:    "Say which putby this is, which format of ledger it reads, and which table of foods it has.",
		Example: "  putby version",
		Args:    arguments(),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(a.stdout, "putby %s\nledger format 1\nfoods: %s\nbuilt with %s for %s/%s\n",
				version(), nutrients.Source, runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}

// version is the module's, with the commit where the build knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(unreleased)"
	}
	if info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return "(unreleased, " + s.Value[:12] + ")"
		}
	}
	return "(unreleased)"
}
