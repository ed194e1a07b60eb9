package intake

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// The format is that of the OpenEI Utility Rate Database: version 7 of its
// API (field names from memory). The rates are invented.

// hours writes a day of the schedule from runs such as "0x7 1x4".
func hours(runs string) string {
	var list []string
	for _, run := range strings.Fields(runs) {
		var period, n int
		if _, err := fmt.Sscanf(run, "%dx%d", &period, &n); err != nil {
			panic(err)
		}
		list = append(list, slices.Repeat([]string{fmt.Sprint(period)}, n)...)
	}
	return "[" + strings.Join(list, ",") + "]"
}

// year writes 12 months: summer from May to October.
func year(winter, summer string) string {
	months := slices.Concat(slices.Repeat([]string{hours(winter)}, 4), slices.Repeat([]string{hours(summer)}, 6), slices.Repeat([]string{hours(winter)}, 2))
	return "[" + strings.Join(months, ",") + "]"
}

const structure = `[[{"rate":0.0612,"adj":0.0038,"unit":"kWh"}],[{"rate":0.10}],[{"max":300,"rate":0.115,"adj":0.002},{"rate":0.2,"sell":0.01}]]`

func rateJSON(fields ...string) string {
	base := []string{
		`"label":"62a1","utility":"Dunmore Light","name":"Home by the hour"`,
		`"energyratestructure":` + structure,
		`"energyweekdayschedule":` + year("0x7 2x4 1x6 2x2 0x5", "0x7 1x4 2x6 1x2 0x5"),
		`"energyweekendschedule":` + year("0x24", "0x24"),
	}
	return "{" + strings.Join(append(base, fields...), ",") + "}"
}

