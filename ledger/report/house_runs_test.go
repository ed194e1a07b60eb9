package report_test

import (
	"math/big"
	"slices"
	"strings"
	"time"
)

// The twin's runs and packs, and what leaves them.

// dry loads a run, bills it, shares what its foods have in common and takes off
// what was lost.
func (w *houseTwin) dry(r map[string]string) {
	run := &runTwin{id: r["run"], machine: r["machine"], kwh: rat(r["kwh"]), spoiled: r["outcome"] == "spoiled"}
	run.start, _ = time.ParseInLocation("2006-01-02 15:04", r["start"], vienna)
	end, _ := time.ParseInLocation("2006-01-02 15:04", r["end"], vienna)
	var loads []map[string]string
	var food, weights []*big.Rat
	for _, l := range w.rows["loads.csv"] {
		if l["run"] == run.id {
			loads, food = append(loads, l), append(food, w.take(l["item"], number(l["quantity"])))
		}
	}
	weights = w.weights(loads)
	common := costsTwin{twinPower: w.bill(run.start, end, run.kwh), twinWear: w.use(run.machine, count(1), false), twinSupplies: new(big.Rat),
		twinLabour: posted(quo(mul(rat(strings.TrimSuffix(r["hands"], "m")), rat(w.setting("hour_value"))), count(60)))}
	if run.machine == "d1" {
		common[twinSupplies] = w.use("oil", count(1), true)
	}
	var shares [twinElements][]*big.Rat
	for e := twinPower; e < twinElements; e++ {
		shares[e] = portions(common[e], weights)
	}
	month, all := w.of(run.start), new(big.Rat)
	month.runs++
	for _, weight := range weights {
		all = add(all, weight)
	}
	for i, l := range loads {
		item := &itemTwin{food: l["item"], loaded: number(l["quantity"]), share: quo(weights[i], all)}
		for e := range twinElements {
			c := food[i]
			if e != twinFood {
				c = shares[e][i]
			}
			item.lost[e] = posted(quo(mul(c, number(l["lost"])), item.loaded))
			if run.spoiled {
				item.lost[e] = c
			}
			item.good[e] = sub(c, item.lost[e])
		}
		month.gone, month.wear = add(month.gone, item.lost.sum()), add(month.wear, item.lost[twinWear])
		w.earn(run.machine, sub(item.lost[twinWear], item.lost.sum()))
		w.spread(run, item)
		run.items = append(run.items, item)
	}
	w.runs = append(w.runs, run)
}

// weights are what loads share by: the way that the settings name, else water,
// mass and trays in turn, if all loads have it.
func (w *houseTwin) weights(loads []map[string]string) []*big.Rat {
	ways := map[string]func(l map[string]string) *big.Rat{
		"water": func(l map[string]string) *big.Rat {
			if l["wet"] == "" {
				return nil
			}
			return sub(number(l["wet"]), number(l["dry"]))
		},
		"mass": func(l map[string]string) *big.Rat {
			if l["wet"] != "" {
				return number(l["wet"])
			}
			return w.mass(l["item"], number(l["quantity"]))
		},
		"trays": func(l map[string]string) *big.Rat { return rat(l["trays"]) },
	}
	for _, way := range []string{w.setting("share"), "water", "mass", "trays"} {
		var list []*big.Rat
		sum := new(big.Rat)
		for _, l := range loads {
			if weight := ways[way](l); weight != nil {
				list, sum = append(list, weight), add(sum, weight)
			}
		}
		if len(list) == len(loads) && sum.Sign() > 0 {
			return list
		}
	}
	panic("nothing to share by")
}

// mass is what an amount of a food weighs, in kg.
func (w *houseTwin) mass(food string, n *big.Rat) *big.Rat {
	f := w.row("foods.csv", "food", food)
	switch f["basis"] {
	case "volume":
		return mul(n, rat(f["density"]))
	case "count":
		return mul(n, rat(f["piece_kg"]))
	}
	return n
}

