package entry

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// bandText writes bands short: rate, hours, days, months, above, tax.
func bandText(bands []map[string]string) string {
	var list []string
	for _, b := range bands {
		s := b["rate"]
		if b["start"]+b["end"] != "" {
			s += " " + b["start"] + "-" + b["end"]
		}
		for _, c := range []string{"days", "months"} {
			if b[c] != "" {
				s += " " + b[c]
			}
		}
		if b["above_kwh"] != "" {
			s += " >" + b["above_kwh"]
		}
		if b["tax"] != "" {
			s += " +" + b["tax"] + "%"
		}
		list = append(list, s)
	}
	return strings.Join(list, "; ")
}

func TestParseTariff(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"0.31", "0.31"},
		{"0,31", "0.31"},
		{"$0.31 per kWh", "0.31"},
		{"31 ct", "0.31"},
		{"30.75 cents a kWh", "0.3075"},
		{"28.1p/kWh", "0.281"},
		{"0.31 EUR/kWh tax 20%", "0.31 +20%"},
		{"0.31, tax 5", "0.31 +5%"},
		{"days 0.24 from 6 to 22, nights 0.18", "0.24 06:00-22:00; 0.18"},
		{"Nights 0.18, days 0.24 from 6:00 to 22:00", "0.24 06:00-22:00; 0.18"},
		{"0,24 from 6 to 22, 0,18", "0.24 06:00-22:00; 0.18"},
		{"days 0.24 6-22; nights 0.18", "0.24 06:00-22:00; 0.18"},
		{"nights 0.18 from 22 to 6, days 0.24 from 6 to 22", "0.18 22:00-06:00; 0.24 06:00-22:00"},
		{"peak 0.40 between 5pm and 9pm, off-peak 0.20", "0.4 17:00-21:00; 0.2"},
		{"0.2 from midnight to noon, 0.3 from noon to midnight", "0.2 00:00-12:00; 0.3 12:00-00:00"},
		{"0.2 from 12am to 12pm, 0.3", "0.2 00:00-12:00; 0.3"},
		{"weekdays 0.30 from 7:30 to 11, weekends 0.15, else 0.19", "0.3 07:30-11:00 mon-fri; 0.15 sat-sun; 0.19"},
		{"holidays 0.1, saturdays 0.12, rest 0.2", "0.1 hol; 0.12 sat; 0.2"},
		{"nov-apr 0.28 from 7 to 11, 0.21", "0.28 07:00-11:00 11-4; 0.21"},
		{"0.17, above 300 kWh 0.21", "0.21 >300; 0.17"},
		{"mon-fri 0.3 jul 17-21, 0.2, plus 5% tax", "0.3 17:00-21:00 mon-fri 7 +5%; 0.2 +5%"},
	} {
		bands, err := ParseTariff(test.text)
		if got := bandText(bands); err != nil || got != test.want {
			t.Errorf("%q: %s, %v; want %s", test.text, got, err, test.want)
		}
	}
}

func TestParseTariffWrong(t *testing.T) {
	for text, want := range map[string]string{
		"":                                   "write the price of a kWh",
		"days 0.24, nights 0.18":             "holds at no time",
		"0.24 from 6 to 22":                  "nothing is said of 00:00-06:00",
		"weekends 0.15, weekdays 0.2 7-22":   "nothing is said of mon-fri, ",
		"above 300 kWh 0.21":                 "nothing is said of",
		"0.24 0.18":                          "put a comma between prices",
		"days from 6 to 22, 0.18":            "has no price",
		"0.24 from 6, 0.18":                  "write from when to when",
		"0.24 from 6 to 25, 0.18":            "is no time of day",
		"0.24 from 13pm to 22, 0.18":         "is no time of day",
		"0.24 from 6 to 6, 0.18":             "is no time",
		"winter 0.2, 0.1":                    "write its months",
		"0.2 sometimes":                      `"sometimes" is neither a price`,
		"0.2 above, 0.1":                     "above how many kWh",
		"1e3":                                "is neither a price",
		"0.2 tax much":                       "is no tax",
		"0.2 99999999999999999999 kwh":       "is neither a price",
		"mon 0.1, tue 0.1, mon-sun 0.3, 0.2": "holds at no time",
	} {
		if bands, err := ParseTariff(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %s, %v; want %s", text, bandText(bands), err, want)
		}
	}
}

// What is read is exact: the price of an hour is the one that was written, and
// each tariff that is read has one for every hour.
func FuzzParseTariff(f *testing.F) {
	for _, s := range []string{"0.31", "days 0.24 from 6 to 22, nights 0.18", "nov-apr 0.28 5pm-9pm weekdays, 31 ct, tax 5%", "0.17, above 300 kWh 0.21"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bands, err := ParseTariff(text)
		if err != nil {
			return
		}
		k, rec := ledger.MustKind("tariff"), &ledger.Records{}
		for _, b := range bands {
			b["tariff"] = "t"
			for _, column := range k.Header() {
				if fault := k.CellFault(nil, column, b[column]); fault != nil && b[column] != "" {
					t.Fatalf("%q: %s %q: %s", text, column, b[column], fault.What)
				}
			}
			if more, faults := rec.With(k, b); len(faults) > 0 {
				t.Fatalf("%q: %v", text, faults)
			} else {
				rec = more
			}
			if _, err := exact.ParseNumber(b["rate"]); err != nil {
				t.Fatal(fmt.Errorf("%q: %w", text, err))
			}
		}
	})
}

// What bands come to is said band by band: where there are several, the one without
// conditions holds the rest of the time.
func TestTariffSays(t *testing.T) {
	for words, want := range map[string]string{
		"0.31":                             "0.31 a kWh",
		"0.24 from 6 to 22, 0.18":          "0.24 a kWh: from 06:00 to 22:00|0.18 a kWh: the rest of the time",
		"0.17, above 300 kWh 0.21, tax 5%": "0.21 a kWh + 5 % tax: above 300 kWh of the month|0.17 a kWh + 5 % tax: the rest of the time",
		"nov-apr 0.28, 0.21":               "0.28 a kWh: months 11-4|0.21 a kWh: the rest of the time",
		"a kWh costs too much":             "",
	} {
		if have := strings.Join(TariffSays(words), "|"); have != want {
			t.Errorf("%q: %s, want %s", words, have, want)
		}
	}
}

// Prices of a tariff from a day on are told once; for others the day is to be said.
func TestTariffTwice(t *testing.T) {
	b := bench(t)
	in := TariffIn{Words: "0.31", Tariff: "cabin"}
	d, err := AddTariff(b, in)
	if err != nil || len(d.Rows) != 1 {
		t.Fatal(d, err)
	}
	b = bench(t, d.Rows...)
	_, err = AddTariff(b, in)
	if want := "the ledger has prices of the tariff cabin: say from when the new ones hold, as from 2025-11-16, or give another name by tariff"; err == nil || err.Error() != want {
		t.Errorf("told twice: %v, want %s", err, want)
	}
	in.From = "2026-01-01"
	if _, err = AddTariff(b, in); err != nil {
		t.Errorf("from another day: %v", err)
	}
}
