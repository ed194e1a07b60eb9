package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"putby/ledger/nutrients"
)

const versionLong = `Say which putby this is, which format of ledger it reads, and which table of foods
it has. --verbose adds the commit and its date, the settings of the build, and the
libraries in it with their checksums.`

func newVersionCommand(a *app) *cobra.Command {
	verbose := false
	cmd := &cobra.Command{
		Use: "version", Short: "which putby this is",
		Long:    versionLong,
		Example: "  putby version\n  putby version --verbose",
		Args:    arguments(),
		RunE: func(*cobra.Command, []string) error {
			fmt.Fprintf(a.stdout, "putby %s\nledger format 1\nfoods: %s\nbuilt with %s for %s/%s\n",
				version(), nutrients.Source, runtime.Version(), runtime.GOOS, runtime.GOARCH)
			if verbose {
				a.sayBuild()
			}
			return nil // that it could not be written, the output tells
		},
	}
	cmd.Flags().BoolVar(&verbose, "verbose", false, "with the commit, the settings of the build and the libraries in it")
	return cmd
}

// sayBuild says of what this program is made.
func (a *app) sayBuild() {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		fmt.Fprintln(a.stdout, "nothing is known of how it was built")
		return
	}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			fmt.Fprintln(a.stdout, "commit:", s.Value)
		case "vcs.time":
			fmt.Fprintln(a.stdout, "of:", s.Value)
		case "vcs.modified":
			if s.Value == "true" {
				fmt.Fprintln(a.stdout, "built with changes that no commit has")
			}
		case "vcs":
		default:
			fmt.Fprintf(a.stdout, "setting: %s=%s\n", s.Key, s.Value)
		}
	}
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		fmt.Fprintln(a.stdout, "library:", m.Path, m.Version, m.Sum)
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
