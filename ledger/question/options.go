package question

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A Option is one fact of a [WorthQuery] that a person can give, as a
// flag or in a column of a plan.
type Option struct {
	Name   string // words joined by dashes
	Help   string // with the kind of its value in backquotes
	Switch bool   // on or off: its text is "yes" or "no"
	set    func(*WorthQuery, *reading)
}

// Options returns the options in the order of help.
func Options() []Option { return slices.Clone(options) }

var options = slices.Concat(offerOptions, foodOptions, cycleOptions, packingOptions, planOptions)

var planOptions = []Option{
	{Name: "budget", Help: "most `money` for the food of all offers together",
		set: func(q *WorthQuery, r *reading) { q.Budget = exact.Some(exact.MoneyOf(r.number())) }},
}

var offerOptions = []Option{
	{Name: "price", Help: "`money` for one package",
		set: func(q *WorthQuery, r *reading) { q.Price = exact.Some(r.number()) }},
	{Name: "size", Help: "`amount` in a package as bought, such as 500g",
		set: func(q *WorthQuery, r *reading) { q.Size = r.above(r.quantity()) }},
	{Name: "limit", Help: "most `packages` a visit (none)",
		set: func(q *WorthQuery, r *reading) { q.Limit = exact.Some(r.count()) }},
	{Name: "visits", Help: "how many `times` you go (1)",
		set: func(q *WorthQuery, r *reading) { q.Visits = r.atLeastOne() }},
	{Name: "offer", Help: "what comes off, in the shop's `words`: 3 for 5.00, 25% off, every 2nd half price",
		set: func(q *WorthQuery, r *reading) { q.Offer = r.offer(r.text) }},
	{Name: "also", Help: "the same package at another shop: `money` x most, offer; such as 2.79x4, 3 for 8.00",
		set: func(q *WorthQuery, r *reading) { q.Also = append(q.Also, r.visit()) }},
	{Name: "as-of", Help: "`day` of purchase: today, yesterday or a date; later records are left out (today, or the setting as_of)",
		set: func(q *WorthQuery, r *reading) { q.AsOf = r.date() }},
	{Name: "shelf", Help: "regular shelf price: `money` per edible L, kg or ea; or as on the tag, 3.99/454g (as recorded)",
		set: setShelf},
}

var foodOptions = []Option{
	{Name: "as", Help: "the `food` that it is dried as, such as beaten-egg",
		set: func(q *WorthQuery, r *reading) { q.As = r.text }},
	{Name: "ratio", Help: "`amount` that one L, kg or ea bought makes of that (as in the latest batch)",
		set: func(q *WorthQuery, r *reading) { q.Ratio = r.above(r.quantity()) }},
	{Name: "yield", Help: "`part` of what is loaded that comes back with water added, such as 0.95 (as in packed runs)",
		set: func(q *WorthQuery, r *reading) { q.Yield = exact.Some(r.positive()) }},
	{Name: "fresh", Help: "`amount` that will be eaten fresh (none)",
		set: func(q *WorthQuery, r *reading) { q.Fresh = r.quantity() }},
	{Name: "fresh-days", Help: "`days` after purchase before it turns (as recorded)",
		set: func(q *WorthQuery, r *reading) { q.FreshDays = exact.Some(r.count()) }},
	{Name: "use-by", Help: "the `date` by which it turns, instead of days",
		set: func(q *WorthQuery, r *reading) { q.UseBy = exact.Some(r.date()) }},
	{Name: "frozen", Switch: true, Help: "it is kept frozen until its turn: frozen_days instead of fresh_days",
		set: func(q *WorthQuery, r *reading) { q.Frozen = r.yes() }},
	{Name: "use", Help: "`amount` used a month (as in the last 12 months)",
		set: func(q *WorthQuery, r *reading) { q.Use = r.quantity() }},
	{Name: "keep-months", Help: "`months` it keeps once packed (as recorded)",
		set: func(q *WorthQuery, r *reading) { q.KeepMonths = exact.Some(r.count()) }},
	{Name: "stock", Help: "`amount` in store already (as in the packs)",
		set: func(q *WorthQuery, r *reading) { q.Stock = r.quantity() }},
}

