package intake

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// The days on which the clocks of Berlin change, whose hours cost (invented)
// 10, 20, 30 ... EUR per MWh as they pass; 85.40 per MWh is 0.0854 a kWh.
var changeDays = map[string]int{"2025-10-26": 25, "2025-03-30": 23, "2025-03-31": 24}

// A form writes the hours of a day as some file has them; step is 1 h or less.
type hourForm struct {
	name   string
	step   time.Duration
	header string
	row    func(start time.Time, n int, price string) string // n counts from 1
	footer string
}

// clockHour is the number of an hour by the clock, from 1.
func clockHour(t time.Time) int { return t.Hour() + 1 }

// doubled reports which of two hours with one number it is: 0 where there is
// one alone.
func doubled(t time.Time) int {
	switch {
	case t.Add(time.Hour).Hour() == t.Hour():
		return 1
	case t.Add(-time.Hour).Hour() == t.Hour():
		return 2
	}
	return 0
}

func hourForms() []hourForm {
	comma := func(price string) string { return strings.Replace(price, ".", ",", 1) }
	const dmy = "02.01.2006 15:04"
	return []hourForm{
		{"with an offset", time.Hour, "time,price (EUR/MWh)", func(t time.Time, _ int, p string) string { return t.Format(time.RFC3339) + "," + p }, ""},
		{"in UTC by the header", time.Hour, "Start (UTC),Area,Price EUR/MWh", func(t time.Time, _ int, p string) string { return t.UTC().Format("2006-01-02 15:04") + ",X," + p }, ""},
		{"since 1970", time.Hour, "epoch,price,unit", func(t time.Time, _ int, p string) string { return fmt.Sprint(t.Unix(), ",", p, ",EUR/MWh") }, ""},
		{"milliseconds since 1970, with an end", time.Hour, "start,end,price_eur_mwh", func(t time.Time, _ int, p string) string {
			return fmt.Sprint(t.UnixMilli(), ",", t.Add(time.Hour).UnixMilli(), ",", p)
		}, ""},
		{"the same clock time twice, with decimal commas", time.Hour, "Datum;Preis [€/MWh]", func(t time.Time, _ int, p string) string { return t.Format(dmy) + ";" + comma(p) }, ""},
		{"with the name of the clock", time.Hour, "MTU,Price (EUR/MWh)", func(t time.Time, _ int, p string) string {
			return t.Format("02/01/2006 15:04 (MST)") + " - " + t.Add(time.Hour).Format("02/01/2006 15:04 (MST)") + "," + p
		}, ""},
		{"from a time to a time", time.Hour, "Prices of a market\nperiod;EUR/MWh", func(t time.Time, _ int, p string) string {
			return t.Format(dmy) + " - " + t.Add(time.Hour).Format(dmy) + ";" + comma(p)
		}, ""},
		{"a date and from when to when", time.Hour, "date,hour,price in EUR per MWh", func(t time.Time, _ int, p string) string {
			return t.Format("2006-01-02") + "," + t.Format("15:04") + " - " + t.Add(time.Hour).Format("15:04") + "," + p
		}, ""},
		{"a date and a clock time", time.Hour, "date,time,price EUR/MWh", func(t time.Time, _ int, p string) string {
			return t.Format("01/02/2006,15:04") + "," + p
		}, "12/31/2025,00:00,\n"},
		// Hours numbered on to 25 (common practice).
		{"numbered as they pass", time.Hour, "date;hour;EUR/MWh", func(t time.Time, n int, p string) string {
			return fmt.Sprint(t.Format("2006-01-02"), ";", n, ";", comma(p))
		}, ""},
		// 3a and 3b: as the order templates of IBEX have it, 28 October 2018.
		{"numbered 3a and 3b", time.Hour, "date,hour,EUR/MWh", func(t time.Time, _ int, p string) string {
			return fmt.Sprint(t.Format("2006-01-02"), ",", clockHour(t), []string{"", "a", "b"}[doubled(t)], ",", p)
		}, ""},
		{"numbered 3 twice", time.Hour, "date,hour,EUR/MWh", func(t time.Time, _ int, p string) string {
			return fmt.Sprint(t.Format("2006-01-02"), ",", clockHour(t), ",", p)
		}, ""},
		{"numbered from 0", time.Hour, "date,hour,EUR/MWh", func(t time.Time, _ int, p string) string {
			return fmt.Sprint(t.Format("2006-01-02"), ",", t.Hour(), ",", p)
		}, ""},
		{"the skipped hour without a price", time.Hour, "date,hour,EUR/MWh", func(t time.Time, _ int, p string) string {
			row := fmt.Sprint(t.Format("2006-01-02"), ",", clockHour(t), ",", p)
			if t.Add(-time.Second).Hour() == t.Hour()-2 {
				row = t.Format("2006-01-02") + ",3,-\n" + row
			}
			return row
		}, ""},
		{"a quarter of an hour at a time", 15 * time.Minute, "time;ct/kWh", func(t time.Time, _ int, p string) string {
			n := exact.MustNumber(p).Mul(exact.New(1, 1))
			return t.Format(dmy) + ";" + comma(n.String())
		}, ""},
		{"quarters numbered as they pass", 15 * time.Minute, "date,quarter,EUR/MWh", func(t time.Time, n int, p string) string { return fmt.Sprint(t.Format("2006-01-02"), ",", n, ",", p) }, ""},
		{"quarters by the clock", 15 * time.Minute, "date,mtu,EUR/MWh", func(t time.Time, _ int, p string) string {
			return fmt.Sprint(t.Format("2006-01-02"), ",", t.Hour()*4+t.Minute()/15+1, ",", p)
		}, ""},
	}
}

