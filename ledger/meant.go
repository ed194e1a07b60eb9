package ledger

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// A Named is something of the ledger by its identifier, and by its name, if it
// has one.
type Named struct{ ID, Name string }

// NamedFoods returns all foods, in file order.
func (rec *Records) NamedFoods() []Named {
	return named(rec.Foods, func(f *Food) Named { return Named{f.ID, f.Name} })
}

// NamedSupplies returns all supplies.
func (rec *Records) NamedSupplies() []Named {
	return named(rec.Supplies, func(s *Supply) Named { return Named{s.ID, s.Name} })
}

// NamedMachines returns all machines.
func (rec *Records) NamedMachines() []Named {
	return named(rec.Machines, func(m *Machine) Named { return Named{m.ID, m.Name} })
}

func named[R any](list []R, of func(*R) Named) []Named {
	names := make([]Named, len(list))
	for i := range list {
		names[i] = of(&list[i])
	}
	return names
}

// Meant finds the one of a list that a person calls text, as [Called] does. It
// returns text and false where none is called so, or several are.
func Meant(text string, list []Named) (id string, ok bool) {
	if ids := Called(text, list); len(ids) == 1 {
		return ids[0], true
	}
	return text, false
}

// Called returns the identifiers of those of a list that a person calls text: by
// its identifier, or else by identifier or name, where case, diacritics and marks
// do not count.
func Called(text string, list []Named) (ids []string) {
	if slices.ContainsFunc(list, func(n Named) bool { return n.ID == text }) {
		return []string{text}
	}
	key := Fold(text)
	for _, n := range list {
		if key != "" && (Fold(n.ID) == key || Fold(n.Name) == key) && !slices.Contains(ids, n.ID) {
			ids = append(ids, n.ID)
		}
	}
	return ids
}

// Fold writes a name so that spellings of it compare equal: without case,
// diacritics and marks, its words parted by single spaces.
func Fold(s string) string {
	// NFKD (Unicode, UAX #15) takes letters and their marks apart, so that marks can be left
	// out below. Of ASCII there is nothing to take apart.
	if strings.ContainsFunc(s, func(r rune) bool { return r >= 0x80 }) {
		s = norm.NFKD.String(s)
	}
	var b strings.Builder
	b.Grow(len(s))
	gap := false
	for _, r := range s {
		switch {
		case unicode.Is(unicode.Mn, r):
		case unicode.IsLetter(r), unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			// NFKD leaves it whole; in capitals it is mostly written SS.
			if r == 'ß' {
				b.WriteString("ss")
				continue
			}
			b.WriteRune(unicode.ToLower(r))
		default:
			gap = true
		}
	}
	return b.String()
}
