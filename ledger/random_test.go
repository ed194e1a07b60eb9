package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// A maker makes up a small ledger that has no fault, day by day, keeping count
// of what is there to be used. Amounts are in thousandths.
type maker struct {
	*rapid.T
	out     map[string]*strings.Builder
	average bool
	stock   map[string]int   // of foods
	frozen  map[string]int   // of foods, at most
	lots    map[string][]lot // named lots that have some left
	packs   []*madePack
	jars    int  // owned
	busy    bool // a run has begun that does not end
	number  int  // of receipts, batches, runs and packs
	today   int
}

// A lot that nothing has drawn on but what names it. As soon as something else
// draws on its food, lots are no longer named.
type lot struct {
	receipt string
	left    int
}

type madePack struct {
	id   string
	day  int
	left int
	jars bool // each is in one
}

// lastDay is when a made-up ledger ends: its last packs are of later days.
const lastDay = 12

var madeFoods = []struct{ id, basis, unit string }{{"broth", "volume,1.02,", "L"}, {"kale", "mass,,", "kg"}, {"egg", "count,,0.05", "ea"}}

// madeRecords are the records of a ledger that is made up.
func madeRecords(t *rapid.T) *ledger.Records {
	rec, faults, err := ledgertest.Read(madeLedgers().Draw(t, "ledger"))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return rec
}

// madeLedgers makes up ledgers: with foods of each basis, lots, batches, runs
// of several foods, losses, packs, draws and stocktakes, under both costings
// and all ways of sharing.
func madeLedgers() *rapid.Generator[map[string]string] {
	return rapid.Custom(func(t *rapid.T) map[string]string {
		m := &maker{T: t, out: map[string]*strings.Builder{}, stock: map[string]int{}, frozen: map[string]int{}, lots: map[string][]lot{}}
		m.basics()
		for m.today = 1; m.today <= lastDay; m.today++ {
			m.times(2, m.buy)
			m.times(1, m.cook)
			m.times(1, m.dry)
			m.times(1, m.keepOpening)
			m.times(3, m.eat)
			m.times(1, m.eatFresh)
			m.times(1, m.freeze)
			m.times(1, m.count)
		}
		files := map[string]string{}
		for name, b := range m.out {
			files[name] = b.String()
		}
		return files
	})
}

func (m *maker) row(file, format string, args ...any) {
	if m.out[file] == nil {
		m.out[file] = &strings.Builder{}
	}
	fmt.Fprintf(m.out[file], format+"\n", args...)
}

func (m *maker) between(low, high int) int { return rapid.IntRange(low, high).Draw(m.T, "n") }

func (m *maker) flip() bool { return m.between(0, 1) == 1 }

func (m *maker) times(most int, do func()) {
	for range m.between(0, most) {
		do()
	}
}

func (m *maker) next(letter string) string {
	m.number++
	return fmt.Sprintf("%s%d", letter, m.number)
}

func date(day int) string { return exact.MustDate("2025-01-31").AddDays(day).String() }

