package entry

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// suggestPack offers the run that awaits packing, its food, and containers like
// those of the food's last pack.
func suggestPack(o offer, rec *ledger.Records, cells map[string]string, day exact.Date) (why string) {
	if run := unpackedRun(rec); mayBeOf(rec, run, cells) {
		o["run"] = run
	}
	run := given(cells, o, "run")
	if load := unpackedLoad(rec, run); load != nil {
		o["item"] = load.Item
	} else if loaded := loadedIn(rec, run); len(loaded) == 1 {
		o["item"] = loaded[0]
	}
	o["pack"] = NextPack(rec, run, day)
	item := given(cells, o, "item")
	if last := lastPack(rec, item); last != nil {
		o["each"], o["with"], o["place"] = last.Each.String(), usesText(last.With), last.Place
		if last.Dry.Given() {
			o["dry"] = last.Dry.String()
		}
		why = "as pack " + last.ID
	}
	if load := loadOf(rec, run, item); load != nil {
		shareLoad(o, given(cells, o, "each"), load)
		if isPacked(rec, run, item) {
			delete(o, "count") // how much is left nobody can say
		}
	}
	return why
}

// mayBeOf reports whether a pack with these cells can be of a run: not when it
// has a cost of its own, as opening stock does, or is of a food that the run
// was not loaded with.
func mayBeOf(rec *ledger.Records, run string, cells map[string]string) bool {
	item := cells["item"]
	return cells["cost"] == "" && (item == "" || slices.Contains(loadedIn(rec, run), item))
}

// shareLoad offers how many containers a load fills, and the dry weight of
// one where the whole was weighed.
func shareLoad(o offer, each string, load *ledger.Load) {
	q, err := exact.ParseQuantity(each)
	if err != nil || q.Sign() <= 0 {
		return
	}
	made, err := load.Quantity.Sub(lostOf(load))
	if err != nil || made.Sign() <= 0 || made.Unit().Dimension() != q.Unit().Dimension() {
		return
	}
	count := made.Base().Number().Over(q.Base().Number())
	if n := count.Round(0, exact.HalfAway); n.Sign() > 0 {
		o["count"] = n.String()
	}
	if load.Dry.Sign() > 0 {
		grams := exact.RatioOf(load.Dry.Base().Number().Mul(exact.Int(1000))).Quo(count)
		o["dry"] = exact.G.Of(grams.Round(0, exact.HalfEven)).String()
	}
}

// lostOf is what was lost of a load, in its unit's dimension.
func lostOf(l *ledger.Load) exact.Quantity {
	if l.Lost.Given() {
		return l.Lost
	}
	return l.Quantity.Unit().Of(l.Lost.Number())
}

// unpackedRun is the last good run with a load that no pack holds yet.
func unpackedRun(rec *ledger.Records) string {
	type part struct{ run, item string }
	packed := map[part]bool{}
	for _, p := range rec.Packs.All() {
		packed[part{p.Run, p.Item}] = true
	}
	waits := map[string]bool{}
	for _, l := range rec.Loads.All() {
		if !packed[part{l.Run, l.Item}] {
			waits[l.Run] = true
		}
	}
	for _, r := range slices.Backward(rec.Runs) {
		if r.Good() && waits[r.ID] {
			return r.ID
		}
	}
	return ""
}

// unpackedLoad is the first load of a run whose food no pack of the run holds
// yet, or nil.
func unpackedLoad(rec *ledger.Records, run string) *ledger.Load {
	for _, l := range rec.Loads.All() {
		if run != "" && l.Run == run && !isPacked(rec, run, l.Item) {
			return &l
		}
	}
	return nil
}

func isPacked(rec *ledger.Records, run, item string) bool {
	return rec.Packs.Index(func(p *ledger.Pack) bool { return p.Run == run && p.Item == item }) >= 0
}

// loadOf is the first load of a food in a run, or nil.
func loadOf(rec *ledger.Records, run, item string) *ledger.Load {
	for _, l := range rec.Loads.All() {
		if l.Run == run && l.Item == item {
			return &l
		}
	}
	return nil
}
