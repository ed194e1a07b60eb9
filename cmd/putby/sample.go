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
electricity tariff. Nothing that exists is overwritten. Its setting as_of names
the day at which it stands, as if that were today; --as-of names another.`

func newSampleCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "sample DIR",
		Short:   "write a ledger to try things on",
		Long:    sampleLong,
		Example: "  putby sample try-it\n  putby cost --ledger try-it",
		Args:    arguments("DIR"),
		RunE:    func(cmd *cobra.Command, args []string) error { return runSample(cmd.Context(), a, args[0]) },
	}
}

func runSample(ctx context.Context, a *app, dir string) error {
	files, err := sampleFiles()
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

// sampleFiles returns the files of the sample by their names in a ledger.
func sampleFiles() (map[string][]byte, error) {
	sample, err := fs.Sub(testdata.Sample, "sample")
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
