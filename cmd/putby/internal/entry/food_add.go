package entry

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/nutrients"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A FoodIn is a new food, as a person types it.
type FoodIn struct {
	Cells map[string]string // of foods.csv; a caution that is there and blank is declined
	Table string            // the food's number in the open table; "": it is not of the table
}

// AddFood records a food. What the open table knows of it goes behind what was
// typed; so does the caution that the table's groups propose, unless one was typed
// or declined. A food without an identifier is named by its name.
func AddFood(b *Base, in FoodIn) (*Draft, error) {
	k := ledger.MustKind("food")
	cells := map[string]string{}
	for column, text := range in.Cells {
		if text = strings.TrimSpace(text); text != "" || column == "caution" {
			cells[column] = text
		}
	}
	var told []string
	if in.Table != "" {
		food, ok := nutrients.Get(in.Table)
		if !ok {
			return nil, wrong("table", 0, notThere("the open table has no food "+quote(in.Table), "search it by words, such as strawberr"))
		}
		told = FromTable(food, cells)
	}
	NameFood(b.Records, cells)
	d, err := Add(b, k, cells)
	if err != nil {
		return nil, err
	}
	d.Notes = append(told, d.Notes...)
	return d, nil
}

// NameFood makes the identifier of a food that has none of what it is called.
func NameFood(rec *ledger.Records, cells map[string]string) {
	if id := freeSlug(cells["name"], ledger.Foods.In(rec)); cells["food"] == "" && id != "" {
		cells["food"] = id
	}
}

// NameOfFood is what a food is called that a cook types as an identifier: chicken-broth
// is Chicken broth.
func NameOfFood(id string) string {
	words := strings.NewReplacer("-", " ", "_", " ").Replace(id)
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:]
}

// FromTable fills in what the open table knows of a food and nobody has said, and
// tells what that is. A caution is proposed where none was said, or declined by a
// blank one. The name is what the cook calls it, where that is known by its identifier.
func FromTable(food nutrients.Food, cells map[string]string) (told []string) {
	told = []string{fmt.Sprintf("From the table: %s (%s). Source: %s.", report.TableName(food), food.NDB, nutrients.Source)}
	if cells["name"] == "" && cells["food"] != "" {
		cells["name"] = NameOfFood(cells["food"])
	}
	for column, text := range report.TableCells(food, cells["basis"]) {
		if _, said := cells[column]; !said {
			cells[column] = text
		}
	}
	if caution, declined := cells["caution"]; caution == "" && !declined {
		if caution = report.TableCaution(food); caution != "" {
			cells["caution"] = caution
			told = append(told, "Proposed caution: "+caution)
		}
	}
	return told
}

// newNotes says of a food or a supply about to be added what a household has to know
// of it: that a food turns, and which receipts have it as spending alone.
func newNotes(rec *ledger.Records, row Row) []string {
	more, faults := rec.With(row.Kind, row.Cells)
	if len(faults) > 0 {
		return nil // the saving says what is wrong
	}
	var notes []string
	alone := &ledger.Records{Settings: rec.Settings}
	switch row.Kind.Name {
	case "food":
		alone.Foods = more.Foods[len(more.Foods)-1:]
		if words := report.FatCaution(&alone.Foods[0], rec.Settings.Show()); words != "" {
			notes = append(notes, words)
		}
	case "supply":
		alone.Supplies = more.Supplies[len(more.Supplies)-1:]
	}
	return append(notes, spentNotes(rec, NewItemNames(alone, nil), row)...)
}

// spentNotes names the lines of receipts that hold a new thing as spending alone, since
// the ledger had no such thing when they were saved. Things know it alone.
func spentNotes(rec *ledger.Records, things *ItemNames, row Row) []string {
	var notes []string
	kind, _ := ParseKind(row.Kind.Name)
	id := row.Cells[row.Kind.Key[0]]
	for _, r := range rec.Receipts.All() {
		if r.Kind != ledger.OtherLine {
			continue
		}
		// The line's free text is read anew, now that its thing has a name.
		l, err := things.ParseLine(kind, r.Item+" "+r.Price.String())
		if err != nil || l.Item != id {
			continue
		}
		puts := advice.Do(advice.Edit, "receipt", r.Receipt+":"+r.Number).With("kind", row.Kind.Name)
		if r.Item != id {
			puts = puts.With("item", id)
		}
		if l.Count != "" { // it stood before the name
			puts = puts.With("count", l.Count).With("price", l.each(things.minor))
		}
		switch {
		case l.Size != "":
			puts = puts.With("size", l.Size)
		case r.Size == (exact.Quantity{}) && kind == ledger.FoodLine:
			puts = puts.Such("size", "1 kg") // an example, since nobody said
		}
		notes = append(notes, fmt.Sprintf("Receipt %s of %s has %s as spending alone: %s puts it in store.",
			r.Receipt, rec.Settings.Show().Date(r.Date), r.Item, rec.Settings.Say(puts)))
	}
	return notes
}

// freeSlug makes an identifier of a name, with a number where it is taken; "" of
// no name.
func freeSlug(name string, taken []string) string {
	id := Slug(name)
	if id == "" {
		return ""
	}
	return free(id, taken)
}
