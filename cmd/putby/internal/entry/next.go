package entry

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Named is an identifier in use, with the day of what it names.
type Named struct {
	ID  string
	Day exact.Date // of a receipt, a batch, a pack or the start of a run
}

// Next returns a free identifier for something of a day, in the manner of the
// last one that has a manner: mb-251103 is followed by mb- and the day, c47 by
// c48, R-099 by R-100. Where there is none to follow it counts on from first
// and nought. Taken are identifiers that are not free besides those of list.
func Next(list []Named, day exact.Date, first string, taken ...string) string {
	taken = slices.Clip(taken)
	for _, n := range list {
		taken = append(taken, n.ID)
	}
	for _, last := range slices.Backward(list) {
		if before, layout, ok := dated(last); ok {
			return free(before+stamp(day, layout), taken)
		}
		if stem, digits := counted(last.ID); digits != "" {
			return countOn(stem, digits, taken)
		}
	}
	return countOn(first, "0", taken)
}

// layouts are the ways in which a day may stand in an identifier, the longest
// first, as package time has them.
var layouts = []string{"2006-01-02", "06-01-02", "20060102", usualLayout}

const usualLayout = "060102"

// stamp writes a day by one of the layouts. Of a ledger of years it is asked for
// each receipt.
func stamp(day exact.Date, layout string) string {
	text := day.String()
	if !strings.Contains(layout, "-") {
		text = text[:4] + text[5:7] + text[8:]
	}
	return text[len(text)-len(layout):]
}

// dated finds the day of a thing in its identifier, and what stands before it.
func dated(n Named) (before, layout string, ok bool) {
	if n.Day == exact.NoDate {
		return "", "", false
	}
	for _, layout := range layouts {
		if before, _, ok := strings.Cut(n.ID, stamp(n.Day, layout)); ok {
			return before, layout, true
		}
	}
	return datedBefore(n)
}

// datedBefore finds another day in the identifier of a thing, not two years from its
// own: that which it had before its date was put right.
func datedBefore(n Named) (before, layout string, ok bool) {
	for _, layout := range layouts {
		for i := range len(n.ID) - len(layout) + 1 {
			before, digits, after := n.ID[:i], n.ID[i:i+len(layout)], n.ID[i+len(layout):]
			if before != "" && isDigit(before[len(before)-1]) || after != "" && isDigit(after[0]) {
				continue // it is part of a longer number
			}
			if at, err := time.Parse(layout, digits); err == nil {
				day := exact.DateIn(at)
				if n.Day.AddMonths(-24) < day && day < n.Day.AddMonths(24) {
					return before, layout, true
				}
			}
		}
	}
	return "", "", false
}

// counted splits an identifier that ends in a number.
func counted(id string) (stem, digits string) {
	stem = strings.TrimRight(id, "0123456789")
	if digits = id[len(stem):]; len(digits) > 15 {
		return id, ""
	}
	return stem, digits
}

// countOn returns the first free identifier after stem and digits, as wide.
func countOn(stem, digits string, taken []string) string {
	used := map[string]bool{}
	for _, id := range taken {
		if strings.HasPrefix(id, stem) { // of a ledger of years few do
			used[id] = true
		}
	}
	n, _ := strconv.Atoi(digits)
	for {
		n++
		if id := fmt.Sprintf("%s%0*d", stem, len(digits), n); !used[id] {
			return id
		}
	}
}

// free returns id, or where that is taken id-2, id-3 ...
func free(id string, taken []string) string {
	if !slices.Contains(taken, id) {
		return id
	}
	return countOn(id+"-", "1", taken)
}

// NextReceipt names a receipt of a shop and a day in the household's own
// manner: as the last one of that shop; for a new shop as the last one of any,
// with letters of its own where shops have them; and where there is no manner
// yet, by the shop's letters and the day, cs-260110.
func NextReceipt(rec *ledger.Records, shop string, day exact.Date) string {
	var all, here []Named
	letters := map[string]string{} // before the day, by shop
	shared := false                // whether two shops have the same
	seen := map[string]bool{}
	for _, r := range rec.Receipts.All() {
		if seen[r.Receipt] {
			continue
		}
		seen[r.Receipt] = true
		n := Named{r.Receipt, r.Date}
		all = append(all, n)
		if r.Shop == shop {
			here = append(here, n)
		}
		if before, _, ok := dated(n); ok {
			for other, b := range letters {
				shared = shared || b == before && other != r.Shop
			}
			letters[r.Shop] = before
		}
	}
	taken := append(ledger.Receipts.In(rec), ledger.Batches.In(rec)...)
	// Letters tell shops apart only where no two shops have the same.
	if manner(here) || shared || len(letters) == 0 && manner(all) {
		if !manner(here) {
			here = all
		}
		return Next(here, day, "", taken...)
	}
	return newLetters(shop, letters, all, day, taken)
}

