package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
)

// A RecordRef is what a person says of a record that is to be changed or taken out.
type RecordRef struct {
	Verb  string // of the command that names it
	Kind  ledger.Kind
	Words []string // which one: an identifier, names, a day, last
	Sets  []string // COLUMN=VALUE
}

// ParseRecordRef reads the words of a command, of which it needs a kind and which one:
// "receipt last shop=Marrow", "the last receipt", "run 48".
func ParseRecordRef(verb string, args []string) (*RecordRef, error) {
	kind, words, sets := splitRecordRef(args)
	if kind == "" || len(words) == 0 {
		return nil, &ledger.Fault{Kind: ErrTyped, What: verb + " takes KIND and WHICH, such as " + verb + " receipt last", Hint: seeHelp}
	}
	k, err := kindCalled(kind)
	return &RecordRef{verb, k, words, sets}, err
}

// seeHelp is the hint where a command was given too little.
const seeHelp = "putby help, or the command with --help"

// kindCalled is the kind of records of a name, in any case, in the singular or plural.
func kindCalled(name string) (ledger.Kind, error) {
	for _, word := range []string{name, strings.ToLower(name), strings.TrimSuffix(strings.ToLower(name), "s")} {
		if k, ok := ledger.KindOf(word); ok {
			return k, nil
		}
	}
	hint := "one of: " + strings.Join(KindNames(), ", ")
	if near := ledger.Nearest(name, KindNames()); near != "" {
		hint = near
	}
	return ledger.Kind{}, &ledger.Fault{Kind: ErrTyped, What: fmt.Sprintf("%q is not a kind of record", name), Hint: hint}
}

// KindNames are the kinds of records, settings among them.
func KindNames() []string {
	var names []string
	for _, k := range ledger.Kinds() {
		names = append(names, k.Name)
	}
	return append(names, ledger.SettingsKind().Name)
}

// splitRecordRef tells the kind, which record, and what is to be set apart.
func splitRecordRef(args []string) (kind string, words, sets []string) {
	for i, arg := range args {
		column, _, set := strings.Cut(arg, "=")
		switch {
		case set && strings.Trim(column, "abcdefghijklmnopqrstuvwxyz_0123456789") == "":
			sets = append(sets, arg)
		case i == 0 && strings.Contains(arg, " "):
			words = append(words, strings.Fields(arg)...)
		default:
			words = append(words, arg)
		}
	}
	last := false
	for len(words) > 1 && slices.Contains([]string{"the", "my", "last"}, strings.ToLower(words[0])) {
		last = last || strings.EqualFold(words[0], "last")
		words = words[1:]
	}
	if len(words) > 0 {
		kind, words = words[0], words[1:]
	}
	if last {
		words = append(slices.Clone(words), "last")
	}
	return kind, words, sets
}