// bill prices a run's energy, even from start to end and cut at the month's
// end, in blocks of what the household and all earlier runs used.
func (w *houseTwin) bill(start, end time.Time, kwh *big.Rat) *big.Rat {
	bands := w.rows["tariffs.csv"]
	edge, cost := rat(bands[1]["above_kwh"]), new(big.Rat)
	for from := start; from.Before(end); {
		to := time.Date(from.Year(), from.Month()+1, 1, 0, 0, 0, 0, vienna)
		if end.Before(to) {
			to = end
		}
		part := quo(mul(kwh, count(int(to.Sub(from)/time.Minute))), count(int(end.Sub(start)/time.Minute)))
		before := rat(w.setting("household_kwh_month"))
		if u := w.used[monthKey(from)]; u != nil {
			before = add(before, u)
		} else {
			w.used[monthKey(from)] = new(big.Rat)
		}
		cheap := sub(edge, before)
		if cheap.Sign() < 0 {
			cheap = new(big.Rat)
		}
		cheap = least(cheap, part)
		cost = add(cost, add(mul(cheap, rat(bands[0]["rate"])), mul(sub(part, cheap), rat(bands[1]["rate"]))))
		w.used[monthKey(from)] = add(w.used[monthKey(from)], part)
		from = to
	}
	return posted(mul(cost, big.NewRat(12, 10)))
}

// spread splits the good cost of a run's food over its packs, whatever their
// day, by what they make.
func (w *houseTwin) spread(run *runTwin, item *itemTwin) {
	var weights []*big.Rat
	for _, p := range w.rows["packs.csv"] {
		if p["run"] != run.id || p["item"] != item.food {
			continue
		}
		pack := &packTwin{id: p["pack"], food: item.food, machine: run.machine, day: dayOf(p["date"]), each: number(p["each"]), count: floor(rat(p["count"]))}
		weights, item.packs = append(weights, mul(pack.each, count(pack.count))), append(item.packs, pack)
	}
	if weights == nil {
		return
	}
	for e := range twinElements {
		for i, part := range portions(item.good[e], weights) {
			item.packs[i].share[e] = part
		}
	}
}

// pack fills the containers of a pack.
func (w *houseTwin) pack(row map[string]string) {
	for _, run := range w.runs {
		for _, item := range run.items {
			for _, p := range item.packs {
				if p.id == row["pack"] {
					p.own = add(w.use("jar", count(p.count), true), w.use("lid", count(p.count), true))
					w.packs = append(w.packs, p)
				}
			}
		}
	}
}

func (w *houseTwin) draw(d map[string]string) {
	if d["pack"] == "" {
		cost := w.take(d["item"], number(d["quantity"]))
		if month := w.of(dayOf(d["date"])); d["reason"] == "spoiled" {
			month.gone = add(month.gone, cost)
			w.earn("", sub(new(big.Rat), cost))
		}
		return
	}
	w.leave(d["pack"], floor(rat(d["quantity"])), d["reason"], dayOf(d["date"]))
}

// leave takes containers of a pack. What is used has saved what the shelf asks
// on the day less its cost, if that is known; wear counts of all but gifts.
func (w *houseTwin) leave(id string, n int, reason string, day time.Time) {
	p := w.packs[slices.IndexFunc(w.packs, func(p *packTwin) bool { return p.id == id })]
	cost, wear := p.leaving(p.all(), p.gone, p.gone+n), p.leaving(p.share[twinWear], p.gone, p.gone+n)
	p.gone += n
	month := w.of(day)
	switch reason {
	case "given":
		return
	case "used":
		if price := w.shelf(p.food, day); price != nil {
			saved := sub(mul(price, mul(p.each, count(n))), cost)
			month.saved = add(month.saved, saved)
			w.earn(p.machine, saved)
		}
	default:
		month.gone = add(month.gone, cost)
		w.earn(p.machine, sub(new(big.Rat), cost))
	}
	month.wear = add(month.wear, wear)
	w.earn(p.machine, wear)
}

func (w *houseTwin) earn(machine string, sum *big.Rat) {
	w.earns[machine] = add(w.earns[machine], sum)
}

// count draws what is missing.
func (w *houseTwin) count(c map[string]string) {
	day := dayOf(c["date"])
	if c["pack"] != "" {
		p := w.packs[slices.IndexFunc(w.packs, func(p *packTwin) bool { return p.id == c["pack"] })]
		w.leave(p.id, p.count-p.gone-floor(rat(c["quantity"])), "missing", day)
		return
	}
	if n := sub(w.foods[c["item"]].left(), number(c["quantity"])); n.Sign() > 0 {
		month := w.of(day)
		cost := w.take(c["item"], n)
		month.gone = add(month.gone, cost)
		w.earn("", sub(new(big.Rat), cost))
	}
}
