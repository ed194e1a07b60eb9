package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/figures"
)

// howToSet is how a setting is set.
const howToSet = "putby edit setting NAME value=VALUE"

// errNoCommand: a command line names a command that there is not.
var errNoCommand = fmt.Errorf("there is no such command: %w", entry.ErrTyped)

// noCommand says that a command has no such command below it, and which was
// probably meant.
func noCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	hint := cmd.CommandPath() + " --help lists the commands"
	word := strings.TrimPrefix(cmd.CommandPath()+" "+args[0], "putby ")
	near, begun := ask.Begun(args[0], names)
	if !begun {
		near = ledger.Nearest(args[0], names)
	}
	switch {
	case word == "set" || word == "setting add" || word == "setting set":
		hint = howToSet
	case near != "":
		hint = cmd.CommandPath() + " " + near
	}
	return &ledger.Fault{Kind: errNoCommand, What: fmt.Sprintf("there is no command %q", word), Hint: hint}
}

// flagError says that a flag is wrong, and which was probably meant; or, where
// the command before it is mistyped, which command was.
func flagError(cmd *cobra.Command, err error) error {
	unknown := (*pflag.NotExistError)(nil)
	if err := cmd.ValidateArgs(cmd.Flags().Args()); errors.Is(err, errNoCommand) {
		return err
	}
	if !errors.As(err, &unknown) {
		return misused("%v", err)
	}
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	hint := cmd.CommandPath() + " --help lists the flags"
	if near := ledger.Nearest(unknown.GetSpecifiedName(), names); near != "" {
		hint = "--" + near
	}
	return mistyped(fmt.Sprintf("%s: there is no flag --%s", cmd.CommandPath(), unknown.GetSpecifiedName()), hint)
}

// unknownIn says of a name that records have none of how the command line is meant,
// with the name that was probably meant, or else the hint. Any other error is returned
// as it is.
func unknownIn(rec *ledger.Records, err error, line []string, hint string) error {
	var none *figures.UnknownError
	if !errors.As(err, &none) {
		return err
	}
	var names []string
	for _, of := range none.Of {
		names = append(names, of.In(rec)...)
	}
	if near := ledger.Nearest(none.Name, names); near != "" {
		hint = near
		if at := slices.Index(line, none.Name); at >= 0 {
			hint = commandLine(slices.Concat([]string{"putby"}, line[:at], []string{near}, line[at+1:]))
		}
	}
	return notFound(none.Error(), hint)
}
