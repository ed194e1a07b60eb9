package report

import (
	"fmt"
	"strings"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// due says what is to be used within some days.
func (h *onHand) due(a *figures.OnHandAnswer, days int) string {
	var parts []string
	if a.Containers > 0 {
		parts = append(parts, h.counted(a.Containers, "container")+" in "+h.counted(len(h.Packs), "pack"))
	}
	if n := len(h.Fresh); n > 0 {
		parts = append(parts, h.counted(n, "fresh food"))
	}
	if parts == nil {
		return fmt.Sprintf("Nothing is to be used within %d days.", days)
	}
	return "To use within " + h.counted(days, "day") + ": " + Listed(parts) + "."
}

// answer says in a sentence what there is, or what of it is to be used by a day.
func (h *onHand) answer() string {
	a := h.Answer(h.g)
	if days, ok := h.q.Due.Get(); ok {
		return h.due(&a, days)
	}
	var parts []string
	if a.Containers > 0 {
		words := h.counted(a.Containers, "container") + " of " + h.counted(a.Foods, "food") + " in store, at a cost of " + h.money(a.Cost.Ratio())
		if shelf, ok := a.Shelf.Get(); ok {
			words += ", " + h.figure(shelf) + " on the shelf"
		}
		if a.Past > 0 {
			words += ", " + h.counted(a.Past, "pack") + " past best-by"
		}
		parts = append(parts, words)
	}
	if n := len(h.Fresh); n > 0 {
		first := &h.Fresh[0]
		words := h.counted(n, "fresh food") + " in hand"
		if first.Soonest.UseBy != exact.NoDate {
			words += ", " + h.title(first.Food) + " first, by " + h.day(first.Soonest.UseBy)
		}
		words += pastTheirDay(a.Turned, n)
		parts = append(parts, words)
	}
	if a.Running > 0 {
		parts = append(parts, h.counted(a.Running, "run")+" in the machine")
	}
	if a.Awaiting > 0 {
		parts = append(parts, h.counted(a.Awaiting, "run")+" to pack")
	}
	if parts == nil {
		return "Nothing is in store, in hand or to be packed."
	}
	return sentenceCase(strings.Join(parts, "; ")) + "."
}

// pastTheirDay says how many of so many fresh foods are past their own last day.
func pastTheirDay(past, of int) string {
	switch {
	case past == 0:
		return ""
	case of == 1:
		return " (past its day)"
	case past == of && of == 2:
		return " (both past their day)"
	case past == of:
		return " (all past their day)"
	}
	return fmt.Sprintf(" (%d past %s day)", past, verb(past, "its", "their"))
}
