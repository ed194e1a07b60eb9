package entry

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// A thing is what a person says was taken, frozen or counted: how much of what.
type thing struct {
	text   string         // as it was typed
	count  string         // "2" of them; "" where none was said
	amount exact.Quantity // with its unit; not given where none was said
	pack   string         // one of these three: an identifier
	food   int            // position, or -1
	supply int            // position, or -1
}

// parseThing reads "yogurt", "2 rice", "2 x rice", "0.5 kg onions", "pack c46-a"
// or "3 of pack c46-a". A name that has a number at its beginning, such as "1 L
// jar", is that name. The error is a fault of the kind [ErrTyped] or [ErrNone].
func (b *Base) parseThing(text string) (thing, error) {
	t := thing{text: strings.Join(strings.Fields(text), " "), food: -1, supply: -1}
	if t.text == "" {
		return t, typed(text, "it names nothing: write what it is, such as \"2 rice\" or \"0.5 kg onions\"")
	}
	if found, err := b.name(&t, t.text); found || err != nil {
		return t, err
	}
	l, said := b.Records.Settings.Locale, strings.Fields(t.text)
	t.text = Native(l, t.text)
	name, err := b.parseAmount(&t)
	if two := TwoWays(l, strings.Join(said[:len(said)-len(name)], " ")); two != nil { // a name may have any digits
		return t, typed("", two.Error())
	}
	return t, err
}

// parseAmount reads how many or how much of what a thing is, and returns the words
// of its name.
func (b *Base) parseAmount(t *thing) (name []string, err error) {
	count, rest := cutCount(strings.Fields(t.text))
	// A bare number is a count where all behind it is a name; else it may begin an amount, as in 2 kg rice.
	if count == "" && len(rest) > 1 && isNumber(Number(rest[0])) {
		if found, err := b.name(t, strings.Join(rest[1:], " ")); found || err != nil {
			t.count = Number(rest[0])
			return rest[1:], err
		}
	}
	size, rest := cutSize(rest)
	if t.count = count; size != "" {
		t.amount = exact.MustQuantity(size)
	} else if t.count == "" && len(rest) > 1 && isNumber(Number(rest[0])) {
		t.count, rest = Number(rest[0]), rest[1:]
	}
	if t.count != "" && t.amount.Given() {
		return rest, typed(t.text, "say either how many or how much: \"2 rice\", or \"0.5 kg rice\"")
	}
	rest = withoutContainer(rest)
	if len(rest) > 1 && strings.EqualFold(rest[0], "pack") {
		return rest, b.namePack(t, strings.Join(rest[1:], " "))
	}
	if found, err := b.name(t, strings.Join(rest, " ")); found || err != nil {
		return rest, err
	}
	return rest, b.none(t, strings.Join(rest, " "))
}

// Things joins the words of a command line that were typed without quotes: 2 rice
// is one thing, and so are 0.5 kg onions and pack c46-a.
func Things(words []string) (list []string) {
	for len(words) > 0 {
		n := 1
		switch {
		case len(words) < 2 || strings.Contains(words[0], " "):
		case strings.EqualFold(words[0], "pack"):
			n = 2
		case isNumber(Number(words[0])):
			if n = 2; len(words) > 2 && (isUnit(words[1]) || strings.EqualFold(words[1], "pack") || words[1] == "x") {
				n = 3
			}
		case len(words[0]) > 1 && isAmount(words[0]):
			n = 2
		}
		list, words = append(list, strings.Join(words[:n], " ")), words[n:]
	}
	return list
}

func isUnit(word string) bool {
	_, ok := intake.UnitWord(word)
	return ok
}

func isAmount(word string) bool {
	_, err := exact.ParseQuantity(Amount(word))
	return err == nil
}

// containerWords may stand between a number and what is in the containers.
var containerWords = []string{"of", "jar", "jars", "bag", "bags", "container", "containers"}

// withoutContainer leaves out "jars of".
func withoutContainer(words []string) []string {
	for len(words) > 1 && slices.Contains(containerWords, strings.ToLower(words[0])) {
		words = words[1:]
	}
	return words
}

// name finds the one food, supply or pack that a person calls name. An error
// says that it may be any of several.
func (b *Base) name(t *thing, name string) (bool, error) {
	ids := ledger.Called(name, slices.Concat(b.Records.NamedFoods(), b.Records.NamedSupplies()))
	if len(ids) > 1 {
		return false, typed(t.text, "it may be any of several: "+strings.Join(ids, ", ")+". Write which")
	}
	if len(ids) == 1 {
		t.food = slices.IndexFunc(b.Records.Foods, func(f ledger.Food) bool { return f.ID == ids[0] })
		t.supply = slices.IndexFunc(b.Records.Supplies, func(s ledger.Supply) bool { return s.ID == ids[0] })
		return true, nil
	}
	id, ok := b.meantPack(name)
	if ok {
		t.pack = id
	}
	return ok, nil
}

// meantPack finds the pack that a person calls name. Of an excerpt it has to be the
// very identifier: packs that are not there may be called so too.
func (b *Base) meantPack(name string) (id string, ok bool) {
	id, ok = ledger.Meant(name, packsOf(b.Records))
	return id, ok && (b.Records.Excerpt == nil || id == name)
}

func packsOf(rec *ledger.Records) []ledger.Named { return byID(ledger.Packs.In(rec)) }

// namePack finds the pack of an identifier.
func (b *Base) namePack(t *thing, name string) error {
	id, ok := b.meantPack(name)
	if !ok {
		return notListed(fmt.Sprintf("%s: there is no pack called %s", quote(t.text), quote(name)), ledger.Nearest(name, ledger.Packs.In(b.Records)), advice.OnHand)
	}
	t.pack = id
	return nil
}

// none says that nothing is called name, and what was probably meant.
func (b *Base) none(t *thing, name string) error {
	near := nearID(name, slices.Concat(b.Records.NamedFoods(), b.Records.NamedSupplies(), packsOf(b.Records)))
	if near != "" {
		near = quote(strings.TrimSuffix(t.text, name) + near)
	}
	return notListed(fmt.Sprintf("%s: no food, supply or pack is called %s", quote(t.text), quote(name)), near, advice.OnHand)
}

// day reads the day of an act; "" is today.
func (b *Base) day(text string) (exact.Date, error) {
	if strings.TrimSpace(text) == "" {
		return b.At.Today, nil
	}
	day, err := exact.ParseDate(b.At.Dated(text))
	if err != nil {
		return b.At.Today, typed("", quote(text)+" is not a day that can be read: "+b.At.howToDate())
	}
	return day, nil
}