func TestReadURDB(t *testing.T) {
	in := rateJSON(`"startdate":1493618400`, `"enddate":1525154399`, `"fixedchargefirstmeter":12.5`, `"fixedchargeunits":"$/month"`,
		`"flatdemandstructure":[[{"rate":0,"adj":0}],[{"rate":4.1}]]`, `"demandratestructure":[[{"rate":0}]]`,
		`"energycomments":"Holidays are\u001b[31m as Sunday."`)
	rate := must(ReadURDB(strings.NewReader(`{"items":[`+in+`]}`), ""))
	if rate.From.String() != "2017-05-01" || rate.Until.String() != "2018-05-01" || rate.Name != "Home by the hour" || rate.Label != "62a1" {
		t.Errorf("head is %+v", rate)
	}
	var got []string
	for _, b := range rate.Bands {
		got = append(got, fmt.Sprintf("%v %v %v-%v >%v %v", b.Months, b.Days, b.Start, b.End, b.Above, b.Rate))
	}
	want := []string{
		"11-4 mon-fri 07:00-11:00 >0 0.117", "11-4 mon-fri 07:00-11:00 >300 0.2",
		"11-4 mon-fri 11:00-17:00 >0 0.1",
		"11-4 mon-fri 17:00-19:00 >0 0.117", "11-4 mon-fri 17:00-19:00 >300 0.2",
		"11-4 mon-fri 19:00-07:00 >0 0.065",
		"11-4 sat,sun 00:00-24:00 >0 0.065",
		"5-10 mon-fri 07:00-11:00 >0 0.1",
		"5-10 mon-fri 11:00-17:00 >0 0.117", "5-10 mon-fri 11:00-17:00 >300 0.2",
		"5-10 mon-fri 17:00-19:00 >0 0.1",
		"5-10 mon-fri 19:00-07:00 >0 0.065",
		"5-10 sat,sun 00:00-24:00 >0 0.065",
	}
	if !slices.Equal(got, want) {
		t.Errorf("bands are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	left := strings.Join(rate.Left, "\n")
	for _, part := range []string{"fixedchargefirstmeter 12.5 $/month", "flatdemandstructure", "sell", "holidays", "2018-05-01"} {
		if !strings.Contains(left, part) {
			t.Errorf("what is left out lacks %q:\n%s", part, left)
		}
	}
	if strings.Contains(left, "demandratestructure") {
		t.Errorf("a demand charge of 0 is listed:\n%s", left)
	}
	if len(rate.Comments) != 1 || strings.ContainsRune(rate.Comments[0], 0x1b) {
		t.Errorf("comments are %q", rate.Comments)
	}
}

// A rate that is one all year becomes one band without limits.
func TestReadURDBFlat(t *testing.T) {
	flat := year("0x24", "0x24")
	rate := must(ReadURDB(strings.NewReader(`[{"energyratestructure":[[{"rate":0.31}]],"energyweekdayschedule":`+flat+`,"energyweekendschedule":`+flat+`}]`), ""))
	if len(rate.Bands) != 1 {
		t.Fatalf("bands are %v", rate.Bands)
	}
	if b := rate.Bands[0]; b.Months != 0 || b.Days != 0 || b.Start != 0 || b.End != energy.DayEnd || b.Rate.String() != "0.31" {
		t.Errorf("band is %+v", b)
	}
}

// The bands of a rate hold the price that its schedule says, at every hour,
// with its tiers and its fuel adjustments, and leave no gap.
func TestURDBIsSchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		price := func(label string) json.Number {
			return json.Number(exact.New(rapid.Int64Range(-999, 99999).Draw(t, label), 5).String())
		}
		var periods [][]map[string]any
		for range rapid.IntRange(1, 3).Draw(t, "periods") {
			var tiers []map[string]any
			count := rapid.IntRange(1, 3).Draw(t, "tiers")
			for i := range count {
				tier := map[string]any{"rate": price("rate"), "adj": price("adj"), "unit": "kWh"}
				if i < count-1 {
					tier["max"] = 100 * (i + 1)
				}
				tiers = append(tiers, tier)
			}
			periods = append(periods, tiers)
		}
		kinds := rapid.SliceOfN(rapid.IntRange(0, len(periods)-1), 1, 3).Draw(t, "kinds")
		schedule := func(label string) (s [12][24]int) {
			for m := range s {
				for h := range s[m] {
					s[m][h] = kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, label)]
				}
			}
			return s
		}
		weekday := schedule("weekday")
		weekend := weekday
		if rapid.Bool().Draw(t, "weekend") {
			weekend = schedule("weekend")
		}
		var fuel []json.Number
		for range 12 {
			fuel = append(fuel, price("fuel"))
		}
		data := must(json.Marshal(map[string]any{
			"energyratestructure": periods, "fueladjustmentsmonthly": fuel,
			"energyweekdayschedule": weekday, "energyweekendschedule": weekend,
		}))
		rate := must(ReadURDB(strings.NewReader(string(data)), ""))
		tariff := must(energy.NewTariff("urdb", time.UTC, rate.Bands, nil))
		if c := tariff.Check(); len(c.Gaps)+len(c.Unused) > 0 {
			t.Fatalf("the bands have %v", c)
		}
		at := time.Date(2025, 1, 1, rapid.IntRange(0, 24*365-1).Draw(t, "hour"), 0, 0, 0, time.UTC)
		s := weekday
		if at.Weekday() == time.Saturday || at.Weekday() == time.Sunday {
			s = weekend
		}
		tiers := periods[s[at.Month()-1][at.Hour()]]
		i := rapid.IntRange(0, len(tiers)-1).Draw(t, "tier")
		want := exact.MustNumber(string(fuel[at.Month()-1]))
		for _, name := range []string{"rate", "adj"} {
			want = want.Add(exact.MustNumber(string(tiers[i][name].(json.Number))))
		}
		var household [12]exact.Number
		household[at.Month()-1] = exact.Int(int64(i) * 100)
		got := must(energy.NewMeter(household).Bill(tariff, []energy.Span{{Start: at, Energy: kwh("1")}}, 9))[0]
		if !got.Number().Equal(want) {
			t.Fatalf("1 kWh at %v above %d costs %v, want %v", at, i*100, got, want)
		}
	})
}

