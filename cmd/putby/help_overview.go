package main

import (
	"strings"

	"putby/cmd/putby/internal/manual"
)

// A want is what a person may want to do, and the commands that do it.
type want struct {
	id, what string
	commands [][2]string // a command and what it does in a few words
}

// wants are what most people come for. All else is one step away: putby --help.
var wants = []want{
	{"daily", "Each day", [][2]string{{"today", "what has to be done"}, {"start, finish", "a run as it happens"}, {"pack add, take", "jars filled, jars opened"}, {"receipt add", "what was bought"}}},
	{"sale", "Before the sale", [][2]string{{"worth", "is this sale worth buying in bulk"}, {"card", "up to which price each food pays"}, {"offers, when", "a food's prices; the cheapest start"}}},
	{"back", "Look back", [][2]string{{"cost, compare", "what a litre cost; which foods pay"}, {"month, payback", "spent and saved; is the machine paid for"}, {"onhand, explain", "what is in store; a figure taken apart"}}},
	{"setup", "Set up", [][2]string{{"sample, setup", "a ledger to try, a ledger of your own"}, {"food, tariff", "also supply, machine, price: add, list, show"}, {"import, serve", "other files; forms for a phone"}}},
	{"mend", "Mend", [][2]string{{"edit, remove", "change a record, take one away"}, {"undo, changes", "take a change back; all that was changed"}, {"prove", "what is wrong with the records"}}},
}

// overview is the help for whoever has asked nothing in particular: at most 24 lines
// of 80 columns.
func overview() string {
	var b strings.Builder
	for _, w := range wants {
		for i, c := range w.commands {
			head := ""
			if i == 0 {
				head = w.what
			}
			b.WriteString(padded(head, 17) + padded(c[0], 17) + c[1] + "\n")
		}
	}
	b.WriteString("\nAll commands: putby --help. One of them, with examples: putby COMMAND --help.\n" +
		"Topics, each by putby help TOPIC:\n" + strings.Join(manual.Topics(), ", ") + "\n" +
		"Putby counts money. It does not say that food is safe: follow the makers'\nmanuals and your food-safety authority.\n")
	return b.String()
}

func padded(s string, to int) string { return s + strings.Repeat(" ", max(to-len(s), 1)) }