// manner reports whether there is an identifier that [Next] can follow.
func manner(list []Named) bool {
	return slices.ContainsFunc(list, func(n Named) bool {
		_, _, day := dated(n)
		_, digits := counted(n.ID)
		return day || digits != ""
	})
}

// newLetters names the first receipt of a shop by letters of its own and the
// day, as other shops' are.
func newLetters(shop string, letters map[string]string, all []Named, day exact.Date, taken []string) string {
	layout, join, upper := usualLayout, "-", false
	for _, n := range slices.Backward(all) {
		if before, l, ok := dated(n); ok {
			stem := strings.TrimRight(before, "-_.")
			layout, join = l, before[len(stem):]
			upper = stem != "" && stem == strings.ToUpper(stem)
			break
		}
	}
	var stem string
	others := slices.Collect(maps.Values(letters))
	for _, stem = range initials(shop) {
		if upper {
			stem = strings.ToUpper(stem)
		}
		if !slices.Contains(others, stem+join) {
			break
		}
	}
	return free(stem+join+stamp(day, layout), taken)
}

// initials are what a shop may be called for short, the likeliest first.
func initials(shop string) []string {
	words := strings.FieldsFunc(strings.ToLower(shop), func(r rune) bool {
		return r != '\'' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	var plain []string
	for _, w := range words {
		// Only what every keyboard has: the identifier will be typed.
		w = strings.Map(func(r rune) rune {
			if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
				return r
			}
			return -1
		}, w)
		if w != "" && w != "the" && w != "and" && w != "of" {
			plain = append(plain, w)
		}
	}
	switch len(plain) {
	case 0:
		return []string{"r"}
	case 1:
		w := plain[0]
		return []string{w[:min(2, len(w))], w[:min(3, len(w))], w}
	}
	a, b := plain[0], plain[1]
	list := []string{a[:1] + b[:1], a[:min(2, len(a))] + b[:1], a[:1] + b[:min(2, len(b))]}
	if len(plain) > 2 {
		list = slices.Insert(list, 1, a[:1]+b[:1]+plain[2][:1])
	}
	return append(list, strings.Join(plain, "-"))
}

// NextBatch names a batch of a food: as the last one of that food, or else in
// the one manner of all, or else by the food.
func NextBatch(rec *ledger.Records, food string, day exact.Date) string {
	var all, mine []Named
	stems := map[string]bool{}
	for i := range rec.Batches {
		b := &rec.Batches[i]
		n := Named{b.ID, b.Date}
		all = append(all, n)
		if stem, digits := counted(b.ID); digits != "" {
			stems[stem] = true
		}
		if b.Item == food {
			mine = append(mine, n)
		}
	}
	taken := append(ledger.Receipts.In(rec), ledger.Batches.In(rec)...)
	switch {
	case manner(mine):
		return Next(mine, day, "", taken...)
	case len(stems) == 1 && len(all) > 1:
		return Next(all, day, "", taken...)
	case food == "":
		food = "batch"
	}
	return Next(nil, day, food+"-", taken...)
}

// NextPack names a pack: of a run by the run with a letter or a number, c47-a
// or c47.1, if that is the household's manner or there is none yet; else as
// the last one.
func NextPack(rec *ledger.Records, run string, day exact.Date) string {
	var alike []Named // of a run or not, as this one
	var ids []string
	join, number := "-", false
	byRun := true
	rec.EachPack(func(id, of string, day exact.Date) {
		ids = append(ids, id)
		if (of == "") != (run == "") {
			return
		}
		alike = append(alike, Named{id, day})
		if rest, ok := strings.CutPrefix(id, of); of != "" && ok && rest != "" {
			mark := strings.TrimLeft(rest, "-_.")
			join, byRun = rest[:len(rest)-len(mark)], true
			_, digits := counted(mark)
			number = digits != ""
		} else if of != "" {
			byRun = false
		}
	})
	if run == "" || !byRun {
		return Next(alike, day, "pack-", ids...)
	}
	for letter := 'a'; letter <= 'z' && !number; letter++ {
		if id := run + join + string(letter); !slices.Contains(ids, id) {
			return id
		}
	}
	return countOn(run+join, "0", ids) // numbers, or more than 26 packs
}

// Slug is an identifier for a thing that a person calls by words: "rice-dry" for
// "Rice, dry"; "" where there is nothing to make one of.
func Slug(name string) string {
	id := strings.Map(func(r rune) rune {
		switch {
		case r == ' ':
			return '-'
		case r < 0x80:
			return r
		}
		return -1
	}, ledger.Fold(name))
	if len(id) > 64 {
		id = id[:64]
	}
	return strings.Trim(id, "-")
}
