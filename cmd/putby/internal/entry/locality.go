package entry

import (
	"strings"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"

	"putby/ledger"
	"putby/pricing/locale"
)

// A Locality is what the machine says of the household's place; "" what it does not.
type Locality struct {
	Currency string // ISO 4217
	Zone     string // IANA
	Pounds   bool   // the country sells by quarts and pounds
	Locale   locale.Locale
	Strange  string // a locale that this program does not know
}

// GuessLocality guesses from the environment, and from where the machine's own zone is
// kept: a name, or the path that it is a link to.
func GuessLocality(getenv func(string) string, zoneNames ...string) Locality {
	var h Locality
	for _, name := range []string{"LC_ALL", "LC_MONETARY", "LANG"} {
		name, _, _ = strings.Cut(getenv(name), ".")
		name, _, _ = strings.Cut(name, "@")
		region, ok := regionOf(name)
		if !ok {
			continue
		}
		if unit, ok := currency.FromRegion(region); ok {
			h.Currency = unit.String()
		}
		if h.Locale, ok = locale.Named(name); !ok {
			h.Strange = strings.ReplaceAll(name, "_", "-")
		}
		h.Pounds = region.String() == "US" || region.String() == "LR"
		break
	}
	for _, name := range append([]string{strings.TrimPrefix(getenv("TZ"), ":")}, zoneNames...) {
		if _, path, ok := strings.Cut(name, "zoneinfo/"); ok {
			name = path
		}
		if name = strings.TrimSpace(name); name != "" && ledger.CheckZone(name) == nil {
			h.Zone = name
			break
		}
	}
	return h
}

// regionOf reads the country of a locale, such as de_AT.
func regionOf(name string) (language.Region, bool) {
	_, country, ok := strings.Cut(name, "_")
	if !ok {
		return language.Region{}, false
	}
	region, err := language.ParseRegion(country)
	return region, err == nil
}
