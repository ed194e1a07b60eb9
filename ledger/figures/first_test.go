package figures_test

import (
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// The first of a list is one of it: containers of the first pack are counted as
// whole ones, and so are those of the first supply that serves again.
func TestFirstIsCountedWhole(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	for _, c := range []struct {
		what  figures.Countable
		whole bool
	}{
		{figures.Countable{Pack: 0, Food: 1, Supply: -1}, true},
		{figures.Countable{Pack: -1, Food: 0, Supply: -1}, false},
		{figures.Countable{Pack: -1, Food: -1, Supply: 0}, true},  // jars
		{figures.Countable{Pack: -1, Food: -1, Supply: 1}, false}, // absorbers
	} {
		if c.what.Whole(g) != c.whole {
			t.Errorf("%+v is counted whole: %t", c.what, !c.whole)
		}
	}
}

// A food that was never dried has the first machine, where there is one or several;
// without a machine it has none.
func TestMachineOfAFoodNeverDried(t *testing.T) {
	none := map[string]string{"runs.csv": "", "phases.csv": "", "loads.csv": "", "packs.csv": "", "machines.csv": "machine,cycles\n",
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\nf,2025-06-08,Mill Lane,food,plums,6,1 kg,2\n"}
	for _, c := range []struct {
		files map[string]string
		want  int
	}{
		{nil, 0},
		{map[string]string{"machines.csv": "machine,load_mass,cycles\nbox,5 kg,100\nchest,9 kg,100\n"}, 0},
		{none, -1},
	} {
		g := kitchenWith(t, "2025-06-11", c.files)
		berries, _ := g.FindFood("berries")
		if d, err := figures.DryerOf(g, "", berries); err != nil || d.Machine != c.want {
			t.Errorf("of %d machines it has %d (%v), want %d", len(g.Machines), d.Machine, err, c.want)
		}
	}
}

// The last container of a food is in store: five of six jars of plums are eaten.
func TestLastContainerIsInStore(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{"draws.csv": "date,pack,quantity,reason\n2025-06-10,p1,5,used\n"})
	r, err := figures.OnHand(g, figures.OnHandQuery{})
	if err != nil || len(r.Foods) != 1 || r.Foods[0].Left != 1 || !r.Foods[0].Amount.Equal(exact.MustNumber("0.6")) {
		t.Errorf("%+v (%v), want 1 container with 0.6 kg", r.Foods, err)
	}
}

// What differs in other seasons is of the same prices: a new price from September
// is no season, and summer of the next year is not reached.
func TestSeasonsEndWithThePrices(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"tariffs.csv": "tariff,from,months,rate\nhome,2025-01-01,7,0.30\nhome,2025-01-01,,0.20\nhome,2025-09-01,,0.40\n",
	})
	w, err := figures.WeekOf(g.Records, figures.TariffQuery{Date: exact.MustDate("2025-03-10")})
	if err != nil {
		t.Fatal(err)
	}
	if w.First != exact.MustDate("2025-01-01") || w.Next != exact.MustDate("2025-09-01") {
		t.Errorf("prices begin on %v, and others on %v", w.First, w.Next)
	}
	for month := 1; month <= 12; month++ {
		if has := w.Months&(1<<month) != 0; has != (month == 7) {
			t.Errorf("month %d is another season: %t", month, has)
		}
	}
}

// What a pack itself took is among what it came from.
func TestTraceOfAPacksSupplies(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	r, err := figures.Trace(g, figures.TraceQuery{Name: "p1"})
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, s := range r.Sources {
		if s.For == figures.OnPack {
			found[g.Lots[s.Lot].Item()] = true
		}
	}
	if !found["jar"] || !found["absorber"] || !found["label"] || len(found) != 3 {
		t.Errorf("the pack took %v, want its jars, absorbers and labels", found)
	}
}

// A load that names its lot is known to hold it. Another run, which drew its own food and
// named no lot, is no part of the trace and makes nothing of it assumed.
func TestTraceOfANamedLotIsKnown(t *testing.T) {
	for _, c := range []struct {
		named   string
		assumed bool
	}{{"e", false}, {"", true}} {
		g := kitchenWith(t, "2025-06-13", map[string]string{
			"runs.csv":   "run,machine,start,kwh\nr1,box,2025-06-01 08:00,12\nr2,box,2025-06-11 08:00,12\n",
			"phases.csv": "",
			"loads.csv":  "run,item,quantity,receipt\nr1,plums,4 kg," + c.named + "\nr2,berries,4 kg,\n",
		})
		r, err := figures.Trace(g, figures.TraceQuery{Name: "e"})
		if err != nil || r.Assumed != c.assumed || len(r.Passages) != 1 {
			t.Errorf("with the lot %q named the trace is assumed: %t, through %d runs (%v)", c.named, r.Assumed, len(r.Passages), err)
		}
	}
}