// thousandths writes a number of them.
func thousandths(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

func cents(n int) string { return fmt.Sprintf("%d.%02d", n/100, n%100) }

func (m *maker) basics() {
	m.average = m.flip()
	m.row("settings.csv", "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\ntariff,flat\nhour_value,%s\ncosting,%s\nshare,%s",
		cents(m.between(0, 1500)), [...]string{"fifo", "average"}[b2i(m.average)], rapid.SampledFrom([]string{"water", "mass", "trays"}).Draw(m.T, "share"))
	m.row("tariffs.csv", "tariff,rate\nflat,0.2537")
	m.row("foods.csv", "food,basis,density,piece_kg,refuse")
	for _, f := range madeFoods {
		m.row("foods.csv", "%s,%s,%d", f.id, f.basis, m.between(0, 40))
	}
	m.row("supplies.csv", "supply,kind,uses,price\njar,jar,7,1.99\nlid,lid,1,0.17\noil,oil,3,10.00")
	m.row("machines.csv", "machine,cycles,residual,with\ndryer,%d,%s,%q", m.between(1, 9), cents(m.between(0, 30000)), rapid.SampledFrom([]string{"", "1 oil", "0.5 oil, 2 lid"}).Draw(m.T, "with"))
	m.row("receipts.csv", "receipt,date,line,kind,item,count,size,price,discount,tax")
	if m.flip() {
		m.row("receipts.csv", "m,%s,1,machine,dryer,1,,%s,,", date(1), cents(m.between(0, 90000)))
	}
	for name, header := range map[string]string{
		"batches.csv": "batch,date,item,quantity,from,cost",
		"runs.csv":    "run,machine,start,end,kwh,hands,outcome",
		"phases.csv":  "run,step,phase,duration,watts,kwh",
		"loads.csv":   "run,item,quantity,receipt,trays,wet,dry,lost",
		"packs.csv":   "pack,run,item,date,count,each,with,cost",
		"draws.csv":   "date,pack,item,quantity,reason",
		"frozen.csv":  "date,item,quantity",
		"counts.csv":  "date,pack,item,quantity",
	} {
		m.row(name, header)
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// buy writes a receipt of a food or of jars, with a discount and a tax of its own
// and a receipt-wide amount.
func (m *maker) buy() {
	id := m.next("r")
	price := m.between(0, 999)
	off := m.between(0, price)
	if m.between(0, 4) == 0 {
		if m.flip() {
			m.row("receipts.csv", "%s,%s,9,supply,oil,1,1 ea,%s,,", id, date(m.today), cents(m.between(0, 999)))
		}
		boxes := m.between(1, 3)
		m.jars += 2 * boxes
		m.row("receipts.csv", "%s,%s,1,supply,jar,%d,2 ea,%s,%s,", id, date(m.today), boxes, cents(price), cents(off))
	} else {
		f := m.between(0, 2)
		food := madeFoods[f]
		size := m.between(1, 5000)
		if f == 2 {
			size = m.between(1, 12) * 1000
		}
		m.row("receipts.csv", "%s,%s,1,food,%s,1,%s %s,%s,%s,%s", id, date(m.today), food.id, thousandths(size), food.unit, cents(price), cents(off), cents(m.between(0, 99)))
		edible := size
		if f != 2 {
			edible = size * (100 - m.refuse(f)) / 100 // at least so much
		}
		m.stock[food.id] += edible
		m.lots[food.id] = append(m.lots[food.id], lot{id, edible})
	}
	if m.jars > 0 && m.between(0, 3) == 0 {
		back := m.between(1, m.jars)
		m.jars -= back
		m.row("receipts.csv", "%s,%s,8,supply,jar,-%d,1 ea,%s,,", id, date(m.today), back, cents(m.between(0, 300)))
	}
	if m.flip() {
		m.row("receipts.csv", "%s,%s,2,other,soap,1,,%s,,", id, date(m.today), cents(m.between(0, 500)))
		m.row("receipts.csv", "%s,%s,3,charge,,,,%s,,", id, date(m.today), cents(m.between(0, 99)))
	}
	if m.between(0, 9) == 0 {
		m.row("receipts.csv", "%s,%s,4,service,dryer,1,,%s,,", id, date(m.today), cents(m.between(0, 9999)))
	}
}

// refuse reads a food's refuse back from its row.
func (m *maker) refuse(f int) int {
	var percent int
	row := strings.Split(m.out["foods.csv"].String(), "\n")[f+1]
	_, _ = fmt.Sscan(row[strings.LastIndex(row, ",")+1:], &percent)
	return percent
}

// use takes some of a food that is there, without naming a lot; whole pieces
// of what is counted. It reports false when there is none.
func (m *maker) use(f int) (amount int, ok bool) {
	step := 1
	if f == 2 {
		step = 1000
	}
	have := m.stock[madeFoods[f].id] / step
	if have == 0 {
		return 0, false
	}
	amount = m.between(1, have) * step
	m.stock[madeFoods[f].id] -= amount
	m.lots[madeFoods[f].id] = nil
	return amount, true
}

// cook makes a food of one or two others.
func (m *maker) cook() {
	var from []string
	for range m.between(1, 2) {
		f := m.between(0, 2)
		if amount, ok := m.use(f); ok {
			from = append(from, fmt.Sprintf("%s %s %s", thousandths(amount), madeFoods[f].unit, madeFoods[f].id))
		}
	}
	if from == nil {
		return
	}
	id, made := m.next("b"), m.between(0, 2)
	amount := m.between(1, 4) * 1000
	m.row("batches.csv", "%s,%s,%s,%s %s,%q,%s", id, date(m.today), madeFoods[made].id, thousandths(amount), madeFoods[made].unit, strings.Join(from, ", "), cents(m.between(0, 150)))
	m.stock[madeFoods[made].id] += amount
	m.lots[madeFoods[made].id] = append(m.lots[madeFoods[made].id], lot{id, amount})
}

// dry loads the machine with up to three loads and packs most of what comes
// out, on the day or later. Some of it may not be known: the weight of a load,
// the electricity of a phase. Now and then a run has no end.
func (m *maker) dry() {
	if m.busy {
		return
	}
	id := m.next("d")
	outcome := [...]string{"", "good", "spoiled", "running", "", ""}[m.between(0, 5)]
	weighed, trays := m.flip(), m.flip()
	loaded := map[int]int{}
	for range m.between(1, 3) {
		f := m.between(0, 2)
		amount, receipt, ok := m.load(f)
		if !ok {
			continue
		}
		wet, dry, tray, lost := "", "", "", ""
		if weighed {
			wet = thousandths(m.between(100, 5000)) + " kg"
			if m.between(0, 3) > 0 {
				dry = thousandths(m.between(0, 100)) + " kg"
			}
		}
		if trays {
			tray = fmt.Sprint(m.between(1, 4))
		}
		if m.between(0, 3) == 0 {
			lost = thousandths(m.between(0, amount)) + " " + madeFoods[f].unit
		}
		m.row("loads.csv", "%s,%s,%s %s,%s,%s,%s,%s,%s", id, madeFoods[f].id, thousandths(amount), madeFoods[f].unit, receipt, tray, wet, dry, lost)
		loaded[f] += amount
	}
	if len(loaded) == 0 {
		return
	}
	m.busy = outcome == "running"
	m.row("runs.csv", "%s,dryer,%s %02d:%02d,,%s,%dm,%s", id, date(m.today), m.between(0, 1), m.between(0, 59), m.meter(id), m.between(0, 90), outcome)
	for f := range madeFoods {
		if loaded[f] > 0 && outcome != "spoiled" && !m.busy {
			m.times(2, func() { m.pack(id, f, m.today+m.between(0, 4)) })
		}
	}
}

// meter writes the phases of a run, if it has any, and returns its metered kWh.
// What a running run used need not be known, and a phase of one that is metered
// needs nothing of its own where no phase has anything.
func (m *maker) meter(run string) (kwh string) {
	phases := m.between(0, 3)
	if !m.busy && phases == 0 || m.flip() {
		kwh = thousandths(m.between(0, 25000))
	}
	untold := kwh != "" && m.between(0, 3) == 0
	for step := range phases {
		watts, own := "", ""
		if known := m.between(0, 5); !untold && (known < 4 || !m.busy) {
			if watts = fmt.Sprint(m.between(0, 900)); known == 0 {
				own = thousandths(m.between(0, 9000))
			}
		}
		m.row("phases.csv", "%s,%d,primary,%dm,%s,%s", run, step+1, m.between(0, 400), watts, own)
	}
	return kwh
}

// load takes food for a load, at times from a lot that it names.
func (m *maker) load(f int) (amount int, receipt string, ok bool) {
	lots := m.lots[madeFoods[f].id]
	if m.average || len(lots) == 0 || m.flip() {
		amount, ok = m.use(f)
		return amount, "", ok
	}
	at := &lots[m.between(0, len(lots)-1)]
	step := 1 + 999*b2i(f == 2)
	if at.left/step == 0 {
		return 0, "", false
	}
	amount = m.between(1, at.left/step) * step
	at.left -= amount
	m.stock[madeFoods[f].id] -= amount
	return amount, at.receipt, true
}

func (m *maker) pack(run string, f, day int) {
	with := rapid.SampledFrom([]string{"", "1 jar", "1 jar, 2 lid"}).Draw(m.T, "with")
	p := &madePack{id: m.next("p"), day: day, left: m.between(1, 5), jars: with != ""}
	cost := ""
	if run == "" {
		cost = cents(m.between(0, 2000))
	}
	m.row("packs.csv", "%s,%s,%s,%s,%d,%s %s,%q,%s", p.id, run, madeFoods[f].id, date(day), p.left, thousandths(m.between(1, 900)), madeFoods[f].unit, with, cost)
	m.packs = append(m.packs, p)
}

func (m *maker) keepOpening() {
	if m.between(0, 3) == 0 {
		m.pack("", m.between(0, 2), m.today)
	}
}

// inStore returns a pack with containers left today.
func (m *maker) inStore() *madePack {
	var there []*madePack
	for _, p := range m.packs {
		if p.day <= m.today && p.left > 0 {
			there = append(there, p)
		}
	}
	if there == nil {
		return nil
	}
	return there[m.between(0, len(there)-1)]
}

func (m *maker) reason() string {
	return rapid.SampledFrom([]string{"", "used", "given", "spoiled"}).Draw(m.T, "reason")
}

func (m *maker) eat() {
	if p := m.inStore(); p != nil {
		n := m.between(1, p.left)
		p.left -= n
		m.row("draws.csv", "%s,%s,,%d,%s", date(m.today), p.id, n, m.reason())
	}
}

func (m *maker) eatFresh() {
	if m.between(0, 3) == 0 {
		m.row("draws.csv", "%s,,%s,%d,%s", date(m.today), rapid.SampledFrom([]string{"lid", "oil"}).Draw(m.T, "supply"), m.between(1, 3), m.reason())
	}
	if m.between(0, 3) == 0 {
		broken := m.between(1, 3)
		m.jars = max(0, m.jars-broken)
		m.row("draws.csv", "%s,,jar,%d,%s", date(m.today), broken, m.reason())
	}
	f := m.between(0, 2)
	if amount, ok := m.use(f); ok {
		m.row("draws.csv", "%s,,%s,%s %s,%s", date(m.today), madeFoods[f].id, thousandths(amount), madeFoods[f].unit, m.reason())
	}
}

// freeze freezes some of a food that is not frozen yet.
func (m *maker) freeze() {
	f := m.between(0, 2)
	food := madeFoods[f]
	if open := m.stock[food.id] - m.frozen[food.id]; open >= 1000 {
		amount := m.between(1, open/1000) * 1000
		m.frozen[food.id] += amount
		m.row("frozen.csv", "%s,%s,%s %s", date(m.today), food.id, thousandths(amount), food.unit)
	}
}

// emptyJars is how many jars stand empty at the end of the day.
func (m *maker) emptyJars() int {
	empty := m.jars
	for _, p := range m.packs {
		if p.jars && p.day <= m.today {
			empty -= p.left
		}
	}
	return empty
}

func (m *maker) count() {
	if p := m.inStore(); p != nil {
		p.left = m.between(0, p.left)
		m.row("counts.csv", "%s,%s,,%d", date(m.today), p.id, p.left)
	}
	if m.between(0, 4) == 0 {
		m.row("counts.csv", "%s,,oil,0", date(m.today))
	}
	if empty := m.emptyJars(); empty > 0 && m.flip() {
		found := m.between(0, empty)
		m.jars -= empty - found
		m.row("counts.csv", "%s,,jar,%d", date(m.today), found)
	}
	f := m.between(0, 2)
	if m.stock[madeFoods[f].id] > 0 {
		m.stock[madeFoods[f].id] = m.between(0, m.stock[madeFoods[f].id]/1000) * 1000
		m.lots[madeFoods[f].id] = nil
		m.row("counts.csv", "%s,,%s,%s %s", date(m.today), madeFoods[f].id, thousandths(m.stock[madeFoods[f].id]), madeFoods[f].unit)
	}
}

// made draws a ledger and joins it as of a date.
func made(t *rapid.T, files map[string]string, o ledger.Options) *ledger.Ledger {
	rec, faults, err := ledgertest.Read(files)
	if err != nil || len(faults) > 0 {
		t.Fatalf("%v, %v", err, faults)
	}
	g, faults := ledger.Join(rec, o)
	if len(faults) > 0 {
		t.Fatalf("faults: %v\nin %v", faults, files)
	}
	return g
}

// Both identities hold on any ledger at any date.
func TestIdentitiesAtEveryDate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := madeLedgers().Draw(t, "ledger")
		for day := 0; day <= lastDay+5; day++ {
			prove(t, made(t, files, asOf(date(day))))
		}
		prove(t, made(t, files, whole))
	})
}

