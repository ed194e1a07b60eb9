package entry

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// OwnedGrammar says how a supply that is in the house is written.
const OwnedGrammar = `How many, what, how large one is, and what was paid for all of them:

  24 jars 1 L 38.40
  100 absorbers 300 cc 18.00
  60 lids 9

What: jars, bags, lids, absorbers, labels, oil, filters. The size is what a jar or
bag holds, or how much oxygen an absorber takes up. Paid in all: 0 where it was
nothing, or too long ago to count.`

// An Owned is a supply that a household has before its books begin.
type Owned struct {
	ID, Kind, Capacity string
	Count              exact.Number // pieces: whole, above 0
	Paid               string       // for all of them; "": not said
}

// ParseOwned reads a supply that is in the house.
func ParseOwned(rec *ledger.Records, text string) (Owned, error) {
	marks := moneyMarks(&rec.Settings)
	words := strings.Fields(aComma().ReplaceAllString(strings.ToLower(Native(rec.Settings.Locale, text)), " "))
	words = slices.DeleteFunc(words, func(w string) bool {
		return slices.ContainsFunc(marks, func(m string) bool { return strings.EqualFold(m, w) }) || slices.Contains(betweenWords, w)
	})
	if len(words) < 2 {
		return Owned{}, typed(text, "write how many and what, such as 24 jars 1 L 38.40")
	}
	n, err := exact.ParseNumber(words[0])
	if err != nil || !n.IsInt() || n.Sign() <= 0 {
		return Owned{}, typed(text, quote(words[0])+" is not how many: begin with a number, such as 24 jars")
	}
	kinds := ledger.MustKind("supply").Column("kind").Words
	rest := words[1:]
	at := slices.IndexFunc(rest, func(w string) bool { return slices.Contains(kinds, singularKind(w, kinds)) })
	if at < 0 {
		return Owned{}, typed(text, "it does not say what: write one of "+strings.Join(kinds, ", "))
	}
	h := Owned{Kind: singularKind(rest[at], kinds), Count: n}
	rest = slices.Delete(slices.Clone(rest), at, at+1)
	if rest, h.Capacity = takeMeasure(rest); len(rest) > 1 {
		return Owned{}, typed(text, quote(strings.Join(rest, " "))+" is neither a size nor what was paid")
	}
	if len(rest) == 1 {
		h.Paid = sum(withoutMark(rest[0], marks))
		if f := ledger.MustKind("receipt").CellFault(rec.Settings.Zone, "price", h.Paid); f != nil {
			return Owned{}, typed(text, f.What)
		}
	}
	h.ID = freeSupply(rec, h)
	return h, h.check(text)
}

// betweenWords may stand in what is written, and say nothing.
var betweenWords = []string{"of", "for", "at", "with", "each", "x", "oxygen", "and", "paid", "in", "all", "glass", "foil", "changes", "change"}

// singularKind is the kind of supply that a word names, or the word itself.
func singularKind(word string, kinds []string) string {
	for _, kind := range kinds {
		if word == kind || word == kind+"s" {
			return kind
		}
	}
	return word
}

// takeMeasure takes the amount with a unit out of words.
func takeMeasure(words []string) (rest []string, amount string) {
	for at := range words {
		for n := min(2, len(words)-at); n > 0; n-- {
			text := Amount(strings.Join(words[at:at+n], " "))
			if q, err := exact.ParseQuantity(text); err == nil && q.Unit() != exact.Ea {
				return slices.Delete(slices.Clone(words), at, at+n), text
			}
		}
	}
	return words, ""
}

func (h Owned) check(text string) error {
	if h.Capacity == "" && (h.Kind == "jar" || h.Kind == "bag" || h.Kind == "absorber") {
		return typed(text, fmt.Sprintf("it does not say how large one is: write 1 L for a %s that holds it, 300 cc for an absorber", strings.Replace(h.Kind, "absorber", "jar", 1)))
	}
	if h.Capacity == "" {
		return nil
	}
	if q, err := exact.ParseQuantity(h.Capacity); err != nil || q.Unit().Dimension() != exact.Volume || q.Sign() <= 0 {
		return typed(text, quote(h.Capacity)+" is no volume: write what it holds, such as 1 L, or the cc of oxygen")
	}
	return nil
}

