package report_test

import (
	"strconv"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// household has paid and seen 2.00, 2.00 and 4.00 a kg of carrots, pays 0.30 a
// kWh, and its dryer takes about 10 kWh a run. Pears grow in its garden.
const household = `-- foods.csv --
food,basis,density
carrots,mass,
pears,mass,
milk,volume,1.03
-- supplies.csv --
supply,kind,price
jar,jar,90.00
lid,lid,1.80
-- machines.csv --
machine,cycles
dryer,100
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,carrots,1,5 kg,10.00
a,2025-01-01,2,food,carrots,1,1 kg,4.00
a,2025-01-01,3,food,pears,1,9 kg,0
a,2025-01-01,4,supply,jar,1,12 ea,24.00
-- shelf.csv --
date,shop,item,size,price
2025-01-01,Shop,carrots,500 g,1.00
2025-01-01,Shop,milk,1 L,1.20
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,10
s,dryer,2025-01-04 08:00,12
`

// told is what is said of a record about to be added.
func told(t *testing.T, text, kind string, cells map[string]string) string {
	t.Helper()
	rec, faults, err := folder.Read(write(t, text))
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	k, _ := ledger.KindOf(kind)
	more, faults := rec.With(k, cells)
	if faults != nil {
		t.Fatal(faults)
	}
	return strings.Join(report.Implausible(rec, more), "; ")
}

// A price is far from the usual from ten times the median on, and from a tenth
// of it down.
func TestImplausiblePrices(t *testing.T) {
	for _, c := range []struct{ kind, item, size, price, want string }{
		{"food", "carrots", "1 kg", "19.99", ""},
		{"food", "carrots", "1 kg", "20.00", "carrots is at 20.0000 EUR per kg, far from the usual 2.0000 EUR per kg (the median of 3 prices)"},
		{"food", "carrots", "500 g", "10.00", "carrots is at 20.0000 EUR per kg, far from the usual 2.0000 EUR per kg (the median of 3 prices)"},
		{"food", "carrots", "5 kg", "1.01", ""},
		{"food", "carrots", "5 kg", "1.00", "carrots is at 0.2000 EUR per kg, far from the usual 2.0000 EUR per kg (the median of 3 prices)"},
		{"food", "carrots", "1 kg", "0", ""}, // from the garden
		{"food", "pears", "1 kg", "99", ""},  // of which no price is known
		{"food", "milk", "1.03 kg", "12", "milk is at 12.0000 EUR per L, far from the usual 1.2000 EUR per L (the only price known)"},
		{"supply", "jar", "", "19.99", ""},
		{"supply", "jar", "", "20", "jar is at 20.0000 EUR per ea, far from the usual 2.0000 EUR per ea (the only price known)"},
		// The lid's price is that of supplies.csv; the jar's is that of its receipt.
		{"supply", "lid", "", "0.19", ""},
		{"supply", "lid", "20 ea", "1.80", "lid is at 0.0900 EUR per ea, far from the usual 1.8000 EUR per ea (the only price known)"},
		{"other", "carrots seed", "", "99", ""},
	} {
		cells := map[string]string{"receipt": "b", "date": "2025-02-01", "line": "1", "kind": c.kind, "item": c.item, "size": c.size, "price": c.price}
		if have := told(t, household, "receipt", cells); have != c.want {
			t.Errorf("%s %s at %s: %q, want %q", c.size, c.item, c.price, have, c.want)
		}
	}
	shelf := map[string]string{"date": "2025-02-01", "shop": "Shop", "item": "carrots", "size": "1 kg", "price": "0"}
	if have, want := told(t, household, "price", shelf), "the shelf price of carrots is 0"; have != want {
		t.Errorf("%q, want %q", have, want)
	}
	shelf["price"] = "20"
	if have := told(t, household, "price", shelf); !strings.HasPrefix(have, "carrots is at 20.0000 EUR per kg") {
		t.Errorf("a shelf price says %q", have)
	}
	shelf["form"], shelf["makes"] = "preserved", "4 kg"
	if have := told(t, household, "price", shelf); have != "" {
		t.Errorf("a preserved package says %q", have)
	}
}

// A machine brings back at its end no more than was paid for it.
func TestImplausibleResidual(t *testing.T) {
	line := map[string]string{"receipt": "m", "date": "2025-02-01", "line": "1", "kind": "machine", "item": "press", "price": "300"}
	for residual, want := range map[string]string{
		"300":    "",
		"300.01": "press is to bring 300.01 EUR back at its end, and 300.00 EUR was paid for it",
	} {
		text := strings.Replace(household, "machine,cycles\ndryer,100\n", "machine,cycles,residual\ndryer,100,0\npress,50,"+residual+"\n", 1)
		if have := told(t, text, "receipt", line); have != want {
			t.Errorf("paid after, %s: %q, want %q", residual, have, want)
		}
		text = strings.Replace(household, "a,2025-01-01,4,", "m,2025-01-01,1,machine,old,1,,300\na,2025-01-01,4,", 1)
		text = strings.Replace(text, "dryer,100\n", "dryer,100\nold,50\n", 1)
		if have := told(t, text, "machine", map[string]string{"machine": "new", "cycles": "50", "residual": residual}); have != "" {
			t.Errorf("one that nothing was paid for yet: %q", have)
		}
	}
}

// A rate above 5 a kWh is taken to be in hundredths, but where the household's
// own are above that: then ten times the usual is.
func TestImplausibleRates(t *testing.T) {
	rupees := household + "-- tariffs.csv --\ntariff,rate\nflat,8\n"
	for _, c := range []struct{ text, rate, want string }{
		{household, "5", ""},
		{household, "5.01", "tariff new asks 5.01 EUR a kWh: a rate is in EUR, not in hundredths of it"},
		{household, "-0.1", ""},
		{rupees, "80", ""},
		{rupees, "80.1", "tariff new asks 80.1 EUR a kWh: a rate is in EUR, not in hundredths of it"},
	} {
		if have := told(t, c.text, "tariff", map[string]string{"tariff": "new", "rate": c.rate}); have != c.want {
			t.Errorf("%s: %q, want %q", c.rate, have, c.want)
		}
	}
}

// A run's metered kWh are far from those of the machine's runs.
func TestImplausibleEnergy(t *testing.T) {
	for kwh, want := range map[string]string{
		"109.9": "", "110": "run n has 110 kWh, far from the usual 11 kWh on dryer (the median of 2 runs)", "1.11": "",
		"1.1": "run n has 1.1 kWh, far from the usual 11 kWh on dryer (the median of 2 runs)", "": "", "0": "",
	} {
		if have := told(t, household, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "kwh": kwh}); have != want {
			t.Errorf("%s kWh: %q, want %q", kwh, have, want)
		}
	}
}

