package report_test

import (
	"encoding/csv"
	"maps"
	"math/big"
	"slices"
	"strings"
	"time"
)

// A twin of a household's ledger: it reads the CSV text by itself and follows
// every event in fractions of math/big, slowly and plainly. It has only what
// houses makes up, and no code of ours but the arithmetic of the other twin.

type houseTwin struct {
	rows   map[string][]map[string]string // of each file
	foods  map[string]*poolTwin
	lots   map[string][]*lotTwin   // of supplies and machines
	month  map[string]*monthTwin   // by 2025-01
	earns  map[string]*big.Rat     // of machines, net and before wear; "": of food that none dried
	used   map[string]*big.Rat     // kWh of runs by month
	making map[string][]*batchTwin // of each food
	runs   []*runTwin
	packs  []*packTwin
}

type lotTwin struct {
	day                          time.Time
	bought, left, cost, residual *big.Rat
}

// A poolTwin is what is in hand of a food; under average costing cost is that
// of all of it, else each lot has its own.
type poolTwin struct {
	lots []*lotTwin
	cost *big.Rat
}

type monthTwin struct {
	saved, gone, wear *big.Rat
	runs              int
}

type batchTwin struct {
	day   time.Time
	made  *big.Rat
	parts map[string]*big.Rat
}

// The elements of a cost, in the order of reports.
const (
	twinFood = iota
	twinPower
	twinSupplies
	twinWear
	twinLabour
	twinElements
)

type costsTwin [twinElements]*big.Rat

func (c costsTwin) sum() *big.Rat {
	sum := new(big.Rat)
	for _, part := range c {
		sum.Add(sum, part)
	}
	return sum
}

type runTwin struct {
	id, machine string
	start       time.Time
	kwh         *big.Rat
	spoiled     bool
	items       []*itemTwin
}

type itemTwin struct {
	food       string
	loaded     *big.Rat
	share      *big.Rat // of the run
	good, lost costsTwin
	packs      []*packTwin
}

type packTwin struct {
	id, food    string
	machine     string
	day         time.Time
	each        *big.Rat
	count, gone int
	share       costsTwin // of its run's cost
	own         *big.Rat  // its jars and lids
}

// all is what a pack costs.
func (p *packTwin) all() *big.Rat { return add(p.share.sum(), p.own) }

// leaving is what the containers from one to another cost, of an amount that
// all of them share.
func (p *packTwin) leaving(of *big.Rat, from, to int) *big.Rat {
	equal := slices.Repeat([]*big.Rat{count(1)}, p.count)
	sum := new(big.Rat)
	for _, part := range portions(of, equal)[from:to] {
		sum.Add(sum, part)
	}
	return sum
}

// portions splits money over weights: each part rounded down at 6 decimals, the
// steps that are left to the largest fractions, the earlier on a tie.
func portions(amount *big.Rat, weights []*big.Rat) []*big.Rat {
	sum, step := new(big.Rat), big.NewRat(1, 1_000_000)
	for _, w := range weights {
		sum.Add(sum, w)
	}
	parts, rests, order := make([]*big.Rat, len(weights)), make([]*big.Rat, len(weights)), make([]int, len(weights))
	left := new(big.Rat).Set(amount)
	for i, w := range weights {
		fair := quo(mul(amount, w), sum)
		parts[i] = mul(count(floor(quo(fair, step))), step)
		rests[i], order[i] = sub(fair, parts[i]), i
		left.Sub(left, parts[i])
	}
	slices.SortStableFunc(order, func(a, b int) int { return rests[b].Cmp(rests[a]) })
	for _, i := range order {
		if left.Sign() > 0 {
			parts[i] = add(parts[i], step)
			left.Sub(left, step)
		}
	}
	return parts
}

// posted rounds money as the ledger posts euros.
func posted(r *big.Rat) *big.Rat { return halfEven(r, 6) }

var vienna = time.FixedZone("CET", 3600) // until the end of March

func dayOf(s string) time.Time {
	d, err := time.ParseInLocation(time.DateOnly, s[:10], vienna)
	if err != nil {
		panic(err)
	}
	return d
}