// freeSupply names a supply by its kind and size, such as jar-1l.
func freeSupply(rec *ledger.Records, h Owned) string {
	id := h.Kind
	if h.Capacity != "" {
		id += "-" + Slug(strings.ReplaceAll(strings.TrimSuffix(h.Capacity, " cc"), " ", ""))
	}
	return free(id, append(ledger.Supplies.In(rec), ledger.Foods.In(rec)...))
}

// UsualUses is how often one of a kind serves, in common practice (from memory):
// to be asked, never taken.
func UsualUses(kind string) string {
	return map[string]string{"jar": "20", "lid": "8", "oil": "25", "filter": "40"}[kind]
}

// OwnedIn are supplies that are in the house, each with how often one serves.
type OwnedIn struct {
	Owned
	Uses string
}

// AddOwned makes supplies known, and records them as bought before the books
// begin.
func AddOwned(b *Base, list []OwnedIn) (*Draft, error) {
	if len(list) == 0 {
		return nil, errors.New("nothing was named")
	}
	d := &Draft{}
	var lines []Row
	for _, h := range list {
		d.Rows = append(d.Rows, Row{ledger.MustKind("supply"), map[string]string{
			"supply": h.ID, "name": h.name(), "kind": h.Kind, "uses": h.Uses, "capacity": h.Capacity,
		}})
		lines = append(lines, b.before("supply", h.ID, h.Count.String()+" ea", cmp.Or(h.Paid, "0"), b.At.Today, len(lines)))
	}
	d.Rows = append(d.Rows, lines...)
	b.usedUp(d, list)
	return d, nil
}

// usedUp has every run of the only machine use the oil and filters that are in the
// house: what serves so many cycles would cost nothing, where no machine names it. Runs
// of before had some that is gone, which nobody knows.
func (b *Base) usedUp(d *Draft, list []OwnedIn) {
	if len(b.Records.Machines) != 1 || len(b.Records.Runs) > 0 {
		return
	}
	m := &b.Records.Machines[0]
	with := slices.Clone(m.With)
	for _, h := range list {
		if h.Kind != "oil" && h.Kind != "filter" || slices.ContainsFunc(with, func(u ledger.Use) bool { return b.kindOf(u.Supply, list) == h.Kind }) {
			continue
		}
		with = append(with, ledger.Use{Supply: h.ID, Number: exact.Int(1)})
		for _, row := range d.Rows { // for a run of before the house was counted
			if row.Cells["supply"] == h.ID {
				row.Cells["price"] = number(cmp.Or(h.Paid, "0")).Over(h.Count).Round(4, exact.HalfEven).String()
			}
		}
	}
	if len(with) > len(m.With) {
		text := usesText(with)
		d.Sets = append(d.Sets, Set{Kind: ledger.MustKind("machine"), ID: m.ID, Cells: map[string]string{"with": text}})
		d.Notes = append(d.Notes, fmt.Sprintf("Each run of %s uses %s. Where it is another number, change it: %s", cmp.Or(m.Name, m.ID), text, b.Records.Settings.Say(advice.Do(advice.Edit, "machine", m.ID).With("with", text))))
	}
}

// kindOf is the kind of a supply of the ledger, or of those in the house.
func (b *Base) kindOf(id string, list []OwnedIn) string {
	for i := range b.Records.Supplies {
		if s := &b.Records.Supplies[i]; s.ID == id {
			return s.Kind.String()
		}
	}
	for _, h := range list {
		if h.ID == id {
			return h.Kind
		}
	}
	return ""
}

// name is what people see of it, such as "1 L jar".
func (h Owned) name() string {
	switch {
	case h.Kind == "absorber":
		return "Oxygen absorber " + h.Capacity
	case h.Capacity != "":
		return h.Capacity + " " + h.Kind
	}
	return strings.ToUpper(h.Kind[:1]) + h.Kind[1:]
}

// beforeShop is the shop of receipts of what there was before the books began.
const beforeShop = "before these books"

// before is a line of the receipt of what there was before the books began.
func (b *Base) before(kind, item, size, price string, day exact.Date, n int) Row {
	return Row{ledger.MustKind("receipt"), map[string]string{
		"receipt": NextReceipt(b.Records, beforeShop, day), "date": day.String(), "shop": beforeShop, "line": strconv.Itoa(n + 1),
		"kind": kind, "item": item, "count": "1", "size": size, "price": price,
	}}
}
