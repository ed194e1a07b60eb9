package main

import (
	"errors"
	"fmt"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/pricing/exact"
)

// askAs asks for a cell in other words than the column's own.
func (f *form) askAs(column, what, offer, help string) error {
	c := f.kind.Column(column)
	q := cellQuestion(f.base, f.kind, f.cells, c)
	q.What, q.Offer = what, offer
	q.Help = strings.TrimPrefix(help+"\n"+q.Help, "\n")
	text, err := f.talk.Ask(q)
	if err == nil {
		f.cells[column] = text
	}
	return err
}

// setupArgs is the command by which a step is done again.
var setupArgs = []string{"setup"}

// setupMachine asks for the machine, its price and its watts.
func setupMachine(t *ask.Talk, b *entry.Base) (*draft, error) {
	if err := now(t, "describe it now", "yes"); err != nil {
		return nil, err
	}
	in, err := askMachine(newForm(t, b, ledger.MustKind("machine"), nil))
	if err != nil {
		return nil, err
	}
	made, err := entry.AddMachine(b, in)
	if err != nil {
		return nil, err
	}
	return &draft{Draft: *made, args: setupArgs, look: b.Foretell(made)}, nil
}

// askMachine asks for what is worth knowing of a machine.
func askMachine(f *form) (in entry.MachineIn, err error) {
	in.Cells = f.cells
	if err := f.askAs("name", "what you call it", "Freeze-dryer", ""); err != nil {
		return in, err
	}
	f.cells["machine"] = entry.Slug(f.cells["name"])
	if err := f.askAs("trays", "how many trays", "", ""); err != nil {
		return in, err
	}
	if err := askLoad(f); err != nil {
		return in, err
	}
	if err := f.askAs("cycles", "how many cycles it is likely to last", "", "Its price is spread over them. Five a month for fifteen years are 900."); err != nil {
		return in, err
	}
	if err := f.askAs("residual", "what it will still fetch then", "0", "What is left of its price at its end."); err != nil {
		return in, err
	}
	if in.Paid, err = askReceipt(f, "price", "paid", "what was paid for it, with delivery and tax (- unknown)", ""); err != nil {
		return in, err
	}
	if in.Paid != "" {
		if in.On, err = askReceipt(f, "date", "bought", "bought on", f.base.At.Today.String()); err != nil {
			return in, err
		}
	}
	in.Watts, err = f.talk.Ask(wattsQuestion(f.cells["machine"]))
	return in, err
}

// askReceipt asks for a cell of a receipt of what is recorded, under a key of its own.
func askReceipt(f *form, column, key, what, offer string) (string, error) {
	k := ledger.MustKind("receipt")
	q := cellQuestion(f.base, k, nil, k.Column(column))
	q.Key, q.What, q.Offer = key, what, offer
	return f.talk.Ask(q)
}

// askLoad asks how much goes in at once, by weight or by volume.
func askLoad(f *form) error {
	_, err := f.talk.Ask(ask.Question{
		Key: "load", What: "most that goes in at once (such as 7 kg, 15 lb or 7 L; - unknown)",
		Help: "As its maker says, of wet food. Loads that are more are remarked on.",
		Check: func(answer string) (string, error) {
			delete(f.cells, "load_mass")
			delete(f.cells, "load_volume")
			text, column := entry.Amount(answer), "load_mass"
			if q, err := exact.ParseQuantity(text); err == nil && q.Unit().Dimension() == exact.Volume {
				column = "load_volume"
			}
			text, err := f.base.Answer(f.kind, f.cells, f.kind.Column(column), text)
			if err == nil {
				f.cells[column] = text
			}
			return text, err
		},
	})
	return err
}

func wattsQuestion(machine string) ask.Question {
	return ask.Question{
		Key: "watts", What: "usual watts by phase (- where a plug meter tells each run's kWh)",
		Help: "Such as freezing 450, evacuation 800, primary 700, secondary 600. They stand in where\na run has no kWh of its own. A plug meter's reading, given with each run, is better.",
		Check: func(answer string) (string, error) {
			_, err := entry.ParseWatts(machine, answer)
			return answer, err
		},
	}
}

