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
	f := cmd.Flags()
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if err := o.ask(a, f.Changed("currency"), f.Changed("zone")); err != nil {
			return err
		}
		return runInit(cmd.Context(), a, o, args[0])
	}
	f.StringVar(&o.currency, "currency", "EUR", "ISO 4217 `code`")
	f.StringVar(&o.zone, "zone", "UTC", "IANA time `zone`")
	f.StringVar(&o.locale, "locale", "", "how numbers, money and dates are shown and typed: a `locale` such as de-DE (plain)")
	fixed(cmd, "locale", locale.Tags()...)
	return cmd
}

// ask asks for what was not given.
func (o *initOptions) ask(a *app, currency, zone bool) error {
	if !a.ask || currency && zone {
		return nil
	}
	here := entry.HereOf(a.getenv)
	return a.hold("", func(t *ask.Talk) (err error) {
		if !currency {
			o.currency, err = t.Ask(currencyQuestion(cmp.Or(here.Currency, o.currency)))
		}
		if err == nil && !zone {
			o.zone, err = t.Ask(zoneQuestion(cmp.Or(here.Zone, o.zone)))
		}
		if err == nil && o.locale == "" {
			o.locale, err = askLocale(t, here, o.currency)
		}
		return err
	})
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
func askLocale(t *ask.Talk, here entry.Here, currency string) (string, error) {
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
		return usageError{err}
	}
	if err := ledger.CheckZone(o.zone); err != nil {
		return usageError{err}
	}
	l, err := locale.Parse(o.locale)
	if err != nil {
		return usageError{err}
	}
	o.locale = l.String()
	if err := a.create(ctx, dir, "init", emptyLedger(o)); err != nil {
		return err
	}
	fmt.Fprintf(a.stdout, "An empty ledger is in %s.\nNext: putby food add, putby machine add, putby receipt add (each with --help).\n", printable(dir))
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
