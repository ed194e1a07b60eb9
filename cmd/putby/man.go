package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/manual"
	"putby/ledger/folder"
)

const manLong = `Write the manual as man pages into DIR, which is made if it is not there, one for
each command, putby.1, putby-cost.1 ..., and one for each topic of putby help,
putby-files.7 ... Read one with man -l DIR/putby.1; in /usr/local/share/man/man1
and man7 man finds them by name.

A page that is there already and differs is left alone, and the command says so,
unless --force is given.`

func newManCommand(a *app) *cobra.Command {
	force := false
	cmd := &cobra.Command{
		Use: "man DIR", Short: "write the manual as man pages", Long: manLong,
		Example: "  putby man pages\n  putby man pages --force",
		Args:    arguments("DIR"),
		RunE:    func(cmd *cobra.Command, args []string) error { return runMan(a, cmd.Root(), args[0], force) },
	}
	cmd.Flags().BoolVar(&force, "force", false, "write over pages that are there")
	return cmd
}

func runMan(a *app, root *cobra.Command, dir string, force bool) error {
	pages := map[string]string{}
	everyCommand(root, func(cmd *cobra.Command) {
		page := pageOf(cmd)
		pages[filepath.Join(dir, page.FileName())] = manual.Roff(page, "putby "+version())
	})
	for _, name := range manual.Topics() {
		topic, _ := manual.Topic(name)
		pages[filepath.Join(dir, topic.FileName())] = manual.Roff(topic, "putby "+version())
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	if !force {
		for _, name := range slices.Sorted(maps.Keys(pages)) {
			if have, err := os.ReadFile(name); !errors.Is(err, fs.ErrNotExist) && string(have) != pages[name] {
				return fmt.Errorf("%s is there already and differs: nothing was written (--force writes over it)", name)
			}
		}
	}
	for name, text := range pages {
		write := func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
		if err := folder.WriteOutside(name, true, write); err != nil {
			return err
		}
	}
	fmt.Fprintf(a.stdout, "%d pages are in %s.\n", len(pages), printable(dir))
	return nil
}
