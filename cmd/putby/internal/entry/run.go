package entry

import (
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// ParseLoad reads what went into a run, such as "5.5 kg apples from r12:3 wet
// 5.5 kg dry 880 g lost 0.2 kg", into a row of loads.csv.
func ParseLoad(rec *ledger.Records, run, text string) (Row, error) {
	k := ledger.MustKind("load")
	words := strings.Fields(Native(rec.Settings.Locale, text))
	cells := map[string]string{"run": run}
	rest, amount := takeAmount(words)
	if amount == "" || len(rest) == 0 {
		return Row{}, typed(text, "write an amount and a food, such as 5.5 kg apples")
	}
	n := 1
	// The name reaches up to the first word that begins a part, and has at least one word.
	for n < len(rest) && !slices.Contains(loadWords, rest[n]) {
		n++
	}
	cells["quantity"], cells["item"] = amount, Meant(rec, k.Column("item"), strings.Join(rest[:n], " "))
	if n > 1 && cells["item"] == strings.Join(rest[:n], " ") { // no name in several words
		n, cells["item"] = 1, Meant(rec, k.Column("item"), rest[0])
	}
	rest = rest[n:]
	for len(rest) > 0 {
		word := rest[0]
		rest = rest[1:]
		switch word {
		case "from", "trays":
			if len(rest) == 0 {
				return Row{}, typed(text, "nothing stands after "+word)
			}
			if word == "trays" {
				cells["trays"] = rest[0]
			} else {
				cells["receipt"], cells["line"], _ = strings.Cut(rest[0], ":")
			}
			rest = rest[1:]
		case "wet", "dry", "lost":
			if rest, cells[word] = takeAmount(rest); cells[word] == "" {
				return Row{}, typed(text, "an amount must stand after "+word)
			}
		default:
			return Row{}, typed(text, quote(word)+" is not from, trays, wet, dry or lost")
		}
	}
	return Row{k, cells}, nil
}

// loadWords are what may stand behind the food of a load.
var loadWords = []string{"from", "trays", "wet", "dry", "lost"}

// takeAmount reads "5.5 kg", "5.5kg" or a bare number off the front.
func takeAmount(words []string) (rest []string, amount string) {
	for n := min(2, len(words)); n > 0; n-- {
		text := Amount(strings.Join(words[:n], " "))
		if _, err := exact.ParseQuantity(text); err == nil {
			return words[n:], text
		}
	}
	if len(words) > 0 {
		if _, err := exact.ParseNumber(words[0]); err == nil {
			return words[1:], words[0]
		}
	}
	return words, ""
}

// ParsePhase reads a phase, such as "primary 22h30m 640 W 9.1 kWh", into a row
// of phases.csv.
func ParsePhase(rec *ledger.Records, run string, step int, text string) (Row, error) {
	k := ledger.MustKind("phase")
	words := strings.Fields(Native(rec.Settings.Locale, text))
	if len(words) < 2 {
		return Row{}, typed(text, "write a phase and how long it took, such as freezing 8h")
	}
	length, rest := takeLength(words[1:])
	cells := map[string]string{"run": run, "step": strconv.Itoa(step), "phase": words[0], "duration": length}
	for len(rest) > 0 {
		var amount string
		if rest, amount = takeAmount(rest); amount == "" {
			return Row{}, typed(text, quote(rest[0])+" is neither watts nor kWh: write 640 W or 9.1 kWh")
		}
		q, err := exact.ParseQuantity(amount)
		switch {
		case err == nil && q.Unit().Dimension() == exact.Power:
			cells["watts"] = q.Base().Number().String()
		case err == nil && q.Unit().Dimension() == exact.Energy:
			cells["kwh"] = q.Base().Number().String()
		default:
			return Row{}, typed(text, amount+" is neither watts nor kWh: write 640 W or 9.1 kWh")
		}
	}
	return Row{k, cells}, nil
}

// takeLength reads a length of time off the front, such as 22h30m or 22 hours 30
// minutes; what is none is the first word.
func takeLength(words []string) (length string, rest []string) {
	for n := min(4, len(words)); n > 1; n-- {
		text := Length(strings.Join(words[:n], " "))
		if _, err := exact.ParseDuration(text); err == nil {
			return text, words[n:]
		}
	}
	return Length(words[0]), words[1:]
}

// thingsIn lists what draws and loads are of: packs, foods and supplies.
func thingsIn(rows []Row) []string {
	var names []string
	for _, row := range rows {
		names = append(names, row.Cells["pack"]+row.Cells["item"]) // one of them is blank
	}
	return names
}
