package ledgertest

import (
	"fmt"
	"time"
)

// A cycle is a run being made up, with all that belongs to it.
type cycle struct {
	*generator
	run, receipt, machine string
	number                int
	bought                time.Time
	loads                 []load
	end                   time.Time // local clock
}

type load struct {
	food
	amount int    // thousandths of the basis
	line   string // of the receipt
}

// A pack is a row of containers.
type pack struct {
	id    string
	count int
}

var phases = []struct {
	name      string
	low, high int // minutes
	watts     int
}{
	{"freezing", 480, 560, 610}, {"evacuation", 15, 30, 1150}, {"primary", 840, 1440, 1240},
	{"secondary", 300, 480, 960}, {"hold", 20, 60, 420}, {"defrost", 60, 120, 95},
}

// foods chooses what to dry; second may be nothing.
func (c *cycle) foods() (first, second food) {
	switch {
	case c.number%20 == 11:
		return soup, food{}
	case c.number%5 == 3:
		at := c.between(0, len(foods)-3) // neither the last but one nor soup
		return foods[at], foods[(at+1)%(len(foods)-1)]
	}
	return foods[c.number%(len(foods)-1)], food{}
}

// buy writes the receipt of 4 lines, its last the printed total, and every
// tenth time a coupon for the whole.
func (c *cycle) buy(first, second food) {
	shop, total := pick(c.generator, shops), 0
	line := func(number int, rest string, args ...any) {
		c.row("receipts.csv", "%s,%s,%s,%d,%s", c.receipt, day(c.bought), shop, number, fmt.Sprintf(rest, args...))
	}
	buyFood := func(number int, f food) {
		price := max(1, f.price*c.between(55, 110)/100)
		amount := f.load * c.between(80, 115) / 100
		if f.unit == "ea" {
			amount -= amount % 1000
		}
		off := c.between(0, 1) * c.between(0, 20)
		amountOf := (amount*price+500)/1000 - off
		total += amountOf
		line(number, "food,%s,%s,1 %s,%s,%s,,,", f.id, thousandths(amount), f.unit, cents(price), cents(off))
		c.load(f, amount*(100-f.refuse)/100, number)
	}
	if first.id == soup.id {
		buyFood(1, leek)
		c.cook(soup)
	} else {
		buyFood(1, first)
	}
	if second.id != "" {
		buyFood(2, second)
	} else {
		spent := c.between(150, 2500)
		total += spent
		line(2, "other,odds and ends,,,%s,,,,", cents(spent))
	}
	total += c.supply(line)
	if c.number%10 == 0 {
		total -= 50
		line(5, "discount,,,,0.50,,,,coupon")
	}
	line(4, "total,,,,%s,,,,", cents(total))
}

// supply buys a supply in turn, enough for the cycles until its next turn.
func (c *cycle) supply(line func(int, string, ...any)) (total int) {
	s := [...]struct {
		id          string
		size, price int
	}{{"absorber", 80, 1250}, {"lid", 80, 1490}, {"jar", 6, 1090}, {"oil", 1, 1550}}[c.number%4]
	line(3, "supply,%s,1,%d ea,%s,,,,", s.id, s.size, cents(s.price))
	return s.price
}

// load keeps what is to be dried: a little less than was bought.
func (c *cycle) load(f food, amount, line int) {
	if f.unit == "ea" {
		amount -= amount % 1000
	} else {
		amount -= c.between(0, 20)
	}
	c.loads = append(c.loads, load{f, amount, fmt.Sprint(line)})
}

// cook turns the leeks just bought into soup.
func (c *cycle) cook(f food) {
	leeks := c.loads[len(c.loads)-1]
	litres := leeks.amount * 3
	c.row("batches.csv", `K%s,%s,%s,%s L,"%s kg leek",0.40,`, c.receipt[1:], day(c.bought), f.id, thousandths(litres), thousandths(leeks.amount))
	c.loads[len(c.loads)-1] = load{f, litres, ""}
}

