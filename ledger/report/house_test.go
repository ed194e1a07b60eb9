package report_test

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// A house makes up the ledger of a household: two machines that run side by
// side, blocks of price that last from one month into the next, both costings,
// batches, spoiled runs, losses, food and packs that are used, given away,
// spoiled and missing. Amounts are in thousandths.
type house struct {
	*rapid.T
	out    map[string]*strings.Builder
	today  exact.Date
	stock  map[string]int
	free   [2]exact.Date // from when a machine is
	packs  []housePack
	due    map[exact.Date][]func() // packing
	number int
}

type housePack struct {
	id   string
	left int
}

type houseFood struct {
	id, unit string
	whole    bool // counted in whole pieces
}

var houseFoods = []houseFood{{"broth", "L", false}, {"kale", "kg", false}, {"egg", "ea", true}, {"soup", "L", false}}

const (
	houseBegins = "2025-01-20"
	houseEnds   = "2025-05-10"
	houseHours  = 30 // of the longest run
)

// houses draws ledgers.
func houses() *rapid.Generator[map[string]string] {
	return rapid.Custom(func(t *rapid.T) map[string]string {
		h := &house{T: t, out: map[string]*strings.Builder{}, stock: map[string]int{}, due: map[exact.Date][]func(){}}
		h.basics()
		for h.today = date(houseBegins); h.today < date(houseEnds); h.today = h.today.AddDays(1) {
			h.day(h.today < date("2025-02-16"))
		}
		files := map[string]string{}
		for name, b := range h.out {
			files[name] = b.String()
		}
		return files
	})
}

// day is what happens on one: much in the first weeks, which have a month's
// end, and little later.
func (h *house) day(busy bool) {
	if busy && h.flip() {
		h.buy()
	}
	if busy && h.oneIn(4) {
		h.cook()
	}
	for m := range h.free {
		if busy && h.free[m] <= h.today && h.oneIn(2) {
			h.dry(m)
		}
	}
	for _, pack := range h.due[h.today] {
		pack()
	}
	if busy && h.flip() || h.oneIn(12) {
		h.eat()
	}
	if busy && h.oneIn(6) {
		h.eatFresh()
	}
	if h.oneIn(20) {
		h.count()
	}
}

func (h *house) between(low, high int) int { return rapid.IntRange(low, high).Draw(h.T, "n") }
func (h *house) flip() bool                { return h.between(0, 1) == 1 }
func (h *house) oneIn(n int) bool          { return h.between(1, n) == 1 }

func (h *house) row(file, format string, args ...any) {
	if h.out[file] == nil {
		h.out[file] = &strings.Builder{}
	}
	fmt.Fprintf(h.out[file], format+"\n", args...)
}

func (h *house) next(letter string) string {
	h.number++
	return fmt.Sprintf("%s%d", letter, h.number)
}

// milli writes thousandths, cents hundredths.
func milli(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }
func cents(n int) string { return fmt.Sprintf("%d.%02d", n/100, n%100) }

func (h *house) basics() {
	h.row("settings.csv", "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\ntariff,blocks\nhour_value,%s\ncosting,%s\nshare,%s\nhousehold_kwh_month,%d",
		cents(h.between(0, 1500)), rapid.SampledFrom([]string{"fifo", "average", "average"}).Draw(h.T, "costing"),
		rapid.SampledFrom([]string{"water", "mass", "trays"}).Draw(h.T, "share"), h.between(0, 20))
	h.row("tariffs.csv", "tariff,above_kwh,rate,tax\nblocks,,0.1013,20\nblocks,%d,0.2537,20", h.between(1, 60))
	h.row("foods.csv", "food,basis,density,piece_kg,serving,kcal,protein,fresh_days,keep_months\n"+
		"broth,volume,1.0217,,300 mL,36,2.52,3,12\nkale,mass,,,50 g,35,2.92,4,18\negg,count,,0.05,2 ea,143,12.56,21,9\nsoup,volume,1.03,,0.25 qt,40,1.1,2,6")
	h.row("supplies.csv", "supply,kind,uses,price\njar,jar,7,1.99\nlid,lid,1,0.17\noil,oil,3,10.00")
	h.row("machines.csv", "machine,cycles,residual,with\nd1,%d,%s,1 oil\nd2,%d,,", h.between(3, 12), cents(h.between(0, 9000)), h.between(3, 12))
	h.row("receipts.csv", "receipt,date,line,kind,item,count,size,price")
	for m := range h.free {
		h.free[m] = date(houseBegins)
		h.row("receipts.csv", "m%d,%v,1,machine,d%d,1,,%s", m+1, date(houseBegins).AddDays(m*h.between(0, 20)), m+1, cents(h.between(2000, 30000)))
	}
	h.row("receipts.csv", "s,%s,1,supply,jar,%d,1 ea,2.31\ns,%s,2,supply,oil,1,1 ea,9.10", houseBegins, h.between(1, 9), houseBegins)
	h.row("shelf.csv", "date,shop,item,size,price")
	for _, f := range houseFoods[:3] {
		for range h.between(0, 2) {
			h.row("shelf.csv", "%v,Mill,%s,1 %s,%s", date(houseBegins).AddDays(h.between(-5, 40)), f.id, f.unit, cents(h.between(50, 1900)))
		}
	}
	h.row("batches.csv", "batch,date,item,quantity,from,cost")
	h.row("runs.csv", "run,machine,start,end,kwh,hands,outcome")
	h.row("loads.csv", "run,item,quantity,trays,wet,dry,lost")
	h.row("packs.csv", "pack,run,item,date,count,each,with")
	h.row("draws.csv", "date,pack,item,quantity,reason")
	h.row("counts.csv", "date,pack,item,quantity")
}