var cycleOptions = []Option{
	{Name: "machine", Help: "which `machine` (that of the food's last run)",
		set: func(q *WorthQuery, r *reading) { q.Machine = r.text }},
	{Name: "load", Help: "most per run: an `amount` such as 4L (what the machine takes)",
		set: func(q *WorthQuery, r *reading) { q.Load = r.above(r.quantity()) }},
	{Name: "cycle-hours", Help: "`duration` of a run, such as 30h (median of its runs)",
		set: func(q *WorthQuery, r *reading) { q.CycleTime = exact.Some(r.length()) }},
	{Name: "turnaround", Help: "`duration` between two runs, such as 3h (none)",
		set: func(q *WorthQuery, r *reading) { q.Turnaround = r.duration() }},
	{Name: "start", Help: "`time` of the first run (when the machine is free)",
		set: func(q *WorthQuery, r *reading) { q.StartText = r.text }},
	{Name: "cycles", Help: "most `runs` before it turns, instead of counting hours",
		set: func(q *WorthQuery, r *reading) { q.Cycles = exact.Some(r.count()) }},
	{Name: "kwh", Help: "`kWh` of a run, full or not (as in its runs)",
		set: func(q *WorthQuery, r *reading) { q.KWh = exact.Some(r.number()) }},
	{Name: "tariff", Help: "which `tariff` (the settings')",
		set: func(q *WorthQuery, r *reading) { q.Tariff = r.text }},
	{Name: "rate", Help: "`money` per kWh, taxes in, instead of a tariff",
		set: func(q *WorthQuery, r *reading) { q.Rate = exact.Some(r.number()) }},
	{Name: "wear", Help: "`money` per run (the machine's)",
		set: func(q *WorthQuery, r *reading) { q.Wear = exact.Some(exact.MoneyOf(r.number())) }},
	{Name: "hands", Help: "hands-on `duration` of a run, such as 20m (median of its runs)",
		set: func(q *WorthQuery, r *reading) { q.Hands = exact.Some(r.duration()) }},
}

var packingOptions = []Option{
	{Name: "each", Help: "`amount` that a container gives, such as 1L (as last packed)",
		set: func(q *WorthQuery, r *reading) { q.Each = r.above(r.quantity()) }},
	{Name: "with", Help: "`supplies` per container, such as 1 jar-1l, 1 lid (as last packed)",
		set: setWith},
	{Name: "pack-cost", Help: "`money` per container, instead of its supplies",
		set: func(q *WorthQuery, r *reading) { q.PackCost = exact.Some(exact.MoneyOf(r.number())) }},
	{Name: "without", Help: "leave out `elements` of cost: electricity, supplies, wear, labour",
		set: setWithout},
}

// Set gives one fact, by the name of its option and its text. Its error is a
// a fault of [ErrOption].
func (q *WorthQuery) Set(option, text string) error {
	i := slices.IndexFunc(options, func(o Option) bool { return o.Name == option })
	if i < 0 {
		return OptionFault(option, "", "there is no such option")
	}
	r := &reading{option: option, text: strings.TrimSpace(text)}
	if r.text == "" {
		return OptionFault(option, "leave the option out to take it from the ledger", "it is empty")
	}
	if options[i].set(q, r); r.err != nil {
		return r.err
	}
	return nil
}

// setShelf reads a price per unit, or a price tag.
func setShelf(q *WorthQuery, r *reading) {
	price, size, tagged := strings.Cut(r.text, "/")
	q.Shelf = exact.Some((&reading{option: r.option, text: strings.TrimSpace(price), parent: r}).number())
	if tagged {
		tag := &reading{option: r.option, text: strings.TrimSpace(size), parent: r}
		q.ShelfSize = tag.above(tag.quantity())
	}
}

func setWith(q *WorthQuery, r *reading) {
	uses, err := ledger.ParseUses(r.text)
	r.check(err, "write a number and a supply, such as 1 jar-1l, 1 lid")
	q.With = uses
}

func setWithout(q *WorthQuery, r *reading) {
	words := ledger.ElementNames()[1:] // all but the food
	for name := range strings.SplitSeq(r.text, ",") {
		name = strings.TrimSpace(name)
		at := slices.Index(ledger.ElementNames(), name)
		if at < 1 {
			r.fail("one or more of: "+strings.Join(words, ", "), "%s cannot be left out", exact.Quote(name))
			return
		}
		q.Without = append(q.Without, ledger.Elements()[at])
	}
}

// offer reads what a shop takes off.
func (r *reading) offer(text string) pricing.Offer {
	o, err := pricing.ParseOffer(text)
	r.check(err, "write it as the shop does: 3 for 5.00, 3 for 2, 25% off, 0.50 off or every 2nd half price")
	return o
}

// visit reads another shop: "2.79", "2.79x4" or "2.79x4, 3 for 8.00".
func (r *reading) visit() pricing.Visit {
	head, offer, offered := strings.Cut(r.text, ",")
	price, most, limited := strings.Cut(head, "x")
	part := func(s string) *reading {
		return &reading{option: r.option, text: strings.TrimSpace(s), parent: r}
	}
	v := pricing.Visit{Price: part(price).number()}
	if limited {
		v.Limit = exact.Some(part(most).count())
	}
	if offered {
		v.Offer = r.offer(strings.TrimSpace(offer))
	}
	return v
}
