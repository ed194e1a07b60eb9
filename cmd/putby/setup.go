package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
)

const setupLong = `Be asked, once, for all that a first cost needs: the currency, zone and units; the
freeze-dryer with its life, price and watts; what a kWh costs, in words; the jars,
bags and absorbers in the house; and the first foods, from the open table.

Each step is saved by itself, and can be left for later: the same command goes on
with what is lacking. DIR is made if it is not there; without it, it is the ledger
of --ledger or PUTBY_LEDGER, or you are asked.

Scripts use putby init, machine add, tariff add, supply add, receipt add and food
add, which do the same by flags.`

func newSetupCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "setup [DIR]", Short: "from nothing to the first cost, in one conversation", Long: setupLong,
		Example: "  putby setup larder",
		Args:    between(0, 1, "DIR"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if !a.ask {
				return mistyped("setup is a conversation, and there is nobody here to answer",
					"putby init DIR, then putby machine add, tariff add, supply add, receipt add and food add, each with --help")
			}
			a.dir = cmp.Or(strings.Join(args, ""), a.dir)
			return runSetup(cmd.Context(), a)
		},
	}
}

// errLater leaves a step for another time.
var errLater = errors.New("left for later")

// runSetup goes through the steps that the ledger lacks.
func runSetup(ctx context.Context, a *app) error {
	err := a.setupLedger(ctx)
	if err != nil {
		return err
	}
	rec, err := a.soundRecords()
	if err != nil {
		return err
	}
	for _, step := range entry.SetupSteps(rec) {
		if step.Has != "" {
			a.tell("There already: %s (%s).", step.What, step.Has)
			continue
		}
		if err := a.setupStep(ctx, step); err != nil {
			if errors.Is(err, errNotAnswered) {
				a.tell("What was saved before stays. putby setup%s goes on from there.", a.ledgerWords())
				return a.saves.broken()
			}
			return err
		}
	}
	if rec, err = a.soundRecords(); err != nil {
		return err
	}
	fmt.Fprintln(a.stdout, "What comes next:")
	for _, line := range entry.AfterSetup(rec) {
		fmt.Fprintln(a.stdout, "  "+printable(line))
	}
	if a.dir != "" {
		fmt.Fprintln(a.stdout, printable("each with --ledger "+a.dir+", or in that folder"))
	}
	return nil
}

// ledgerWords names the ledger again, in a sentence.
func (a *app) ledgerWords() string {
	if a.dir == "" {
		return ""
	}
	return " " + commandLine([]string{a.dir})
}

// setupStep asks for one step and saves it; foods one by one.
func (a *app) setupStep(ctx context.Context, step entry.SetupStep) error {
	o := saving{wait: patience(folder.DefaultWait)}
	a.tell("\n%s", strings.ToUpper(step.What[:1])+step.What[1:])
	make := map[string]making{"machine": setupMachine, "tariff": setupTariff, "supplies": setupSupplies, "foods": setupFood(true)}[step.Name]
	for {
		a.saves.told()
		err := a.add(ctx, o, nil, make)
		if errors.Is(err, errLater) {
			return nil
		}
		if err != nil || step.Name != "foods" {
			return err
		}
		make = setupFood(false)
	}
}

// now asks whether a step is taken now. An empty answer is yes at first.
func now(t *ask.Talk, what, offer string) error {
	answer, err := t.Ask(ask.Question{Key: "now", What: what + " (yes or later)", Offer: offer, Names: nowWords, Check: ask.OneOf(nowWords...), Aside: true,
		Help: "later leaves it out for now; putby setup asks again."})
	if err == nil && answer != "yes" {
		err = errLater
	}
	return err
}

var nowWords = []string{"yes", "later", "no"}

// setupLedger begins a ledger where there is none.
func (a *app) setupLedger(ctx context.Context) error {
	_, _, err := folder.Read(a.ledgerDir())
	if !errors.Is(err, folder.ErrNotLedger) {
		return err
	}
	o, here := initOptions{}, entry.GuessLocality(a.getenv, zoneNames()...)
	dir := cmp.Or(a.dir, a.getenv("PUTBY_LEDGER"))
	err = a.hold(howToAnswer, func(t *ask.Talk) (err error) {
		if a.dir = dir; dir == "" {
			if a.dir, err = t.Ask(ask.Question{Key: "folder", What: "folder for the ledger", Offer: "larder", Check: newFolder, Free: true}); err != nil {
				return err
			}
		}
		said := initOptions{}
		if err := said.household(t, here, true); err != nil {
			return err
		}
		o = said
		shown := measures[0]
		if o.mass != "kg" {
			shown = measures[1]
		}
		if o.locale != "" {
			shown += ", " + o.locale
		}
		return t.Agree([]string{fmt.Sprintf("A ledger in %s: %s, %s, %s.", a.dir, o.currency, o.zone, shown)}, "save it")
	})
	if err != nil {
		return err
	}
	if err := a.create(ctx, a.dir, "setup", emptyLedger(&o)); err != nil {
		return err
	}
	fmt.Fprintf(a.stdout, "A ledger is in %s.\n", printable(a.dir))
	return nil
}

// newFolder reads the name of a folder in which a ledger can begin.
func newFolder(name string) (string, error) {
	if name == "" {
		return "", errors.New("it needs a name, such as larder; . is this folder")
	}
	if info, err := os.Stat(name); err == nil && !info.IsDir() {
		return "", fmt.Errorf("%s is a file: name a folder", name)
	}
	return name, nil
}

// zoneNames are the places where a machine keeps the name of its zone.
func zoneNames() []string {
	var names []string
	if text, err := os.ReadFile("/etc/timezone"); err == nil {
		names = append(names, string(text))
	}
	if path, err := os.Readlink("/etc/localtime"); err == nil {
		names = append(names, path)
	}
	return names
}