func (h *house) buy() {
	f := houseFoods[h.between(0, 2)]
	n := h.between(500, 6000)
	if f.whole {
		n = 1000 * h.between(6, 30)
	}
	h.row("receipts.csv", "%s,%v,1,food,%s,1,%s %s,%s", h.next("r"), h.today, f.id, milli(n), f.unit, cents(h.between(10, 2500)))
	h.stock[f.id] += n
}

// some is a part of what is in hand of a food, in whole pieces where it has to
// be; 0 where there is none.
func (h *house) some(f houseFood) int {
	if h.stock[f.id] < 1000 {
		return 0
	}
	n := h.between(400, h.stock[f.id])
	if f.whole {
		n = n/1000*1000 + 1000*(1-min(n/1000, 1))
	}
	h.stock[f.id] -= n
	return n
}

func (h *house) cook() {
	broth, kale := h.some(houseFoods[0]), h.some(houseFoods[1])
	if broth == 0 || kale == 0 {
		h.stock["broth"] += broth
		h.stock["kale"] += kale
		return
	}
	h.row("batches.csv", `%s,%v,soup,%s L,"%s L broth, %s kg kale",%s`, h.next("b"), h.today, milli(broth+kale/2), milli(broth), milli(kale), cents(h.between(0, 300)))
	h.stock["soup"] += broth + kale/2
}

// dry loads a machine with one food or two, and packs them on the third day,
// when it is free again, unless the run spoils or the food is left to wait.
func (h *house) dry(machine int) {
	run, weighed, spoiled, loaded := h.next("c"), h.flip(), h.oneIn(5), false
	first, ready := h.between(0, 3), h.today.AddDays(3)
	for i := range h.between(1, 2) {
		f := houseFoods[(first+i)%len(houseFoods)]
		n := h.some(f)
		if n == 0 {
			continue
		}
		lost, weights := 0, ","
		if !f.whole && h.oneIn(3) {
			lost = n * h.between(1, 9) / 100
		}
		if weighed {
			weights = milli(n) + " kg," + milli(n*h.between(5, 30)/100) + " kg"
		}
		h.row("loads.csv", "%s,%s,%s %s,%d,%s,%s %s", run, f.id, milli(n), f.unit, h.between(1, 4), weights, milli(lost), f.unit)
		if loaded = true; !spoiled && !h.oneIn(6) {
			h.due[ready] = append(h.due[ready], func() { h.pack(run, f, n-lost) })
		}
	}
	if !loaded {
		return
	}
	outcome := "good"
	if spoiled {
		outcome = "spoiled"
	}
	hour, minute, length := h.between(0, 23), 2*h.between(0, 20)+machine, h.between(2, houseHours)
	h.row("runs.csv", "%s,d%d,%v %02d:%02d,%v %02d:%02d,%s,%dm,%s", run, machine+1, h.today, hour, minute,
		h.today.AddDays((hour+length)/24), (hour+length)%24, minute, milli(h.between(0, 40000)), h.between(0, 50), outcome)
	h.free[machine] = ready
}

// pack fills equal containers, and one with the rest.
func (h *house) pack(run string, f houseFood, n int) {
	one := 1
	if f.whole {
		one = 1000
	}
	count := h.between(1, 4)
	each := n / one / count * one
	for i, p := range []struct{ count, each int }{{count, each}, {1, n - count*each}} {
		if p.each == 0 {
			continue
		}
		id := fmt.Sprintf("%s-%s%d", run, f.id, i)
		h.row("packs.csv", `%s,%s,%s,%v,%d,%s %s,"1 jar, 1 lid"`, id, run, f.id, h.today, p.count, milli(p.each), f.unit)
		h.packs = append(h.packs, housePack{id, p.count})
	}
}

func (h *house) eat() {
	if len(h.packs) == 0 {
		return
	}
	p := &h.packs[h.between(0, len(h.packs)-1)]
	if p.left == 0 {
		return
	}
	n := h.between(1, p.left)
	p.left -= n
	h.row("draws.csv", "%v,%s,,%d,%s", h.today, p.id, n, rapid.SampledFrom([]string{"used", "used", "used", "given", "spoiled"}).Draw(h.T, "reason"))
}

func (h *house) eatFresh() {
	f := houseFoods[h.between(0, 3)]
	if n := h.some(f); n > 0 {
		h.row("draws.csv", "%v,,%s,%s %s,%s", h.today, f.id, milli(n), f.unit, rapid.SampledFrom([]string{"used", "given", "spoiled"}).Draw(h.T, "reason"))
	}
}

// count finds a container less than the books have, or food gone.
func (h *house) count() {
	if len(h.packs) > 0 && h.flip() {
		if p := &h.packs[h.between(0, len(h.packs)-1)]; p.left > 0 {
			p.left--
			h.row("counts.csv", "%v,%s,,%d", h.today, p.id, p.left)
		}
		return
	}
	f := houseFoods[h.between(0, 3)]
	if h.some(f) > 0 {
		h.row("counts.csv", "%v,,%s,%s %s", h.today, f.id, milli(h.stock[f.id]), f.unit)
	}
}