func TestURDBFaults(t *testing.T) {
	good := rateJSON()
	swap := func(old, new string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("%q is not in the rate", old)
		}
		return strings.Replace(good, old, new, 1)
	}
	for _, c := range []struct{ in, want string }{
		{"", "1:1: not JSON: the file is empty"},
		{"{\n  \"a\": }", "2:8: not JSON: invalid character '}' looking for beginning of value"},
		{`{"a": [1`, "1:9: not JSON: the file ends in the middle"},
		{good + "x", fmt.Sprintf("1:%d: not JSON: there is more after its end", len(good)+1)},
		{`[]`, "$: there is no rate in the file"},
		{`{"items":[]}`, "$.items: there is no rate in the file"},
		{`[7]`, "$[0]: a rate must be an object in braces"},
		{"[" + good + "," + good + "]", `$: the file has 2 rates: name one by its label, such as "62a1"`},
		{`{}`, "$.energyratestructure: there are no energy prices: it must be a list of periods, each a list of tiers"},
		{swap("0.0612", "6.12e-2"), `$.energyratestructure[0][0].rate: "6.12e-2" is not a number: `},
		{swap("0.0612", `"0.0612"`), "$.energyratestructure[0][0].rate: it must be a number"},
		{swap("0.0612", "1e999999999"), `$.energyratestructure[0][0].rate: "1e999999999" is not a number`},
		{swap(`{"rate":0.10}`, `{}`), "$.energyratestructure[1][0]: a tier must have a rate"},
		{swap(`[{"rate":0.10}]`, `[]`), "$.energyratestructure[1]: a period must be a list of tiers"},
		{swap(`"max":300,`, ``), "$.energyratestructure[2][0]: only the last tier of a period may lack a max"},
		{swap(`"max":300`, `"max":0`), "$.energyratestructure[2][0].max: 0 is not above the max of the tier before, 0"},
		{swap(`"max":300`, `"unit":"kWh daily","max":300`), `$.energyratestructure[2][0].unit: tiers by "kWh daily" cannot be written as bands`},
		{swap("[0,0,", "[0,3,"), "$.energyweekdayschedule[0][1]: it must be a period from 0 to 2"},
		{swap("[0,0,", "[0,0.5,"), "$.energyweekdayschedule[0][1]: it must be a period from 0 to 2"},
		{swap("[0,0,", "[0,"), "$.energyweekdayschedule[0]: it must be a list of 24 hours"},
		{swap(`"energyweekendschedule":[`, `"energyweekendschedule":[[],`), "$.energyweekendschedule: it must be a list of 12 months of 24 hours"},
		{rateJSON(`"startdate":"2017"`), "$.startdate: it must be a date as seconds since 1970"},
		{rateJSON(`"fueladjustmentsmonthly":[1]`), "$.fueladjustmentsmonthly: it must be a list of 12 amounts, one a month"},
	} {
		_, err := ReadURDB(strings.NewReader(c.in), "")
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%.60s…: %v, want %s", c.in, err, c.want)
		}
	}
	if _, err := ReadURDB(strings.NewReader(good), "other"); err == nil {
		t.Error("a label that is not there is no fault")
	}
	if _, err := ReadURDB(strings.NewReader(strings.Repeat(" ", maxURDB+1)), ""); err == nil {
		t.Error("a file beyond the limit is no fault")
	}
	two := strings.NewReader("[" + good + "," + strings.Replace(good, "62a1", "62a2", 1) + "]")
	if rate, err := ReadURDB(two, "62a2"); err != nil || rate.Label != "62a2" {
		t.Errorf("picking by label: %v, %v", rate.Label, err)
	}
}

// Law: whatever the bytes, a rate that is read makes a tariff, and one that is
// not says where.
func FuzzReadURDB(f *testing.F) {
	f.Add(rateJSON())
	f.Add(`{"items":[{}]}`)
	f.Add(rateJSON(`"fueladjustmentsmonthly":[0,0,0,0,0,0,0,0,0,0,0,0.001]`))
	f.Fuzz(func(t *testing.T, in string) {
		rate, err := ReadURDB(strings.NewReader(in), "")
		if err == nil {
			if _, err := energy.NewTariff("fuzz", time.UTC, rate.Bands, nil); err != nil {
				t.Errorf("its bands make no tariff: %v", err)
			}
			return
		}
		var one *ledger.Fault
		var many ledger.Faults
		if !errors.As(err, &one) && !errors.As(err, &many) {
			t.Errorf("%v says no place", err)
		}
	})
}