func monthKey(t time.Time) string { return t.Format("2006-01") }

// number is the first word of "1.5 kg"; nothing is 0.
func number(s string) *big.Rat {
	if s == "" {
		return new(big.Rat)
	}
	return rat(strings.Fields(s)[0])
}

func readHouse(files map[string]string) *houseTwin {
	w := &houseTwin{rows: map[string][]map[string]string{}, foods: map[string]*poolTwin{}, lots: map[string][]*lotTwin{},
		month: map[string]*monthTwin{}, earns: map[string]*big.Rat{"": new(big.Rat), "d1": new(big.Rat), "d2": new(big.Rat)}, used: map[string]*big.Rat{}, making: map[string][]*batchTwin{}}
	for name, text := range files {
		r := csv.NewReader(strings.NewReader(text))
		r.FieldsPerRecord = -1
		all, err := r.ReadAll()
		if err != nil {
			panic(err)
		}
		for _, cells := range all[1:] {
			row := map[string]string{}
			for i, c := range cells {
				row[all[0][i]] = c
			}
			w.rows[name] = append(w.rows[name], row)
		}
	}
	for _, f := range w.rows["foods.csv"] {
		w.foods[f["food"]] = &poolTwin{cost: new(big.Rat)}
	}
	return w
}

// setting returns one by its name.
func (w *houseTwin) setting(name string) string {
	for _, row := range w.rows["settings.csv"] {
		if row["setting"] == name {
			return row["value"]
		}
	}
	return ""
}

func (w *houseTwin) row(file, key, id string) map[string]string {
	for _, row := range w.rows[file] {
		if row[key] == id {
			return row
		}
	}
	panic("no " + id + " in " + file)
}

func (w *houseTwin) of(day time.Time) *monthTwin {
	key := monthKey(day)
	if w.month[key] == nil {
		w.month[key] = &monthTwin{saved: new(big.Rat), gone: new(big.Rat), wear: new(big.Rat)}
	}
	return w.month[key]
}

// live goes through all days.
func (w *houseTwin) live() {
	for day := dayOf(houseBegins).AddDate(0, 0, -1); !day.After(dayOf(houseEnds)); day = day.AddDate(0, 0, 1) {
		w.each("receipts.csv", "date", day, w.buy)
		w.each("batches.csv", "date", day, w.cook)
		today := []map[string]string{}
		w.each("runs.csv", "start", day, func(r map[string]string) { today = append(today, r) })
		slices.SortStableFunc(today, func(a, b map[string]string) int { return strings.Compare(a["start"], b["start"]) })
		for _, r := range today {
			w.dry(r)
		}
		w.each("packs.csv", "date", day, w.pack)
		w.each("draws.csv", "date", day, w.draw)
		w.each("counts.csv", "date", day, w.count)
	}
}

func (w *houseTwin) each(file, column string, day time.Time, do func(map[string]string)) {
	for _, row := range w.rows[file] {
		if dayOf(row[column]).Equal(day) {
			do(row)
		}
	}
}

func (w *houseTwin) buy(r map[string]string) {
	size, price := number(r["size"]), rat(r["price"])
	switch r["kind"] {
	case "food":
		w.put(r["item"], dayOf(r["date"]), size, price)
	case "machine":
		m := w.row("machines.csv", "machine", r["item"])
		w.lots[r["item"]] = append(w.lots[r["item"]], &lotTwin{dayOf(r["date"]), rat(m["cycles"]), rat(m["cycles"]), price, number(m["residual"])})
	default:
		n := mul(rat(r["count"]), number(w.row("supplies.csv", "supply", r["item"])["uses"]))
		w.lots[r["item"]] = append(w.lots[r["item"]], &lotTwin{dayOf(r["date"]), n, n, halfAway(mul(price, rat(r["count"]))), new(big.Rat)})
	}
}

// halfAway rounds at cents, as a till does.
func halfAway(r *big.Rat) *big.Rat {
	return quo(count(floor(add(mul(r, count(100)), big.NewRat(1, 2)))), count(100))
}

