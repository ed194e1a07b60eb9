package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

const initLong = `Begin a ledger in DIR, which is made if it is not there: settings.csv, and every
other file with its header and no rows. Nothing that exists is overwritten.

All money is of the one currency; all local times, and so the hours of a tariff,
are of the one zone. On a terminal you are asked for those that you do not give.`

type initOptions struct {
	currency, zone string
	locale         string
	volume, mass   string // units that are shown; "": the usual ones
}

func newInitCommand(a *app) *cobra.Command {
	o := &initOptions{}
	cmd := &cobra.Command{
		Use:     "init DIR",
		Short:   "begin an empty ledger",
		Long:    initLong,
		Example: "  putby init larder --currency EUR --zone Europe/Vienna",
		Args:    arguments("DIR"),
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if err := o.ask(a); err != nil {
			return err
		}
		return runInit(cmd.Context(), a, o, args[0])
	}
	f := cmd.Flags()
	f.StringVar(&o.currency, "currency", "", "ISO 4217 `code` (EUR)")
	f.StringVar(&o.zone, "zone", "", "IANA time `zone` (UTC)")
	f.StringVar(&o.locale, "locale", "", "how numbers, money and dates are shown and typed: a `locale` such as de-DE (plain)")
	fixed(cmd, "locale", locale.Tags()...)
	return cmd
}

// ask asks for what was not given.
func (o *initOptions) ask(a *app) error {
	usual := entry.Locality{Currency: "EUR", Zone: "UTC"}
	if a.ask && (o.currency == "" || o.zone == "") {
		here := entry.GuessLocality(a.getenv)
		here.Currency, here.Zone = cmp.Or(here.Currency, usual.Currency), cmp.Or(here.Zone, usual.Zone)
		err := a.hold("", func(t *ask.Talk) error {
			said := *o
			err := said.household(t, here, here.Pounds)
			if err == nil {
				*o = said
			}
			return err
		})
		if err != nil {
			return err
		}
	}
	o.currency, o.zone = cmp.Or(o.currency, usual.Currency), cmp.Or(o.zone, usual.Zone)
	return nil
}

// household asks for the facts of a ledger that are not known: its currency and zone,
// its units where they are to be asked for, and how figures are shown.
func (o *initOptions) household(t *ask.Talk, here entry.Locality, units bool) (err error) {
	if o.currency == "" {
		if o.currency, err = t.Ask(currencyQuestion(here.Currency)); err != nil {
			return err
		}
	}
	if o.zone == "" {
		if o.zone, err = t.Ask(zoneQuestion(here.Zone)); err != nil {
			return err
		}
	}
	if units {
		if err = o.askUnits(t, here.Pounds); err != nil {
			return err
		}
	}
	if o.locale == "" {
		o.locale, err = askLocale(t, here, o.currency)
	}
	return err
}

// measures are what a household may measure in, metric first.
var measures = []string{"litres and kilograms", "quarts and pounds"}

// askUnits asks in which units amounts are shown.
func (o *initOptions) askUnits(t *ask.Talk, pounds bool) error {
	offer := measures[0]
	if pounds {
		offer = measures[1]
	}
	said, err := t.Ask(ask.Question{Key: "units", What: "what you measure in", Offer: offer, Names: measures, Check: ask.OneOf(measures...),
		Help: "What screens and labels show. You can always type either: 2 lb, 1 L, 500 g."})
	if o.volume, o.mass = "L", "kg"; said == measures[1] {
		o.volume, o.mass = "qt", "lb"
	}
	return err
}

func currencyQuestion(offer string) ask.Question {
	return ask.Question{
		Key: "currency", What: "currency (ISO 4217 code)", Offer: offer, Help: "Three letters, such as EUR, CAD or USD. All money of the ledger is of it.",
		Check: func(code string) (string, error) {
			code = strings.ToUpper(code)
			_, err := exact.ParseCurrency(code)
			return code, err
		},
	}
}

func zoneQuestion(offer string) ask.Question {
	return ask.Question{
		Key: "zone", What: "time zone (IANA name, such as Europe/Vienna)", Offer: offer, Names: ledger.Zones(),
		Help:  "A continent and a city. The hours of a tariff are of it.",
		Check: func(name string) (string, error) { return name, ledger.CheckZone(name) },
	}
}

// askLocale asks how figures are shown and typed, where the machine says how the
// place does it.
func askLocale(t *ask.Talk, here entry.Locality, currency string) (string, error) {
	if here.Strange != "" {
		t.Tell("How figures are written in %s is not known here: they are shown plain, with a point and dates such as 2025-02-28.", here.Strange)
	}
	if here.Locale.IsPlain() {
		return "", nil
	}
	return t.Ask(ask.Question{
		Key: "locale", What: "figures as in (" + localeExample(here.Locale, currency) + "; - for plain ones)", Offer: here.Locale.String(), Names: locale.Tags(),
		Help: "How numbers, money and dates are shown, and may be typed. Plain is " + localeExample(locale.Plain, currency) + ".\nThe ledger's files, JSON and CSV stay plain. putby edit setting locale value=... changes it.",
		Check: func(tag string) (string, error) {
			l, err := locale.Parse(tag)
			return l.String(), err
		},
	})
}

// localeExample is money and a date as a locale writes them.
func localeExample(l locale.Locale, currency string) string {
	c, _ := exact.ParseCurrency(currency)
	return l.Money("1234.50", c) + ", " + l.Date(exact.MustDate("2025-02-28"))
}

func runInit(ctx context.Context, a *app, o *initOptions, dir string) error {
	if _, err := exact.ParseCurrency(o.currency); err != nil {
		return misused("%v", err)
	}
	if err := ledger.CheckZone(o.zone); err != nil {
		return misused("%v", err)
	}
	l, err := locale.Parse(o.locale)
	if err != nil {
		return misused("%v", err)
	}
	o.locale = l.String()
	shown := ""
	if o.mass == "" && strings.HasSuffix(o.locale, "-US") {
		o.volume, o.mass = "qt", "lb"
		shown = "It shows quarts and pounds, as shops there do: putby edit setting show_mass value=kg changes that.\n"
	}
	if err := a.create(ctx, dir, "init", emptyLedger(o)); err != nil {
		return err
	}
	fmt.Fprintf(a.stdout, "An empty ledger is in %s.\n%sNext: putby setup asks for all that it needs. By flags: food add, supply add, machine add, tariff add, receipt add.\n", printable(dir), shown)
	return nil
}

// emptyLedger returns the files of a ledger without records.
func emptyLedger(o *initOptions) map[string][]byte {
	values := map[string]string{"format": "1", "currency": o.currency, "zone": o.zone, "show_volume": o.volume, "show_mass": o.mass, "locale": o.locale}
	var settings strings.Builder
	settings.WriteString("setting,value\n")
	for _, s := range ledger.SettingColumns() {
		if values[s.Name] != "" {
			settings.WriteString(s.Name + "," + values[s.Name] + "\n")
		}
	}
	files := map[string][]byte{ledger.SettingsFile: []byte(settings.String())}
	for _, k := range ledger.Kinds() {
		files[k.File] = []byte(strings.Join(k.Header(), ",") + "\n")
	}
	return files
}
