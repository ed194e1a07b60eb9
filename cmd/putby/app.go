package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync/atomic"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/render"
	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/locale"
)

// app is what all commands share.
type app struct {
	environment
	args []string // the command line, for the list of changes
	dir  string   // --ledger

	machine bool // what is printed is for machines: nothing goes by the locale

	meant struct{ Ahead, Again bool } // --ahead and --again

	check entry.Check // of every change

	answers ask.Lines // where answers come from, once somebody was asked
	greeted bool      // somebody was told how to answer

	saves saves

	endsItself atomic.Bool // the command sees to it that an interruption ends it
}

// ledgerDir is the ledger's folder: the flag, else PUTBY_LEDGER, else here.
func (a *app) ledgerDir() string {
	if a.dir != "" {
		return a.dir
	}
	return cmp.Or(a.getenv("PUTBY_LEDGER"), ".")
}

// write has figures written as the household does, or plainly for machines, in
// sentences too, and what is advised as commands.
func (a *app) write(s *ledger.Settings) {
	s.Wording = commands{}
	if a.machine {
		s.Locale = locale.Plain
	}
}

// forMachines reports whether a command prints CSV or JSON.
func forMachines(cmd *cobra.Command) bool {
	f := cmd.Flags().Lookup("format")
	if f == nil {
		return false
	}
	format, err := render.ParseFormat(f.Value.String())
	return err == nil && (format == render.CSV || format == render.JSON)
}

// output are the flags of every command that prints a report.
type output struct {
	format string
	table  string
	chart  bool
	ascii  bool
	alone  bool // of a command without formats
}

func (o *output) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVarP(&o.format, "format", "f", "table", "`format`: table, csv, json, md or html")
	f.StringVar(&o.table, "table", "", "with csv: which `table` of the report")
	_ = cmd.RegisterFlagCompletionFunc("format", cobra.FixedCompletions(render.Formats(), cobra.ShellCompDirectiveNoFileComp))
}

// print writes a report in the format asked for.
func (a *app) print(d reports.Doc, o output) error { return a.printTo(a.stdout, d, o) }

func (a *app) printTo(w io.Writer, d reports.Doc, o output) error {
	format, err := render.ParseFormat(o.format)
	if err != nil {
		return misused("%v", err)
	}
	err = render.Render(w, d, format, a.rendering(o))
	if errors.Is(err, render.ErrSection) {
		return misused("%v", err)
	}
	return err
}

func (a *app) rendering(o output) render.Options {
	return render.Options{Width: a.width, Colour: a.colour(), Chart: o.chart, ASCII: o.ascii, Alone: o.alone, Section: o.table}
}

// arguments asks for exactly the arguments named.
func arguments(names ...string) cobra.PositionalArgs {
	return between(len(names), len(names), cmp.Or(strings.Join(names, " "), "nothing"))
}

// between asks for so many arguments.
func between(low, high int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if low <= len(args) && len(args) <= high {
			return nil
		}
		return mistyped(
			fmt.Sprintf("%s takes %s, and was given %s", subcommand(cmd), what, cmp.Or(strings.Join(args, " "), "nothing")),
			instead(cmd, high, args))
	}
}

// instead is what to type where a command was not given what it takes: a food as the
// flag by which the command takes one, or in one word; of other records what lists
// them; else the command's first example.
func instead(cmd *cobra.Command, high int, args []string) string {
	_, takes, _ := strings.Cut(cmd.Use, " ")
	kind := strings.ToLower(strings.FieldsFunc(takes+" nothing", func(r rune) bool { return strings.ContainsRune("[] |", r) })[0])
	path := strings.Fields(cmd.CommandPath())
	switch all := strings.Join(args, " "); {
	case high == 0 && len(args) > 0 && cmd.Flags().Lookup("item") != nil:
		return commandLine(append(path, "--item", all))
	case kind == "food" && len(args) > high:
		return commandLine(append(path, all))
	case kind == "name":
		kind = cmd.Parent().Name()
	}
	if k, ok := ledger.KindOf(kind); ok {
		return "putby " + k.Name + " list, which shows what there is; how to name it: " + cmd.CommandPath() + " --help"
	}
	_, example, _ := strings.Cut(strings.ReplaceAll("\n"+cmd.Example, "\\\n", ""), "\n  "+cmd.CommandPath())
	example, _, _ = strings.Cut(example, "\n")
	return strings.Join(append(path, strings.Fields(example)...), " ")
}

// subcommand is a command's path without the program, which errors begin with.
func subcommand(cmd *cobra.Command) string {
	return strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
}