// Every split sums back: elements to totals, loads to their run, packs to
// their item and their own supplies, containers to their pack.
func TestEverySplitSumsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := made(t, madeLedgers().Draw(t, "ledger"), whole)
		for i := range g.Runs {
			sumsOfRun(t, g, i)
		}
		for i := range g.Packs {
			p, n := &g.Packs[i], g.Records.Packs.At(i).Count
			equal(t, "a pack's elements", p.Costs().Total(), p.Total())
			var sum exact.Money
			for k := range n {
				sum = sum.Add(p.First(k + 1).Sub(p.First(k)))
			}
			equal(t, "a pack's containers", sum, p.Total())
			equal(t, "what is gone and what is left of a pack", p.First(int(p.Taken)).Add(p.LeftCost()), p.Total())
		}
	})
}

func sumsOfRun(t *rapid.T, g *ledger.Ledger, i int) {
	r := &g.Runs[i]
	var loads, good, lost ledger.Costs
	for _, l := range r.Loads {
		loads = loads.Add(l.Costs)
	}
	energy := exact.Ratio{}
	for _, item := range r.Items {
		good, lost, energy = good.Add(item.Good), lost.Add(*item.Lost), energy.Add(item.Energy)
		packs := exact.Money{}
		for _, p := range item.Packs {
			packs = packs.Add(g.Packs[p].Share.Total())
		}
		if len(item.Packs) > 0 {
			equal(t, "the packs of an item", packs, item.Good.Total())
		}
	}
	equal(t, "electricity over loads", loads[ledger.ElectricityCost], r.Electricity)
	equal(t, "wear over loads", loads[ledger.WearCost], r.Wear)
	equal(t, "supplies over loads", loads[ledger.SuppliesCost], r.Supplies)
	equal(t, "labour over loads", loads[ledger.LabourCost], r.Labour)
	equal(t, "good and lost", good.Add(lost).Total(), loads.Total())
	if !energy.Equal(r.Energy) {
		t.Fatalf("the energy of items is %v, of the run %v", energy, r.Energy)
	}
}