// priceAt is the price per MWh of the n-th step of a day, from 0.
func priceAt(n int) string { return exact.New(int64(n+1)*1000+540, 2).String() }

// writeDay writes a day in a form.
func (f hourForm) day(t testing.TB, day string, hours int) (text string, rows []string, want []HourlyPrice) {
	at := exact.MustDate(day).Midnight(zone(t, "Europe/Berlin"))
	for n := range hours * int(time.Hour/f.step) {
		rows = append(rows, f.row(at, n+1, priceAt(n)))
		want = append(want, HourlyPrice{From: at, Until: at.Add(f.step), Rate: exact.MustNumber(priceAt(n)).Mul(exact.New(1, 3))})
		at = at.Add(f.step)
	}
	return f.header + "\n" + strings.Join(rows, "\n") + "\n" + f.footer, rows, want
}

func readHours(text string, change func(*HourlyOptions)) (*HourlyPrices, error) {
	z, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		return nil, err
	}
	o := HourlyOptions{Zone: z, Currency: exact.MustCurrency("EUR")}
	if change != nil {
		change(&o)
	}
	return ReadHourly(strings.NewReader(text), o)
}

func samePrices(have *HourlyPrices, want []HourlyPrice) bool {
	return slices.EqualFunc(have.List, want, func(a, b HourlyPrice) bool {
		return a.From.Equal(b.From) && a.Until.Equal(b.Until) && a.Rate.Equal(b.Rate)
	})
}

// Every form gives each hour of a day its own price, where the clocks change
// and where they do not, oldest first or newest first.
func TestHourlyForms(t *testing.T) {
	for _, f := range hourForms() {
		for day, hours := range changeDays {
			text, rows, want := f.day(t, day, hours)
			have, err := readHours(text, nil)
			if err != nil {
				t.Errorf("%s, %s: %v\n%s", f.name, day, err, text)
				continue
			}
			if !samePrices(have, want) {
				t.Errorf("%s, %s:\nhave %v\nwant %v", f.name, day, have.List, want)
			}
			if f.name == "numbered 3 twice" || f.name == "numbered from 0" || f.step < time.Hour || strings.Contains(f.name, "without a price") {
				continue // which of two is the first, only their order tells
			}
			slices.Reverse(rows)
			if have, err = readHours(f.header+"\n"+strings.Join(rows, "\n"), nil); err != nil || !samePrices(have, want) {
				t.Errorf("%s, %s, newest first: %v", f.name, day, err)
			}
		}
	}
}