// setupTariff asks for what a kWh costs.
func setupTariff(t *ask.Talk, b *entry.Base) (*draft, error) {
	if err := now(t, "say it now", "yes"); err != nil {
		return nil, err
	}
	words, err := t.Ask(tariffQuestion(b, entry.TariffIn{}))
	if err != nil {
		return nil, err
	}
	made, err := entry.AddTariff(b, entry.TariffIn{Words: words})
	if err != nil {
		return nil, err
	}
	made.Next = nil
	return &draft{Draft: *made, args: setupArgs, look: entry.TariffSays(words)}, nil
}

// setupSupplies asks for what is in the house, a line each.
func setupSupplies(t *ask.Talk, b *entry.Base) (*draft, error) {
	if err := now(t, "count them now", "yes"); err != nil {
		return nil, err
	}
	t.Tell("%s", "A line: how many, what, how large, and what was paid for all of them, such as\n\"24 jars 1 L 38.40\", \"100 absorbers 300 cc 18.00\" or \"60 lids 9\". An empty line ends.")
	var list []entry.OwnedIn
	rec := b.Records
	for n := 1; ; n++ {
		in, text, err := askOwned(t, b.With(rec), n)
		if err != nil {
			return nil, err
		}
		if text == "" {
			break
		}
		if text == "-" {
			continue
		}
		list = append(list, in)
		rec, _ = rec.With(ledger.MustKind("supply"), map[string]string{"supply": in.ID, "kind": in.Kind})
	}
	if list == nil {
		return nil, errLater
	}
	made, err := entry.AddOwned(b, list)
	if err != nil {
		return nil, err
	}
	return &draft{Draft: *made, args: setupArgs, look: b.Foretell(made)}, nil
}

// askOwned asks for the nth supply in the house. The text is what was typed: ""
// ends, "-" takes the line out.
func askOwned(t *ask.Talk, b *entry.Base, n int) (in entry.OwnedIn, text string, err error) {
	key := fmt.Sprintf("house %d", n)
	text, err = t.Ask(ask.Question{
		Key: key, What: fmt.Sprintf("in the house %d", n), Help: entry.OwnedGrammar, Dash: true,
		Check: func(answer string) (string, error) {
			if answer == "-" || answer == "" {
				return answer, nil
			}
			_, err := entry.ParseOwned(b.Records, answer)
			return answer, err
		},
	})
	if err != nil || text == "" || text == "-" {
		return in, text, err
	}
	if in.Owned, err = entry.ParseOwned(b.Records, text); err != nil {
		return in, text, err
	}
	if usual := entry.UsualUses(in.Kind); usual != "" {
		k := ledger.MustKind("supply")
		q := cellQuestion(b, k, nil, k.Column("uses"))
		q.Key, q.What, q.Offer = key+"/uses", "  how often one serves", usual
		if in.Uses, err = t.Ask(q); err == nil {
			t.Settle(key, text)
		}
	}
	return in, text, err
}

// setupFood asks for a food, by what it is called in the kitchen.
func setupFood(first bool) making {
	return func(t *ask.Talk, b *entry.Base) (*draft, error) {
		what, offer := "add one now", "yes"
		if !first {
			what, offer = "another food", "later"
		}
		if err := now(t, what, offer); err != nil {
			return nil, err
		}
		f := newForm(t, b, ledger.MustKind("food"), nil)
		name, err := t.Ask(ask.Question{
			Key: "kitchen name", What: "a food that you dry, such as strawberries",
			Check: func(answer string) (string, error) {
				if answer == "" {
					return "", errors.New("name one, or go back and say later")
				}
				_, err := b.Answer(f.kind, nil, f.kind.Column("food"), entry.Slug(answer))
				return answer, err
			},
		})
		if err != nil {
			return nil, err
		}
		f.cells["food"] = entry.Slug(name)
		return (&foodOptions{}).fill(f)
	}
}