func equal(t *rapid.T, what string, have, want exact.Money) {
	t.Helper()
	if !have.Equal(want) {
		t.Fatalf("%s come to %v, not %v", what, have, want)
	}
}

// A ledger as of a date is that of the records cut off at the date, but for the
// packs of runs that have begun: those count when a run's cost is split.
func TestAsOfIsTheRecordsUpToThen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := madeLedgers().Draw(t, "ledger")
		o := asOf(date(rapid.IntRange(0, lastDay+2).Draw(t, "day")))
		g := made(t, files, o)
		cut, faults := ledger.Join(cutOff(g.Records, o.Through), o)
		if len(faults) > 0 {
			t.Fatalf("faults of what is left: %v", faults)
		}
		if have, want := standing(cut), standing(g); have != want {
			t.Fatalf("as of %v the records up to then give\n%s\nnot\n%s", o.Through, have, want)
		}
	})
}

// cutOff returns the records up to a date.
func cutOff(rec *ledger.Records, last exact.Date) *ledger.Records {
	cut := *rec
	begun := map[string]bool{}
	cut.Runs = filter(rec.Runs, func(r *ledger.Run) bool {
		begun[r.ID] = exact.DateIn(r.Start) <= last
		return begun[r.ID]
	})
	cut.Phases = rec.Phases.Only(func(p *ledger.Phase) bool { return begun[p.Run] })
	cut.Loads = rec.Loads.Only(func(l *ledger.Load) bool { return begun[l.Run] })
	cut.Packs = rec.Packs.Only(func(p *ledger.Pack) bool { return begun[p.Run] || p.Run == "" && p.Date <= last })
	cut.Receipts = rec.Receipts.Only(func(r *ledger.ReceiptRow) bool { return r.Date <= last })
	cut.Batches = filter(rec.Batches, func(b *ledger.Batch) bool { return b.Date <= last })
	cut.Draws = rec.Draws.Only(func(d *ledger.Draw) bool { return d.Date <= last })
	cut.Freezes = filter(rec.Freezes, func(f *ledger.Freeze) bool { return f.Date <= last })
	cut.Counts = filter(rec.Counts, func(c *ledger.Count) bool { return c.Date <= last })
	return &cut
}