// JSON in the shapes that services answer in.
func TestHourlyJSON(t *testing.T) {
	for name, f := range map[string]struct{ head, row, tail, between string }{
		"objects":           {`{"unit":"EUR/MWh","data":[`, `{"start":"%[1]s","price":%[3]s}`, `]}`, ","},
		"nested objects":    {`[`, `{"from":%[2]d000,"till":%[4]d000,"price":{"value":"%[3]s","unit":"EUR/MWh"}}`, `]`, ",\n"},
		"lists":             {`{"currency":"EUR","energy_unit":"MWh","series":[`, `[%[2]d,%[3]s]`, `]}`, ","},
		"one list a column": {`{"unit":"EUR / MWh","deprecated":false,`, "", `}`, ","},
	} {
		for day, hours := range changeDays {
			_, _, want := hourForms()[0].day(t, day, hours)
			var rows, times, prices []string
			for n, p := range want {
				rows = append(rows, fmt.Sprintf(f.row, p.From.Format(time.RFC3339), p.From.Unix(), priceAt(n), p.Until.Unix()))
				times, prices = append(times, fmt.Sprint(p.From.Unix())), append(prices, priceAt(n))
			}
			text := f.head + strings.Join(rows, f.between) + f.tail
			if f.row == "" {
				text = f.head + `"unix_seconds":[` + strings.Join(times, ",") + `],"price":[` + strings.Join(prices, ",") + `]` + f.tail
			}
			if have, err := readHours(text, nil); err != nil || !samePrices(have, want) {
				t.Errorf("%s, %s: %v\n%v", name, day, err, text)
			}
		}
	}
}

// Hours that are columns, with the doubled one as 3a and 3b (as IBEX has it) or
// as a 25th.
func TestHourlyColumns(t *testing.T) {
	_, _, autumn := hourForms()[0].day(t, "2025-10-26", 25)
	_, _, spring := hourForms()[0].day(t, "2025-03-30", 23)
	_, _, usual := hourForms()[0].day(t, "2025-10-27", 24)
	join := func(day string, hours int, skip func(label string) bool, labels []string) string {
		row, n := []string{day}, 0
		for _, l := range labels {
			if skip(l) || n >= hours {
				row = append(row, "")
				continue
			}
			row = append(row, priceAt(n))
			n++
		}
		return strings.Join(row, ",")
	}
	lettered, plain := []string{"1", "2", "3a", "3b"}, []string{"1", "2", "3"}
	for n := 4; n <= 24; n++ {
		lettered, plain = append(lettered, fmt.Sprint(n)), append(plain, fmt.Sprint(n))
	}
	plain = append(plain, "25")
	never := func(string) bool { return false }
	one := func(l string) bool { return l == "3b" }
	both := func(l string) bool { return l == "3a" || l == "3b" }
	for name, text := range map[string]string{
		"3a and 3b": "EUR/MWh\ndate," + strings.Join(lettered, ",") + "\n" + join("2025-10-26", 25, never, lettered) + "\n" + join("2025-10-27", 24, one, lettered) + "\n" + join("2025-03-30", 23, both, lettered) + "\n",
		"a 25th":    "EUR/MWh\ndate," + strings.Join(plain, ",") + "\n" + join("2025-10-26", 25, never, plain) + "\n" + join("2025-10-27", 24, never, plain) + "\n" + join("2025-03-30", 23, never, plain) + "\n",
	} {
		have, err := readHours(text, nil)
		if err != nil || !samePrices(have, slices.Concat(spring, autumn, usual)) {
			t.Errorf("%s: %v\n%s", name, err, text)
		}
	}
}

