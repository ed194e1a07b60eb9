package main

import (
	"context"
	"fmt"
	"io/fs"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
	"putby/testdata"
)

const sampleLong = `Write the sample ledger into DIR, which is made if it is not there: more than a
year of a household, to try every command on. The household is invented, and so
are its shops and their prices, the maker of its freeze-dryer, and its
electricity tariff, whose every hour has a price of its own in the last two
months. Nothing that exists is overwritten. Its setting as_of names the day at
which it stands, as if that were today; --as-of names another.

With --small it is one run of soup, small enough to work on paper: putby help
arithmetic does.`

func newSampleCommand(a *app) *cobra.Command {
	small := false
	cmd := &cobra.Command{
		Use:     "sample DIR",
		Short:   "write a ledger to try things on",
		Long:    sampleLong,
		Example: "  putby sample try-it\n  putby cost --ledger try-it\n  putby sample soup --small",
		Args:    arguments("DIR"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if small {
				return runSample(cmd.Context(), a, args[0], "small")
			}
			return runSample(cmd.Context(), a, args[0], "sample")
		},
	}
	cmd.Flags().BoolVar(&small, "small", false, "the ledger that is worked by hand")
	return cmd
}

// runSample writes the ledger of that name.
func runSample(ctx context.Context, a *app, dir, name string) error {
	files, err := sampleFiles(name)
	if err != nil {
		return err
	}
	if err := a.create(ctx, dir, "sample", files); err != nil {
		return err
	}
	rec, _, err := folder.Read(dir)
	if err != nil {
		return err
	}
	fmt.Fprintf(a.stdout, "The sample ledger is in %s. Its household, shops, prices and tariff are invented.\nIt stands at %v, as if that were today (setting as_of).\nNext: putby cost --ledger %s\n",
		printable(dir), entry.At(rec, a.now()).Today, printable(dir))
	return nil
}

// sampleFiles returns the files of a ledger to try by their names in it.
func sampleFiles(of string) (map[string][]byte, error) {
	sample, err := fs.Sub(testdata.Ledgers, of)
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	err = fs.WalkDir(sample, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[name], err = fs.ReadFile(sample, name)
		return err
	})
	return files, err
}