// What is usual is that of good runs: one that the power went from tells nothing.
func TestImplausibleEnergyOfGoodRuns(t *testing.T) {
	text := strings.Replace(household, "run,machine,start,kwh\nr,dryer,2025-01-02 08:00,10\ns,dryer,2025-01-04 08:00,12\n",
		"run,machine,start,kwh,outcome\nr,dryer,2025-01-02 08:00,20,good\ns,dryer,2025-01-04 08:00,2,spoiled\nu,dryer,2025-01-06 08:00,1,running\n", 1)
	const want = "run n has 200 kWh, far from the usual 20 kWh on dryer (the only run known)"
	if have := told(t, text, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "kwh": "200"}); have != want {
		t.Errorf("%q, want %q", have, want)
	}
}

// A run takes no more than half as much again as its machine draws in the phase in
// which it draws most: 750 W over 24 hours are 18 kWh, and half as much again 27.
func TestImplausiblePower(t *testing.T) {
	text := household + "-- wattage.csv --\nmachine,phase,watts\ndryer,freezing,400\ndryer,primary,750\n"
	for kwh, want := range map[string]string{
		"27": "", "27.01": "run n has 27.01 kWh in 24h, which is 1125 W on average, and dryer draws 750 W at most (wattage.csv)",
		"270": "run n has 270 kWh, far from the usual 11 kWh on dryer (the median of 2 runs)",
	} {
		if have := told(t, text, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "end": "2025-02-02 08:00", "kwh": kwh}); have != want {
			t.Errorf("%s kWh: %q, want %q", kwh, have, want)
		}
	}
	if have := told(t, text, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "kwh": "27.01"}); have != "" {
		t.Errorf("of a run whose length is not known: %q", have)
	}
	noPrimary := household + "-- wattage.csv --\nmachine,phase,watts\ndryer,hold,150\n"
	if have := told(t, noPrimary, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "end": "2025-02-02 08:00", "kwh": "12"}); have != "" {
		t.Errorf("where no watts of its longest phase are recorded: %q", have)
	}
}