func filter[R any](list []R, keep func(*R) bool) []R {
	var kept []R
	for i := range list {
		if keep(&list[i]) {
			kept = append(kept, list[i])
		}
	}
	return kept
}

// standing writes down all that a ledger has worked out.
func standing(g *ledger.Ledger) string {
	var b strings.Builder
	fmt.Fprintln(&b, "flows", g.Flows, "left", g.LeftInLots(), "awaiting", g.AwaitingPacking(), "store", g.InStore())
	for _, l := range g.Lots {
		fmt.Fprintln(&b, "lot", l.Item(), l.Receipt(), l.Quantity, l.Cost, l.Left, l.CostLeft)
	}
	for i := range g.Foods {
		fmt.Fprintln(&b, "stock", g.Foods[i].ID, g.FoodStock(i).Left, g.FoodStock(i).Cost)
	}
	for i := range g.Supplies {
		fmt.Fprintln(&b, "pieces", g.Supplies[i].ID, g.Pieces(i))
	}
	for i := range g.Runs {
		if r := &g.Runs[i]; r.Done {
			fmt.Fprintln(&b, "run", g.Records.Runs[i].ID, r.Electricity, r.Wear, r.Supplies, r.Labour, r.Energy)
			for _, item := range r.Items {
				fmt.Fprintln(&b, "  item", item.Food, item.Loaded, item.LostPart, item.Good, *item.Lost, item.Made)
			}
		}
	}
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done {
			fmt.Fprintln(&b, "pack", g.Records.Packs.At(i).ID, p.Total(), p.Taken, p.LeftCost())
		}
	}
	for _, m := range g.Moves {
		fmt.Fprintln(&b, "move", m.Date, m.Reason, m.Quantity, m.Amount, m.Cost, m.Wear)
	}
	return b.String()
}