// What cannot be right is refused, at its line, with what to do.
func TestHourlyRefuses(t *testing.T) {
	day := func(from, to int, header string) string {
		text := header + "\n"
		for n := from; n <= to; n++ {
			text += fmt.Sprintf("2025-10-26,%d,%d.5\n", n, 50+n)
		}
		return text
	}
	choices := map[string]ledger.Choice{
		"a MWh's price of a kWh":         ledger.PerMWh,
		"a MWh's price of nothing said":  ledger.PerMWh,
		"a MWh's price below 0":          ledger.PerMWh,
		"a kWh's price of a MWh below 0": ledger.PerKWh,
		"a kWh's price of a MWh":         ledger.PerKWh,
		"several prices":                 ledger.PriceColumn,
		"a doubled hour":                 ledger.OtherZone,
		"a skipped hour":                 ledger.OtherZone,
		"25 hours on a day of 24":        ledger.OtherZone,
		"24 hours on a day of 23":        ledger.OtherZone,
		"another zone by its header":     ledger.FileZone,
		"dates of two readings":          ledger.DateOrder,
		"an hour three times":            ledger.OtherZone,
		"a doubled instant":              ledger.OtherZoneOrOne,
		"overlapping hours":              ledger.OtherZoneOrOne,
		"24 hours on a day of 25":        ledger.OtherZone,
		"an hour 3b on a day of 24":      ledger.OtherZone,
	}
	for name, c := range map[string]struct{ text, want, hint string }{
		"another currency":               {"time,price (SEK/MWh)\n2025-01-01 00:00,50\n", `its prices are in SEK, as "price (SEK/MWh)" says, and this ledger counts in EUR`, "ask for the file in EUR"},
		"another currency by its sign":   {"time,price per MWh\n2025-01-01 00:00,$50\n", `its prices are in $, as "$50" says, and this ledger counts in EUR`, "ask for"},
		"a MWh's price of a kWh":         {"time,EUR/kWh\n2025-01-01 00:00,50\n2025-01-01 01:00,85.4\n", "line 3: 85.4 EUR is hardly what a kWh costs, as the file says", ""},
		"a MWh's price of nothing said":  {"time,price\n2025-01-01 00:00,85.4\n", "line 2: 85.4 EUR is hardly what a kWh costs, as the file does not say what they are for", ""},
		"a MWh's price below 0":          {"time,EUR/kWh\n2025-01-01 00:00,-60\n2025-01-01 01:00,0.2\n", "line 2: -60 EUR is hardly what a kWh costs", ""},
		"a kWh's price of a MWh below 0": {"time,EUR/MWh\n2025-01-01 00:00,-0.06\n2025-01-01 01:00,0.02\n", "line 2: none is above 0.06 EUR per MWh", ""},
		"a kWh's price of a MWh":         {"time,EUR/MWh\n2025-01-01 00:00,0.0854\n", "line 2: none is above 0.0854 EUR per MWh, which is hardly a price", ""},
		"several prices":                 {"time,DE EUR/MWh,AT EUR/MWh\n2025-01-01 00:00,50,60\n", `line 1: several columns could have the prices: "DE EUR/MWh", "AT EUR/MWh"`, `"DE EUR/MWh"`},
		"no price":                       {"time,area\n2025-01-01 00:00,DE\n", "line 1: no column has the prices", "EUR/MWh"},
		"no time":                        {"date,price\n2025-01-01,50\n", "line 1: no column says when a price begins", "numbered from 1"},
		"no header":                      {"2025-01-01 00:00,50\n2025-01-01 01:00,50\n", "line 1: the columns have no names", "time,price"},
		"a doubled hour":                 {"time,EUR/MWh\n2025-01-01 00:00,50\n2025-01-01 01:00,50\n2025-01-01 01:00,51\n", "line 4, time: 2025-01-01 01:00 is there twice, and the clocks of Europe/Berlin show it once", ""},
		"an hour three times":            {"time,EUR/MWh\n2025-10-26 01:00,50\n2025-10-26 02:00,50\n2025-10-26 02:00,51\n2025-10-26 02:00,52\n", "line 5, time: 2025-10-26 02:00 is there three times, and the clocks of Europe/Berlin show it twice", "keep one of them"},
		"a doubled instant":              {"time,EUR/MWh\n2025-01-01T00:00Z,50\n2025-01-01T01:00+01:00,50\n", "line 3, time: its time is that of line 2 too, from 2025-01-01 01:00 CET until", ""},
		"overlapping hours":              {"from,to,EUR/MWh\n2025-01-01 00:00,2025-01-01 01:00,50\n2025-01-01 00:30,2025-01-01 01:30,50\n", "line 3, from: its time overlaps that of line 2, from 2025-01-01 00:00 CET until 2025-01-01 01:00 CET", ""},
		"a skipped hour":                 {"time,EUR/MWh\n2025-03-30 01:00,50\n2025-03-30 02:00,50\n", "line 3, time: the clocks of Europe/Berlin never show 2025-03-30 02:00", ""},
		"25 hours on a day of 24":        {strings.ReplaceAll(day(1, 25, "date,hour,EUR/MWh"), "10-26", "10-25"), "line 26, date: 2025-10-25 has 24h in Europe/Berlin, and the file numbers one 25", ""},
		"24 hours on a day of 25":        {day(1, 24, "date,hour,EUR/MWh"), "line 25, date: 2025-10-26 has 25h in Europe/Berlin, and the file does not tell which of the doubled hour it has", "number its hours"},
		"24 hours on a day of 23":        {strings.ReplaceAll(day(1, 24, "date,hour,EUR/MWh"), "10-26", "03-30"), "line 25, date: 2025-03-30 has 23h in Europe/Berlin, and the file has one that the clocks skip", ""},
		"an hour 3b on a day of 24":      {"date,hour,EUR/MWh\n2025-10-25,3a,50\n2025-10-25,3b,50\n", "line 3, date: 2025-10-25 has 24h in Europe/Berlin, and the file has a second of one hour", ""},
		"another zone by its header":     {"Time (EET),EUR/MWh\n2025-01-01 00:00,50\n", `line 1: the times are those of EET, as the column "Time (EET)" says, and the clock of Europe/Berlin shows CET`, ""},
		"dates of two readings":          {"time,EUR/MWh\n01/02/2025 00:00,50\n", `line 2: the dates, such as "01/02/2025 00:00", fit dmy and mdy alike`, ""},
		"broken JSON":                    {"{\"a\":[\n{\"time\":1,", "2:11: not JSON: the file ends in the middle", ""},
		"JSON without a list":            {`{"a":1}`, "the file has no list of prices", "a list of objects"},
		"an empty file":                  {"", "the file has no rows", ""},
		"a bad price":                    {"time,EUR/MWh\n2025-01-01 00:00,5\n2025-01-01 01:00,dear\n", `line 1: no column has the prices`, "EUR/MWh"},
	} {
		_, err := readHours(c.text, nil)
		var faults ledger.Faults
		var whole *ledger.Fault
		var told ledger.Fault
		switch {
		case errors.As(err, &faults):
			told = faults[0]
		case errors.As(err, &whole):
			told = *whole
		}
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || !strings.Contains(told.Hint, c.hint) || told.Choice != choices[name] {
			t.Errorf("%s: %v (%s, choice %d)\nwant %s (%s, choice %d)", name, err, told.Hint, told.Choice, c.want, c.hint, choices[name])
		}
	}
}

