package report_test

import (
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// savedLedger is worked by hand: 17.4 kWh at 0.1178 EUR are 2.04972 EUR; with
// 13.02 for the broth and six jar-uses of 2.00 / 20 that makes 15.66972, or
// 2.61162 a jar. The shop's 3.29 for 900 mL are 3.6556 a litre. Six of the jars' 60
// uses are gone by then, so one jar of the three takes a third of 54 uses with it.
const savedLedger = `-- tariffs.csv --
tariff,rate
flat,0.1178
-- foods.csv --
food,name,basis,refuse,frozen_days,keep_months
broth,chicken broth,volume,,,24
leeks,leeks,mass,20,120,
-- supplies.csv --
supply,name,kind,uses,capacity,price
jar,1 L jar,jar,20,1050 mL,2.00
-- machines.csv --
machine,name,cycles
m,Attic dryer,1000
-- wattage.csv --
machine,phase,watts
m,primary,400
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price,discount
r1,2025-03-01,Corner,1,food,broth,1,6.2 L,13.02,
r2,2025-03-02,Corner,1,food,leeks,2,1 kg,2.50,0.20
r2,2025-03-02,Corner,2,supply,jar,3,,2.00,
r2,2025-03-02,Corner,3,other,bus fare,,,2.40,
r2,2025-03-02,Corner,4,total,,,,13.20,
-- shelf.csv --
date,shop,item,size,price,terms
2025-03-01,Corner,broth,900 mL,3.29,regular
2025-03-02,Corner,leeks,1 kg,2.50,offer
-- runs.csv --
run,machine,start,kwh
48,m,2025-03-03 18:00,17.4
49,m,2025-03-06 18:00,
-- phases.csv --
run,step,phase,duration
48,1,primary,37h
49,1,primary,10h
-- loads.csv --
run,item,quantity,lost
48,broth,6.2 L,
49,leeks,1 kg,0.5 kg
-- packs.csv --
pack,run,item,date,count,each,with
48-a,48,broth,2025-03-05,6,1 L,1 jar
-- draws.csv --
date,pack,item,quantity,reason
2025-03-06,48-a,,2,used
2025-03-07,,leeks,0.1 kg,spoiled
2025-03-07,,jar,1,spoiled
-- frozen.csv --
date,item,quantity
2025-03-07,leeks,0.2 kg
-- counts.csv --
date,pack,item,quantity
2025-03-08,48-a,,3
2025-03-08,,leeks,0.5 kg
2025-03-09,48-a,,3
`

// What was saved is told in the household's words: names, its units, money with
// its currency once, and ~ before what rests on a machine's usual draw.
func TestSaved(t *testing.T) {
	g := whole(t, write(t, savedLedger), exact.NoDate)
	for _, test := range []struct {
		kind string
		n    int // the last so many
		want string
	}{
		{"run", 2, `Run 48: 6.2 L chicken broth, 37h, 17.4 kWh, 2.05 EUR of electricity; 15.07 in all with food.
Run 49: 1 kg leeks, 10h, ~4 kWh, ~0.47 EUR of electricity; ~3.47 in all with food, of which ~1.74 is lost.`},
		{"load", 1, `Run 49: 1 kg leeks, 10h, ~4 kWh, ~0.47 EUR of electricity; ~3.47 in all with food, of which ~1.74 is lost.`},
		{"pack", 1, `Pack 48-a: 6 containers of 1 L chicken broth, best by 2027-03-05; 2.61 EUR each, and the shelf asks 3.66 for as much.`},
		{"draw", 3, `Used: 2 containers of 1 L chicken broth from pack 48-a, which cost 5.22 EUR, worth 7.31 at the shelf; 3 left in it.
Spoiled: 0.1 kg leeks, which cost 0.30 EUR; 0.5 kg left fresh.
Spoiled: 1 of 1 L jar, which cost 1.80 EUR.`},
		{"count", 3, `Stocktake of 3 things: 2 as the books have them; missing and written off: 2.61 EUR.
Missing: 1 container of pack 48-a, 2.61 EUR.`},
		{"count", 1, `Stocktake of chicken broth, pack 48-a: 3 of its containers, as the books have it.`},
		{"receipt", 4, `Receipt r2, Corner, 2025-03-02: 4 lines, 13.20 EUR.
  leeks, 2 x 1 kg at 2.50, less 0.20	4.80	3.0000 per edible kg
  1 L jar, 3 at 2.00	6.00	2.00 each
  bus fare	2.40
  in all	13.20`},
		{"receipt", 5, `Receipt r1, Corner, 2025-03-01: 1 line, 13.02 EUR.
Receipt r2, Corner, 2025-03-02: 4 lines, 13.20 EUR.
2 receipts of 5 lines come to 26.22 EUR.`},
		{"price", 2, `Corner, 2025-03-01: 900 mL of chicken broth for 3.29 EUR, 3.6556 per L.
Corner, 2025-03-02: 1 kg of leeks on offer for 2.50 EUR, 3.1250 per edible kg.`},
		{"frozen", 1, `Into the freezer: 0.2 kg leeks, to be dried by 2025-06-30.`},
		{"food", 1, `Food leeks: leeks, counted in kg.`},
		{"supply", 1, `Supply jar: 1 L jar, holds 1050 mL, serves 20 times, 2.00 EUR each where no receipt says, 0.10 a time.`},
		{"machine", 1, `Machine m: Attic dryer, expected to run 1000 cycles.`},
		{"wattage", 1, `Attic dryer draws 400 W in the phase primary, where a run does not say.`},
		{"tariff", 1, `Tariff flat, always: 0.1178 EUR a kWh with tax.`},
	} {
		got := strings.Join(report.Saved(g, report.LastWritten(g.Records, test.kind, test.n)), "\n")
		if got != test.want {
			t.Errorf("%d of %s:\n%s\nwant:\n%s", test.n, test.kind, got, test.want)
		}
	}
}

// A run whose phases and loads were written with it is told once.
func TestSavedRunOnce(t *testing.T) {
	g := whole(t, write(t, savedLedger), exact.NoDate)
	list := slices.Concat(report.LastWritten(g.Records, "run", 1), report.LastWritten(g.Records, "load", 1), report.LastWritten(g.Records, "phase", 1))
	if got := report.Saved(g, list); len(got) != 1 {
		t.Errorf("%q", got)
	}
}

// Amounts are in the household's units; only those of the package that a shop
// sells are as sold. 6.2 L are 6.551500 US quarts (231 cubic inches to the
// gallon), a litre at 3.6556 is 3.4594 a quart.
func TestSavedInItsUnits(t *testing.T) {
	g := whole(t, write(t, savedLedger+strings.TrimSuffix(settings, "\n")+"\nshow_volume,qt\n"), exact.NoDate)
	for _, test := range []struct {
		kind string
		n    int
		want string
	}{
		{"run", 2, "Run 48: 6.551 qt chicken broth,"},
		{"pack", 1, "6 containers of 1.057 qt chicken broth,"},
		{"price", 2, "Corner, 2025-03-01: 900 mL of chicken broth for 3.29 EUR, 3.4594 per qt."},
	} {
		got := strings.Join(report.Saved(g, report.LastWritten(g.Records, test.kind, test.n)), "\n")
		if !strings.Contains(got, test.want) {
			t.Errorf("%s: %q lacks %q", test.kind, got, test.want)
		}
	}
}

// Of very many records a few are told, and how many there are.
func TestSavedMany(t *testing.T) {
	text := savedLedger + "-- holidays.csv --\ntariff,date\n"
	for day := 10; day < 30; day++ {
		text += "flat,2025-04-" + exact.Int(int64(day)).String() + "\n"
	}
	g := whole(t, write(t, text), exact.NoDate)
	got := report.Saved(g, report.LastWritten(g.Records, "holiday", 20))
	if len(got) != 11 || got[0] != "20 holidays; the first 10 of them:" {
		t.Errorf("%q", got)
	}
}

// Of what has no words nothing is told, so that whoever asks shows its lines.
func TestSavedUnknown(t *testing.T) {
	g := whole(t, write(t, savedLedger), exact.NoDate)
	if got := report.Saved(g, report.LastWritten(g.Records, ledger.SettingsKind().Name, 1)); got != nil {
		t.Errorf("%q", got)
	}
}