// What spoiled may have been broken off: little of it is no slip, much is.
func TestImplausibleOfSpoiledRuns(t *testing.T) {
	for kwh, told10 := range map[string]bool{"0.5": false, "12": false, "270": true} {
		have := told(t, household, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "end": "2025-02-01 18:00", "kwh": kwh, "outcome": "spoiled"})
		if (have != "") != told10 {
			t.Errorf("%s kWh: %q", kwh, have)
		}
	}
	if have := told(t, household, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "end": "2025-02-01 10:00", "kwh": "0.5"}); have == "" {
		t.Error("0.5 kWh of a good run")
	}
}

// Where nobody has recorded what a machine draws, its socket is the limit: 230 V x 16 A is
// 3680 W, so 7.36 kWh in 2 h.
func TestImplausibleForASocket(t *testing.T) {
	for kwh, want := range map[string]string{
		"7.36": "", "7.37": "run n has 7.37 kWh in 2h, which is 3685 W on average, and a household socket gives 3680 W at most",
	} {
		if have := told(t, household, "run", map[string]string{"run": "n", "machine": "dryer", "start": "2025-02-01 08:00", "end": "2025-02-01 10:00", "kwh": kwh}); have != want {
			t.Errorf("%s kWh: %q", kwh, have)
		}
	}
}

// A record that is changed is held against the others, and what was odd of it before
// is not told again.
func TestImplausibleChanges(t *testing.T) {
	rec, faults, err := folder.Read(write(t, household))
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	with := func(kwh string) *ledger.Records {
		r := rec.Runs[1]
		r.KWh = exact.Some(exact.MustNumber(kwh))
		return &ledger.Records{Settings: rec.Settings, Runs: []ledger.Run{r}}
	}
	for _, c := range []struct{ was, now, want string }{
		{"12", "100", "run s has 100 kWh, far from the usual 10 kWh on dryer (the only run known)"},
		{"12", "99", ""}, {"100", "100", ""}, {"1200", "12", ""},
	} {
		if have := strings.Join(report.ImplausibleChanges(rec, with(c.was), with(c.now)), "; "); have != c.want {
			t.Errorf("%s to %s: %q, want %q", c.was, c.now, have, c.want)
		}
	}
}

// Of very many figures that are far off the first are kept, each once, and all
// are counted.
func TestVettingMany(t *testing.T) {
	rec, faults, err := folder.Read(write(t, household))
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	v := report.NewVetting(rec)
	one := rec.Receipts.At(0)
	for i := range 20_000 {
		r := one
		r.Price = exact.MustMoney(strconv.Itoa(1000 + i))
		v.Look(&ledger.Records{Receipts: ledger.ReceiptList{}.With(r, r)})
	}
	odd, n := v.Odd()
	if len(odd) != 1000 || odd[0] != "carrots is at 200.0000 EUR per kg, far from the usual 2.0000 EUR per kg (the median of 3 prices)" || n < 20_000 {
		t.Errorf("%d of %d, first %q", len(odd), n, odd[0])
	}
}