// A pack is followed back through the first batch of the records to what the batch took.
func TestTraceThroughTheFirstBatch(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv":   kitchen["foods.csv"] + "puree,Plum puree,mass,3,,12\n",
		"batches.csv": "batch,date,item,quantity,from\nb1,2025-06-01,puree,3 kg,4 kg plums\n",
		"loads.csv":   "run,item,quantity\nr1,puree,3 kg\n",
		"packs.csv":   "pack,run,item,date,count,each\np1,r1,puree,2025-06-03,3,1 kg\n",
	})
	r, err := figures.Trace(g, figures.TraceQuery{Name: "p1"})
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]exact.Number{}
	for _, s := range r.Sources {
		if s.For == figures.InFood {
			found[g.Lots[s.Lot].Item()] = s.Quantity
		}
	}
	if len(found) != 2 || !found["puree"].Equal(num("3")) || !found["plums"].Equal(num("4")) {
		t.Errorf("it came from %v, want 3 kg of puree, of 4 kg of plums", found)
	}
}

// Where jars went is traced to the food in them, whose caution is to be told.
func TestTraceOfJarsTellsOfTheirFood(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	r, err := figures.Trace(g, figures.TraceQuery{Name: "b"})
	if plums, _ := g.FindFood("plums"); err != nil || !r.Foods[plums] || len(r.Passages) != 0 {
		t.Errorf("the jars are traced to the foods %v, through %v (%v)", r.Foods, r.Passages, err)
	}
}

// A week is of one tariff, and the others are named beside it.
func TestWeekNamesOtherTariffs(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{"tariffs.csv": "tariff,rate\ncabin,0.30\nhome,0.20\n"})
	w, err := figures.WeekOf(g.Records, figures.TariffQuery{Name: "home", Date: exact.MustDate("2025-03-10")})
	if err != nil || len(w.Others) != 1 || w.Others[0] != "cabin" || w.IsHourly() {
		t.Errorf("beside home are %v (%v)", w, err)
	}
}

// A stocktake goes through the packs of a place and what is asked besides, each as the books
// have it: of six jars of plums one is eaten, and 20 jars less those five are free.
func TestToCount(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"packs.csv": "pack,run,item,date,count,each,with,place\np1,r1,plums,2025-06-03,6,600 g,\"1 jar, 1 absorber, 1 label\",\n" +
			"p2,r1,plums,2025-06-03,1,100 g,,shelf\np3,r1,plums,2025-06-03,1,100 g,,attic\n",
		"draws.csv": "date,pack,quantity\n2025-06-05,p1,1\n",
	})
	for _, c := range []struct {
		q    figures.CountQuery
		want string
	}{
		{figures.CountQuery{}, "p3 1, p2 1, p1 5"},
		{figures.CountQuery{Place: exact.Some("Shelf")}, "p2 1"},
		{figures.CountQuery{Place: exact.Some("shelf"), Supplies: true}, "p2 1, jar 15, absorber 24, label 0"},
		{figures.CountQuery{Place: exact.Some("cellar"), Fresh: true}, "berries 8, plums 6, onions 1"},
	} {
		var list []string
		for _, n := range figures.ToCount(g, c.q) {
			books, _ := n.Books.Number()
			list = append(list, n.ID(g)+" "+books.String())
			if n.Pack >= 0 && n.Supply >= 0 || n.Supply >= 0 && n.Food >= 0 {
				t.Errorf("%+v is two things", n)
			}
		}
		if have := strings.Join(list, ", "); have != c.want {
			t.Errorf("%+v: %s, want %s", c.q, have, c.want)
		}
	}
}

// A run is traced to its machine and its electricity too, and what was bought on the
// ledger's very day to what it became.
func TestTraceOfARunAndOfTheDay(t *testing.T) {
	g := kitchenWith(t, "2025-06-10", nil)
	r, err := figures.Trace(g, figures.TraceQuery{Name: "r1"})
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]figures.Role{}
	for _, s := range r.Sources {
		found[s.Item] = s.For
	}
	if len(found) != 2 || found["plums"] != figures.InFood || found["box"] != figures.OfTheMachine || len(r.Bands) != 1 {
		t.Errorf("the run took %v, and electricity of %d bands", found, len(r.Bands))
	}
	if r, err = figures.Trace(g, figures.TraceQuery{Name: "g"}); err != nil || len(r.Lines) != 1 {
		t.Errorf("the receipt of the day: %+v (%v)", r, err)
	}
}

// What a machine cost is its price with the tax: it may bring 950 back of 900 and 100.
func TestResidualIsHeldToThePriceWithTax(t *testing.T) {
	for residual, odd := range map[string]int{"950": 0, "1000": 0, "1000.01": 1} {
		crate := map[string]string{"machines.csv": "machine,load_mass,cycles,residual\nbox,5 kg,100,\ncrate,5 kg,100," + residual + "\n"}
		told := 0
		v := figures.NewVetting(kitchenWith(t, "2025-06-11", crate).Records, func(o figures.Odd) {
			if o.What == figures.HighResidual {
				told++
			}
		})
		lines := strings.ReplaceAll(kitchen["receipts.csv"], "\n", ",\n")
		crate["receipts.csv"] = strings.Replace(lines, "price,\n", "price,tax\n", 1) + "z,2025-06-11,Mill Lane,machine,crate,,,900,100\n"
		v.Look(kitchenWith(t, "2025-06-11", crate).Records)
		if v.End(); told != odd {
			t.Errorf("a residual of %s is told %d times", residual, told)
		}
	}
}