func (w *houseTwin) put(food string, day time.Time, n, cost *big.Rat) {
	p := w.foods[food]
	p.lots, p.cost = append(p.lots, &lotTwin{day, n, n, cost, new(big.Rat)}), add(p.cost, cost)
}

// left is what there is of a food.
func (p *poolTwin) left() *big.Rat {
	sum := new(big.Rat)
	for _, l := range p.lots {
		sum.Add(sum, l.left)
	}
	return sum
}

// take draws food, which there is.
func (w *houseTwin) take(food string, n *big.Rat) *big.Rat {
	p, average := w.foods[food], w.setting("costing") == "average"
	cost := new(big.Rat)
	if average {
		cost = posted(quo(mul(p.cost, n), p.left()))
	}
	for _, l := range p.lots {
		part := least(n, l.left)
		if part.Sign() == 0 {
			continue
		}
		if !average {
			c := posted(quo(mul(l.cost, part), l.left))
			cost, l.cost = add(cost, c), sub(l.cost, c)
		}
		l.left, n = sub(l.left, part), sub(n, part)
	}
	p.cost = sub(p.cost, cost)
	return cost
}

// use draws on a supply or a machine; what its lots do not have is charged at
// list price, of a machine not at all.
func (w *houseTwin) use(what string, n *big.Rat, supply bool) *big.Rat {
	cost := new(big.Rat)
	for _, l := range w.lots[what] {
		part, wears := least(n, l.left), sub(l.cost, l.residual)
		if part.Sign() == 0 {
			continue
		}
		if wears.Sign() < 0 {
			wears = new(big.Rat)
		}
		c := posted(quo(mul(wears, part), l.left))
		l.left, l.cost, n, cost = sub(l.left, part), sub(l.cost, c), sub(n, part), add(cost, c)
	}
	if supply {
		s := w.row("supplies.csv", "supply", what)
		cost = add(cost, posted(quo(mul(rat(s["price"]), n), rat(s["uses"]))))
	}
	return cost
}

func (w *houseTwin) cook(b map[string]string) {
	cost, parts := posted(rat(b["cost"])), map[string]*big.Rat{}
	for _, part := range strings.Split(b["from"], ", ") {
		words := strings.Fields(part)
		parts[words[2]] = rat(words[0])
		cost = add(cost, w.take(words[2], rat(words[0])))
	}
	made := number(b["quantity"])
	w.put(b["item"], dayOf(b["date"]), made, cost)
	w.making[b["item"]] = append(w.making[b["item"]], &batchTwin{dayOf(b["date"]), made, parts})
}

// shelf is the price of a unit on a day: the newest by then, else the next; of
// what no shop sells, what its latest batch took.
func (w *houseTwin) shelf(food string, day time.Time) *big.Rat {
	var best map[string]string
	for _, row := range w.rows["shelf.csv"] {
		if row["item"] != food {
			continue
		}
		at, later := dayOf(row["date"]), dayOf(row["date"]).After(day)
		switch {
		case best == nil, later && dayOf(best["date"]).After(day) && !at.After(dayOf(best["date"])), !later && !at.Before(dayOf(best["date"])),
			!later && dayOf(best["date"]).After(day):
			best = row
		}
	}
	if best != nil {
		return rat(best["price"])
	}
	return w.batchPrice(food, day)
}

// batchPrice values a unit at what its latest batch by a day took, else its
// first one.
func (w *houseTwin) batchPrice(food string, day time.Time) *big.Rat {
	var latest *batchTwin
	for _, b := range w.making[food] {
		if latest == nil || !b.day.After(day) {
			latest = b
		}
	}
	if latest == nil {
		return nil
	}
	sum := new(big.Rat)
	for _, part := range slices.Sorted(maps.Keys(latest.parts)) {
		price := w.shelf(part, day)
		if price == nil {
			return nil
		}
		sum = add(sum, mul(price, latest.parts[part]))
	}
	return quo(sum, latest.made)
}
