package ledgertest

import (
	"fmt"
	"time"
)

// A food is a food with what making up records of it takes. Amounts are in
// thousandths of the basis: mL, g or thousandths of a piece.
type food struct {
	id, basis, unit string
	row             string // the rest of its row in foods.csv
	refuse          int    // %
	price           int    // cents per L, kg or piece
	load            int    // usual load, thousandths
	grams           int    // weight of one L, kg or piece
	solids          int    // % of its weight
}

var foods = []food{
	{"broth", "volume", "L", "Bone broth,volume,1.01,,92.15,0,250 mL,36,2.52,3,90,240,boil before serving", 0, 240, 7000, 1010, 8},
	{"strawberry", "mass", "kg", "Strawberries,mass,0.62,,90.95,6,150 g,32,0.67,3,300,180,", 6, 420, 4500, 1000, 9},
	{"egg", "count", "ea", "Eggs,count,,0.05,76.15,0,2 ea,143,12.56,21,,120,cook before eating", 0, 32, 80000, 50, 24},
	{"leek", "mass", "kg", "Leeks,mass,0.38,,83,40,120 g,61,1.5,7,300,240,", 40, 310, 4000, 1000, 17},
	{"plum", "mass", "kg", "Plums,mass,0.7,,87.23,10,100 g,46,0.7,6,300,180,", 10, 350, 4200, 1000, 13},
	{"pea", "mass", "kg", `"Peas, shelled",mass,0.61,,78.86,0,100 g,81,5.42,4,300,240,`, 0, 380, 4000, 1000, 21},
	{"mushroom", "mass", "kg", "Mushrooms,mass,0.3,,92.45,3,80 g,22,3.09,4,200,240,", 3, 690, 3500, 1000, 8},
	{"herbs", "mass", "kg", "Garden herbs,mass,0.1,,86,20,10 g,23,2.7,3,,360,", 20, 1450, 1500, 1000, 14},
	{"soup", "volume", "L", "Leek soup,volume,1.02,,88,0,300 mL,48,1.4,2,90,240,reheat to boiling", 0, 0, 6000, 1020, 12},
}

// soup is made in the kitchen from leeks, and never bought.
var soup, leek = foods[8], foods[3]

// named is the food whose loads always name their lot.
const named = "herbs"

var shops = []string{"Hofladen Brandtner", `"Markt, Gasse 4"`, "Krämerei Sonnleit", "Genossenschaft Au"}

// basics makes settings, foods, supplies, machines and tariffs.
func (g *generator) basics(machines int) {
	g.row("settings.csv", "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\ntariff,day-night\nhour_value,9.50")
	g.row("foods.csv", "food,name,basis,density,piece_kg,water,refuse,serving,kcal,protein,fresh_days,frozen_days,keep_months,caution")
	for _, f := range foods {
		g.row("foods.csv", "%s,%s", f.id, f.row)
	}
	g.row("supplies.csv", `supply,name,kind,uses,capacity,price
jar,Jar of 1 L,jar,20,1 L,1.90
lid,Lid,lid,1,,0.22
absorber,Absorber of 300 cc,absorber,1,300 cc,0.18
oil,Pump oil,oil,25,,16.00`)
	g.row("machines.csv", "machine,name,trays,load_volume,load_mass,cycles,residual,with")
	g.row("wattage.csv", "machine,phase,watts")
	for m := range machines {
		id := fmt.Sprintf("dryer-%d", m+1)
		g.row("machines.csv", "%s,Dryer %d,5,8 L,8 kg,1500,400,1 oil", id, m+1)
		for _, p := range phases {
			g.row("wattage.csv", "%s,%s,%d", id, p.name, p.watts)
		}
	}
	g.tariffs()
	g.row("receipts.csv", "receipt,date,shop,line,kind,item,count,size,price,discount,tax,on,note")
	for m := range machines {
		g.row("receipts.csv", "M%d,%s,Werkhof Lanz,1,machine,dryer-%d,,,2890.00,,,,", m+1, day(start), m+1)
	}
	for name, header := range headers {
		g.row(name, header)
	}
}

// headers are those of the files that cycles fill.
var headers = map[string]string{
	"batches.csv": "batch,date,item,quantity,from,cost,note",
	"runs.csv":    "run,machine,start,end,tariff,kwh,hands,outcome,note",
	"phases.csv":  "run,step,phase,duration,watts,kwh",
	"loads.csv":   "run,item,quantity,receipt,line,trays,wet,dry,lost",
	"packs.csv":   "pack,run,item,date,count,each,dry,with,best_by,place,cost",
	"draws.csv":   "date,pack,item,quantity,reason,note",
	"counts.csv":  "date,pack,item,quantity,note",
}

// tariffs makes one of day and night with seasons, new prices every year, and
// its holidays.
func (g *generator) tariffs() {
	g.row("tariffs.csv", "tariff,from,months,days,start,end,above_kwh,rate,tax")
	g.row("holidays.csv", "tariff,date")
	for year := range 11 {
		from, rate := start.AddDate(year, 0, 0), 2000+year*75
		for _, band := range []struct {
			months, days, clock string
			percent             int
		}{
			{"", "hol", ",", 70}, {"", "sat,sun", ",", 70},
			{"11-4", "mon-fri", "17:00,20:00", 130}, {"5-10", "mon-fri", "11:00,14:00", 90},
			{"", "", "22:00,6:00", 60}, {"", "", ",", 100},
		} {
			g.row("tariffs.csv", `day-night,%s,%s,"%s",%s,,0.%06d,20`, day(from), band.months, band.days, band.clock, rate*band.percent)
		}
		for _, d := range []string{"01-01", "05-01", "10-26", "12-25", "12-26"} {
			g.row("holidays.csv", "day-night,%d-%s", from.Year(), d)
		}
	}
}

// shelf makes a price of every food in every month, and some offers.
func (g *generator) shelf() {
	g.row("shelf.csv", "date,shop,item,size,price,terms,form,makes,note")
	for month := range 120 {
		date := start.AddDate(0, month, 0)
		for _, f := range foods {
			if f.price == 0 {
				continue
			}
			at := date.Add(time.Duration(g.between(0, 20)) * 24 * time.Hour)
			g.row("shelf.csv", "%s,%s,%s,1 %s,%s,regular,,,", day(at), pick(g, shops), f.id, f.unit, cents(f.price*g.between(90, 130)/100))
			if g.between(0, 3) == 0 {
				g.row("shelf.csv", "%s,%s,%s,1 %s,%s,offer,,,", day(at), pick(g, shops), f.id, f.unit, cents(f.price*g.between(55, 80)/100))
			}
		}
	}
}