// dry writes the run, its phases and loads, and a meter log if metered.
func (c *cycle) dry(metered bool) {
	begin := c.bought.Add(time.Duration(c.between(6*60, 20*60)) * time.Minute)
	c.end = begin
	for step, p := range phases {
		minutes, watts, kwh := c.between(p.low, p.high), "", ""
		switch c.between(0, 3) {
		case 0:
			kwh = thousandths(p.watts * minutes / 60)
		case 1:
		default:
			watts = fmt.Sprint(p.watts * c.between(90, 110) / 100)
		}
		c.row("phases.csv", "%s,%d,%s,%dh%02dm,%s,%s", c.run, step+1, p.name, minutes/60, minutes%60, watts, kwh)
		c.end = c.end.Add(time.Duration(minutes) * time.Minute)
	}
	kwh, outcome := "", ""
	if c.between(0, 1) == 0 {
		kwh = thousandths(c.between(17000, 29000))
	}
	c.row("runs.csv", "%s,%s,%s,,,%s,%dm,%s,", c.run, c.machine, begin.Format("2006-01-02 15:04"), kwh, c.between(20, 75), outcome)
	for _, l := range c.loads {
		wet := l.amount * l.grams / 1000
		receipt, line, lost := "", "", ""
		if l.id == named {
			receipt, line = c.receipt, l.line
		}
		if c.number%30 == 4 {
			lost = fmt.Sprintf("%s %s", thousandths(1000), l.unit)
		}
		c.row("loads.csv", "%s,%s,%s %s,%s,%s,%d,%d g,%d g,%s", c.run, l.id, thousandths(l.amount), l.unit,
			receipt, line, 5/len(c.loads), wet, wet*l.solids*103/10000, lost)
	}
	if metered {
		c.meter(begin)
	}
}

// meter writes a plug meter's log of the run, a sample every 10 minutes.
func (c *cycle) meter(begin time.Time) {
	name := "meter/" + c.run + ".csv"
	c.row(name, "time,watts")
	zone, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		panic(err) // the zone's data are part of every Go installation
	}
	y, m, d := begin.Date()
	first := time.Date(y, m, d, begin.Hour(), begin.Minute(), 0, 0, zone)
	for at := time.Duration(0); at <= c.end.Sub(begin); at += 10 * time.Minute {
		c.row(name, "%s,%d.%d", first.Add(at).Format("2006-01-02 15:04:05"), c.between(300, 1300), c.between(0, 9))
	}
}

// pack writes four rows of containers on the day after the run's end.
func (c *cycle) pack() []pack {
	var packs []pack
	for i := range 4 {
		l := c.loads[i*len(c.loads)/4]
		p := pack{fmt.Sprintf("%s-%c", c.run[1:], 'a'+i), c.between(2, 4)}
		each := l.amount / 4 * len(c.loads) / p.count
		if l.unit == "ea" {
			each -= each % 1000
		}
		c.row("packs.csv", `%s,%s,%s,%s,%d,%s %s,%d g,"1 jar, 1 lid, 1 absorber",,shelf %d,`, p.id, c.run, l.id,
			day(c.end.AddDate(0, 0, 1)), p.count, thousandths(each), l.unit, each*l.grams/1000*l.solids*103/10000, c.between(1, 6))
		packs = append(packs, p)
	}
	return packs
}

// eat draws from the packs of the run before, and now and then takes stock.
func (c *cycle) eat(before []pack) {
	for i, p := range before {
		reason := [...]string{"used", "used", "used", "", "given", "spoiled"}[c.between(0, 5)]
		taken := c.between(1, p.count)
		c.row("draws.csv", "%s,%s,,%d,%s,", day(c.end), p.id, taken, reason)
		if i == 3 && c.number%7 == 0 {
			c.row("counts.csv", "%s,%s,,%d,", day(c.end.AddDate(0, 0, 1)), p.id, c.between(0, p.count-taken))
		}
	}
}