// Where hours end is a clock time, or the number of the hour that ends then.
func TestHourlyEnds(t *testing.T) {
	for name, text := range map[string]string{
		"clock times": "from,to,EUR/MWh\n2025-01-01 22:00,23:00,50\n2025-01-01 23:00,24:00,60\n",
		"numbers":     "from,to,EUR/MWh\n2025-01-01 22:00,23,50\n2025-01-01 23:00,24,60\n",
	} {
		p, err := readHours(text, nil)
		if err != nil || len(p.List) != 2 || p.List[1].Until.Sub(p.List[0].From) != 2*time.Hour {
			t.Errorf("%s: %+v (%v)", name, p, err)
		}
	}
}

// What a person says goes before what the file looks like.
func TestHourlySaid(t *testing.T) {
	const text = "time;A;B\n2025-01-01 00:00;85,40;1\n2025-01-01 01:00;-2,50;1\n"
	for name, c := range map[string]struct {
		change func(*HourlyOptions)
		want   string
	}{
		"per MWh":      {func(o *HourlyOptions) { o.Column, o.Per = "a", PerMWh }, "0.0854 -0.0025"},
		"per kWh":      {func(o *HourlyOptions) { o.Column, o.Per = "A", PerKWh }, "85.4 -2.5"},
		"another zone": {func(o *HourlyOptions) { o.Column, o.Per, o.Zone = "A", PerMWh, time.UTC }, "0.0854 -0.0025"},
	} {
		have, err := readHours(text, c.change)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := fmt.Sprint(have.List[0].Rate, have.List[1].Rate); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// Gaps are told, where prices go over from hours to quarters too.
func TestHourlyGaps(t *testing.T) {
	const text = "time,EUR/MWh\n2025-09-30T22:00+02:00,50\n2025-09-30T23:00+02:00,50\n2025-10-01T00:00+02:00,51\n2025-10-01T00:15+02:00,51\n2025-10-01T00:45+02:00,\n2025-10-01T01:00+02:00,52\n2025-10-01T01:15+02:00,52\n"
	have, err := readHours(text, nil)
	if err != nil {
		t.Fatal(err)
	}
	var gaps []HourlyPrice
	for i, p := range have.List[1:] {
		if before := have.List[i]; before.Until.Before(p.From) {
			gaps = append(gaps, HourlyPrice{From: before.Until, Until: p.From})
		}
	}
	if len(gaps) != 1 || gaps[0].From.UTC().Format("15:04") != "22:30" || gaps[0].Until.UTC().Format("15:04") != "23:00" || have.Blank != 1 {
		t.Errorf("gaps are %v in %v", gaps, have.List)
	}
}

// A workbook stores its times as fractions of a day, on the clock.
func TestHourlyWorkbook(t *testing.T) {
	_, _, want := hourForms()[0].day(t, "2025-10-26", 25)
	rows := [][]any{{"Delivery", "EUR/MWh"}}
	for n, p := range want {
		rows = append(rows, []any{p.From.In(zone(t, "Europe/Berlin")).Format("2006-01-02 15:04"), 0.0})
		cell := rows[len(rows)-1]
		serial := float64(45956) + float64(p.From.In(zone(t, "Europe/Berlin")).Hour())/24 // 26 October 2025 is day 45956
		cell[0], cell[1] = serial, float64((n+1)*1000+540)/100
	}
	z := zone(t, "Europe/Berlin")
	have, err := ReadHourly(strings.NewReader(string(workbook(t, "prices", false, rows...))), HourlyOptions{Zone: z, Currency: exact.MustCurrency("EUR")})
	if err != nil || !samePrices(have, want) {
		t.Errorf("%v: %v", err, have)
	}
}

// Behind a time stands when it ends: a clock time, or the number of the hour that
// ends then, of which a day has 24.
func TestHourlyEndsInInterval(t *testing.T) {
	for end, want := range map[string]string{
		"22:00 - 22:15": "15m0s", "22:30 - 23": "30m0s", "23:30 - 24": "30m0s", "23:30 - 24:00": "30m0s", "23:30 - 0:00": "30m0s",
		"23:30 - 25": `line 2, time: "25" is not a time`, "23:30 - late": `line 2, time: "late" is not a time`,
	} {
		p, err := readHours("time,EUR/MWh\n2025-01-01 "+end+",50\n", nil)
		have := fmt.Sprint(err)
		if err == nil {
			have = p.List[0].Until.Sub(p.List[0].From).String()
		}
		if have != want {
			t.Errorf("%s: %s, want %s", end, have, want)
		}
	}
}
