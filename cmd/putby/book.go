package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/folder"
)

// joins is the check that every change must pass.
func joins(rec *ledger.Records) ledger.Faults {
	_, faults := ledger.Join(rec, ledger.Options{Bare: true})
	return faults
}

// withBook opens the ledger for changes, and closes it again. With --dry-run it is
// only looked at, which takes no lock.
func (a *app) withBook(ctx context.Context, o saving, do func(*folder.Book) error) (err error) {
	b, err := a.open(ctx, o)
	if err != nil {
		return err
	}
	defer func() {
		a.sayWarnings(b.Warnings())
		err = errors.Join(err, b.Close())
	}()
	return do(b)
}

func (a *app) open(ctx context.Context, o saving) (*folder.Book, error) {
	opening := a.opening()
	if o.dryRun {
		return opening.Look(a.ledgerDir())
	}
	opening.Wait, opening.For, opening.Waiting = time.Duration(o.wait), a.doing(), a.sayWaiting
	return opening.Open(ctx, a.ledgerDir())
}

// opening is how the ledger is opened, as far as it is the same for all commands.
func (a *app) opening() folder.Opening {
	a.check.Wording = commands{}
	return folder.Opening{Check: a.check.Faults, Judge: entry.Judge()}
}

// doing is what the command does, for others who wait for it.
func (a *app) doing() string {
	words := a.args
	if i := slices.IndexFunc(words, func(w string) bool { return strings.HasPrefix(w, "-") }); i >= 0 {
		words = words[:i]
	}
	return commandLine(words[:min(len(words), 3)])
}

// sayWaiting says for whom a command waits.
func (a *app) sayWaiting(h folder.Holder) {
	fmt.Fprintln(a.stderr, printable(fmt.Sprintf("Waiting for %v. Ctrl-C breaks off.", h)))
}

// saving are the flags of every command that changes the ledger.
type saving struct {
	dryRun  bool
	verbose bool
	wait    patience
}

func (o *saving) add(cmd *cobra.Command) {
	o.wait = patience(folder.DefaultWait)
	f := cmd.Flags()
	f.BoolVar(&o.dryRun, "dry-run", false, "say what would be saved, and write nothing")
	f.BoolVar(&o.verbose, "verbose", false, "show the lines of the files too")
	f.Var(&o.wait, "wait", "`time` to wait while another putby changes the ledger; 0: not at all")
}

// A patience is a time to wait, as a flag.
type patience time.Duration

func (p *patience) String() string { return time.Duration(*p).String() }
func (p *patience) Type() string   { return "time" }

// Set reads it as it is written, such as 30s, 2m or 1h; a number alone is seconds.
func (p *patience) Set(text string) error {
	text = strings.ReplaceAll(strings.TrimSpace(text), "min", "m")
	if strings.Trim(text, "0123456789") == "" {
		text += "s"
	}
	d, err := time.ParseDuration(text)
	if err != nil || d < 0 || d > mostWait {
		return errors.New("write it as 10s, 2m or 0, at the most 24h")
	}
	*p = patience(d)
	return nil
}

// mostWait is longer than anybody waits.
const mostWait = 24 * time.Hour

// telling says what a change comes to, of the ledger as it is to be with it.
type telling func(*ledger.Ledger) []string

// edit makes one change and says what it comes to, or with --dry-run what it
// would be. Where that cannot be told, because the ledger has other faults, the
// lines of its files are shown.
func (a *app) edit(b *folder.Book, o saving, do func(*folder.Tx) error, tell telling) error {
	command := commandLine(a.args)
	var told []string
	a.check.Joined, a.check.Told = nil, func(g *ledger.Ledger) {
		if tell != nil {
			told = tell(g)
		}
	}
	defer func() { a.check.Told = nil }()
	if o.dryRun {
		c, err := b.Try(command, do)
		switch {
		case err == nil && len(c.Files) > 0:
			a.sayChange("Would save:", c, told, o.verbose)
		case err == nil:
			fmt.Fprintln(a.stdout, "Nothing would change.")
		}
		return err
	}
	c, err := a.saveChange(func() (folder.Change, error) { return b.Edit(command, do) })
	switch {
	case c.Number > 0:
		a.sayChange(fmt.Sprintf("Saved as change %d (putby undo takes it back):", c.Number), c, told, o.verbose)
	case err == nil:
		fmt.Fprintln(a.stdout, "Nothing changes.")
	}
	return err
}

// saveChange saves a change, which no interruption cuts short.
func (a *app) saveChange(save func() (folder.Change, error)) (c folder.Change, err error) {
	err = a.saves.do(func() (done counted, err error) {
		c, err = save()
		return countedChange(c), err
	})
	return c, err
}

// sayChange says what a change comes to, and shows it line by line where that is
// asked for or nothing else is known.
func (a *app) sayChange(head string, c folder.Change, told []string, lines bool) {
	fmt.Fprintln(a.stdout, head)
	for _, line := range render.Columns(told, a.width-2) {
		fmt.Fprintln(a.stdout, a.wrapped("  "+printable(line)))
	}
	if len(told) > 0 && !lines {
		return
	}
	for _, f := range c.Files {
		removed, added := f.Lines()
		fmt.Fprintln(a.stdout, "  "+f.Name)
		sayMarked(a.stdout, "  - ", removed)
		sayMarked(a.stdout, "  + ", added)
	}
}

// wrapped breaks a sentence at the terminal's width, what goes on beneath its
// beginning and a little to the right.
func (a *app) wrapped(line string) string {
	if a.width <= 0 {
		return line
	}
	text := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(text)]
	return strings.Join(render.Fill(strings.Split(text, " "), indent, indent+"  ", "", a.width), "\n")
}

// mostLines is how many lines of a change a person is shown of each file.
const mostLines = 40

// sayMarked says the first of a file's lines that were taken out or put in, each behind its mark.
func sayMarked(w io.Writer, mark string, lines []string) {
	for i, line := range lines {
		if i == mostLines {
			fmt.Fprintf(w, "%s... and %d more\n", mark, len(lines)-i)
			return
		}
		fmt.Fprintln(w, mark+printable(line))
	}
}

// commandLine writes arguments as they could be typed again.
func commandLine(args []string) string {
	words := make([]string, len(args))
	for i, arg := range args {
		if words[i] = arg; arg == "" || strings.ContainsAny(arg, shellMarks) {
			words[i] = singleQuoted(arg)
		}
	}
	return strings.Join(words, " ")
}

// sayWarnings says what is to be known about the ledger's folder.
func (a *app) sayWarnings(list []folder.Warning) {
	for _, w := range list {
		fmt.Fprintln(a.stderr, printable("Note: "+w.What+"."))
		sayHint(a.stderr, advice.After(commands{}, w.Hint, w.Do))
	}
}
