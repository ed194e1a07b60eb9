package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// A TariffIn is a tariff in words, as a person types it.
type TariffIn struct {
	Words  string // as [TariffGrammar] says
	Tariff string // its name; "": home
	From   string // the first day on which it holds; "": always
	Tax    string // % on top of prices that name none
}

// AddTariff adds the bands of a tariff. Where runs have no tariff yet, they get
// this one.
func AddTariff(b *Base, in TariffIn) (*Draft, error) {
	words := Native(b.Records.Settings.Locale, in.Words)
	bands, err := ParseTariff(words)
	if err != nil {
		return nil, err
	}
	name, from := cmp.Or(in.Tariff, "home"), b.At.datedWhole(in.From)
	if err := b.newPrices(name, from); err != nil {
		return nil, err
	}
	k, d := ledger.MustKind("tariff"), &Draft{}
	for _, cells := range bands {
		cells["tariff"], cells["from"], cells["tax"] = name, from, cmp.Or(cells["tax"], in.Tax)
		d.Rows = append(d.Rows, Row{k, cells})
	}
	if b.Records.Settings.Tariff == "" {
		d.Sets = append(d.Sets, Setting("tariff", name))
	}
	d.Next = []advice.Doing{advice.Do(advice.CheckTariff, name)}
	return d, nil
}

// newPrices refuses prices of a tariff from a day from which it has some.
func (b *Base) newPrices(name, from string) error {
	has := slices.ContainsFunc(b.Records.Tariffs, func(t ledger.Band) bool {
		return t.Tariff == name && (t.From == exact.NoDate && from == "" || t.From != exact.NoDate && t.From.String() == from)
	})
	switch {
	case has && from == "":
		return typed("", fmt.Sprintf("the ledger has prices of the tariff %s: say from when the new ones hold, as %s, or give another name by %s", name, b.part("from", b.At.Today.String()), b.part("tariff")))
	case has:
		return typed("", fmt.Sprintf("the ledger has prices of the tariff %s from %s on: give another day by %s, or another name by %s", name, from, b.part("from"), b.part("tariff")))
	}
	return nil
}

// TariffSays says in lines what a tariff in words comes to.
func TariffSays(words string) []string {
	bands, err := ParseTariff(words)
	if err != nil {
		return nil
	}
	lines := make([]string, len(bands))
	for i, b := range bands {
		var when []string
		for _, c := range [][2]string{{"days", "%s"}, {"months", "months %s"}, {"start", "from %s to " + b["end"]}, {"above_kwh", "above %s kWh of the month"}} {
			if text := b[c[0]]; text != "" {
				when = append(when, fmt.Sprintf(c[1], text))
			}
		}
		lines[i] = b["rate"] + " a kWh"
		if b["tax"] != "" {
			lines[i] += " + " + b["tax"] + " % tax"
		}
		if when == nil && len(bands) > 1 {
			when = []string{"the rest of the time"}
		}
		if when != nil {
			lines[i] += ": " + strings.Join(when, ", ")
		}
	}
	return lines
}
