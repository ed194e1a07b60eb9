package entry

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A PackIn is what was packed, as a person types it.
type PackIn struct {
	Lines []string          // "6", "chives 2 x 90 g"; none: one row of what Cells say
	Cells map[string]string // of packs.csv, for all lines; a blank one is to be blank
}

func (in *PackIn) lines() []string {
	if len(in.Lines) == 0 {
		return []string{""}
	}
	return in.Lines
}

// Pack records rows of like containers. What is not said is taken from the
// ledger: the run is the last that awaits packing, the food the one of it that
// does, each container and what goes with it is as last time.
func Pack(b *Base, in PackIn) (*Draft, error) {
	g, err := b.Hand()
	if err != nil {
		return nil, err
	}
	p := packing{b: b, g: g, rec: b.Records, common: map[string]string{}, draft: &Draft{}, made: map[[2]int]exact.Number{}, need: map[int]exact.Number{}}
	for column, text := range in.Cells {
		p.common[column] = b.At.Typed(b.Records, ledger.MustKind("pack").Column(column), text)
	}
	if err := b.Unreadable(ledger.MustKind("pack"), p.common); err != nil {
		return nil, err
	}
	lines := in.lines()
	var bad Wrongs
	// Line by line, since a line without a run goes on with the run of the one before.
	for i, text := range lines {
		part := "packs"
		if text == "" {
			part = "" // by cells alone
		}
		bad.add(part, i+1, p.add(text, len(lines)))
	}
	if err := bad.Err(); err != nil {
		return nil, err
	}
	p.close()
	return p.draft, nil
}

// A packing is rows of packs in the making.
type packing struct {
	b      *Base
	g      *ledger.Ledger
	rec    *ledger.Records // with the rows so far
	common map[string]string
	draft  *Draft
	made   map[[2]int]exact.Number // what this change packs of a run's item
	need   map[int]exact.Number    // uses of each supply that it takes
	names  []string
	dry    []string      // of names, those that are not known to be moist
	over   []ledger.Pack // that are said to be more than can have come out of their runs
}

// A packRow is a row of packs in the making.
type packRow struct {
	line  packLine
	cells map[string]string
	run   int // position, or -1: opening stock
	item  int // of the run
	food  int // position among the ledger's foods; says nothing while run is -1
}

// add adds the row of a line, one of so many.
func (p *packing) add(text string, of int) error {
	line, err := parsePackLine(Native(p.rec.Settings.Locale, text))
	if err != nil {
		return err
	}
	r := &packRow{line: line, cells: maps.Clone(p.common), run: -1}
	for column, said := range map[string]string{"count": line.count, "each": line.each, "dry": line.dry, "with": line.with, "item": line.food} {
		if said == "" {
			continue
		}
		if _, twice := p.common[column]; twice {
			return typed(text, "it is said by "+p.b.part(column)+" too: leave one of the two out")
		}
		if said == nothing {
			said = ""
		}
		r.cells[column] = p.b.At.Typed(p.rec, ledger.MustKind("pack").Column(column), said)
	}
	if _, named := p.common["pack"]; named && of > 1 {
		return typed("", p.b.part("pack")+" names one pack: leave it out where several are added")
	}
	// In this order: the food tells the run, and both tell what was usual last time.
	for _, step := range []func(*packRow) error{p.findItem, p.findRun, p.asLast, p.complete} {
		if err := step(r); err != nil {
			return err
		}
	}
	k := ledger.MustKind("pack")
	// The next row is named after this one. What is at fault the saving says, of all rows at once.
	if more, faults := p.rec.With(k, r.cells); len(faults) == 0 {
		p.rec = more
		p.weigh()
	}
	p.draft.Rows = append(p.draft.Rows, Row{k, r.cells})
	p.names = append(p.names, r.cells["pack"])
	return nil
}

// findItem finds the food that is named.
func (p *packing) findItem(r *packRow) error {
	if r.cells["item"] == "" {
		return nil
	}
	id, err := one("food", r.cells["item"], p.b.Records.NamedFoods())
	if err != nil && r.line.food == "" {
		return flagged(p.b.part("item"), err)
	}
	r.cells["item"] = id
	return err
}

// flagged says by which flag a name was given.
func flagged(flag string, err error) error {
	if none := (*ledger.Fault)(nil); errors.Is(err, ErrNone) && errors.As(err, &none) {
		return notThere(flag+": "+none.What, none.Hint, none.Do...)
	}
	return err
}

// findRun finds the run that it comes from, and of it the food.
func (p *packing) findRun(r *packRow) error {
	text, said := r.cells["run"]
	switch {
	case said && text != "":
		id, err := one("run", text, byID(ledger.Runs.In(p.b.Records)))
		if err != nil {
			return flagged(p.b.part("run"), err)
		}
		r.run, _ = p.g.FindRun(id)
	case said || p.common["cost"] != "":
		return nil // opening stock
	default:
		if r.run = p.same(r.cells["item"]); r.run < 0 {
			r.run = p.awaiting(r.cells["item"])
		}
	}
	if r.run < 0 {
		return p.noRun(r)
	}
	run := &p.g.Records.Runs[r.run]
	if run.Running {
		return p.running(run)
	}
	r.cells["run"] = run.ID
	return p.itemOf(r)
}

// same is the run of the rows so far, where it can be that of a food too, or of a row
// that names none: a last, smaller jar is of the run that filled the others. Else -1.
func (p *packing) same(food string) int {
	if len(p.draft.Rows) == 0 {
		return -1
	}
	run, ok := p.g.FindRun(p.draft.Rows[len(p.draft.Rows)-1].Cells["run"])
	if !ok {
		return -1
	}
	if foods := p.foodsOf(run); food == "" && (len(foods) == 1 || len(p.unpacked(run)) > 0) || slices.Contains(foods, food) {
		return run
	}
	return -1
}

// mostPacked is up to how many percent a run is packed of which a rest may be left.
var mostPacked = exact.Int(95)

// rest is the last good run of a food, or of any, where a rest of it may be left to
// pack, and how much is packed in percent; else -1.
func (p *packing) rest(food string) (run int, percent exact.Number) {
	run = -1
	var part exact.Ratio
	for i := range p.g.Runs {
		r := &p.g.Records.Runs[i]
		if !r.Good() || run >= 0 && r.Start.Before(p.g.Records.Runs[run].Start) {
			continue
		}
		for _, item := range p.g.Runs[i].Items {
			if (food == "" || p.g.Foods[item.Food].ID == food) && item.Usual.Sign() > 0 {
				run, part = i, exact.RatioOf(item.Made).Times(exact.Int(100)).Quo(item.Usual)
			}
		}
	}
	if part.Cmp(exact.RatioOf(mostPacked)) > 0 {
		run = -1
	}
	return run, part.Round(0, exact.HalfAway)
}

// awaiting is the last good run of which a food, or one of that name, is not
// fully packed; -1 where there is none.
func (p *packing) awaiting(food string) int {
	best := -1
	for i := range p.g.Runs {
		run := &p.g.Records.Runs[i]
		if run.Good() && (best < 0 || !run.Start.Before(p.g.Records.Runs[best].Start)) &&
			slices.ContainsFunc(p.unpacked(i), func(id string) bool { return food == "" || id == food }) {
			best = i
		}
	}
	return best
}

// unpacked are the foods of a run that are in no pack yet, or in part.
func (p *packing) unpacked(run int) (ids []string) {
	for i := range p.g.Runs[run].Items {
		item := &p.g.Runs[run].Items[i]
		if _, now := p.made[[2]int{run, i}]; item.ToPack() && !now {
			ids = append(ids, p.g.Foods[item.Food].ID)
		}
	}
	return ids
}

// noRun says that nothing awaits packing. By flags alone a food that is named is
// opening stock.
func (p *packing) noRun(r *packRow) error {
	for i := range p.g.Records.Runs {
		if run := &p.g.Records.Runs[i]; run.Running && (r.cells["item"] == "" || p.loaded(i, r.cells["item"])) {
			return p.running(run)
		}
	}
	id, what := r.cells["item"], "no run"
	switch {
	case r.line.text == "" && id != "":
		return nil
	case r.line.text == "":
		return p.lacks(r, fmt.Sprintf("no run awaits packing: %s begins one; %s names one that is packed already, %s says what opening stock cost", p.b.say(advice.Start), p.b.part("run"), p.b.part("cost")))
	case id != "":
		i, _ := p.g.FindFood(id)
		what = "no run of " + p.g.Foods[i].Title()
	}
	if i, percent := p.rest(id); i >= 0 {
		run := p.g.Records.Runs[i].ID
		return typed(r.line.text, fmt.Sprintf("%s awaits packing: run %s is packed to %v %%; for its rest: %s", what, run, percent, p.b.Records.Settings.Say(advice.Do(advice.AddPack, r.line.text).With("run", run))))
	}
	opening := "say what it cost if it is opening stock (" + p.b.part("cost", "6.40") + ")"
	// The last good run is what a person most likely means who has packed it already.
	for i := len(p.g.Runs) - 1; i >= 0; i-- {
		if run := &p.g.Records.Runs[i]; run.Good() && (id == "" || p.loaded(i, id)) {
			return typed(r.line.text, fmt.Sprintf("%s awaits packing: all of the last, %s, is packed; for more of it name it (%s), or %s", what, run.ID, p.b.part("run", run.ID), opening))
		}
	}
	return typed(r.line.text, fmt.Sprintf("%s awaits packing, and none is recorded: record it first (%s, or %s once it is over), or %s", what, p.b.say(advice.Start), p.b.say(advice.AddRun), opening))
}

// lacks names what a row needs and nobody said; nil where that is nothing.
func (p *packing) lacks(r *packRow, hint string) error {
	var flags []string
	for _, column := range []string{"item", "count", "each"} {
		if r.cells[column] == "" {
			flags = append(flags, p.b.part(column))
		}
	}
	if flags == nil {
		return nil
	}
	return &ledger.Fault{Kind: ErrLacks, What: "a pack needs " + strings.Join(flags, ", "), Hint: hint}
}

func (p *packing) running(run *ledger.Run) error {
	return typed("", fmt.Sprintf("run %s is running since %s: finish it before its food is packed, with %s", run.ID, p.b.moment(run.Start), p.b.say(advice.Finish)))
}

func (p *packing) loaded(run int, food string) bool {
	i, ok := p.g.FindFood(food)
	return ok && p.g.Runs[run].Loaded(i)
}

// itemOf finds the food of a run that is packed: the one named, or the only one
// that it can be.
func (p *packing) itemOf(r *packRow) error {
	if r.cells["item"] == "" {
		ids := p.unpacked(r.run)
		if all := p.foodsOf(r.run); len(ids) != 1 && len(all) == 1 {
			ids = all
		}
		if len(ids) != 1 {
			return p.which(r, ids)
		}
		r.cells["item"] = ids[0]
	}
	r.food, _ = p.g.FindFood(r.cells["item"])
	r.item = slices.IndexFunc(p.g.Runs[r.run].Items, func(item ledger.ItemCost) bool { return item.Food == r.food })
	return nil // of a food that it was not loaded with, the saving tells
}

func (p *packing) foodsOf(run int) (ids []string) {
	for _, item := range p.g.Runs[run].Items {
		ids = append(ids, p.g.Foods[item.Food].ID)
	}
	return ids
}

// which asks for the food, and says how to name it.
func (p *packing) which(r *packRow, ids []string) error {
	run := p.g.Records.Runs[r.run].ID
	if len(ids) == 0 {
		ids = p.foodsOf(r.run)
	}
	return typed(r.line.text, fmt.Sprintf("run %s has %s: say which, as in %s", run, strings.Join(ids, " and "), p.b.say(advice.AddPack, report.PackLines(p.g, r.run, false)...)))
}

// asLast takes what the ledger knows: the next identifier, today, and what the
// food's last pack was like.
func (p *packing) asLast(r *packRow) error {
	k, o := ledger.MustKind("pack"), offer{"date": p.b.At.Today.String()}
	why := p.like(o, r, p.b.At.Day(r.cells["date"]))
	for _, column := range []string{"date", "pack"} {
		if _, said := r.cells[column]; !said {
			r.cells[column] = o[column]
		}
	}
	if r.run < 0 {
		return nil // opening stock is like nothing that was packed
	}
	var taken []string
	for _, column := range []string{"each", "with"} {
		if _, said := r.cells[column]; !said && o[column] != "" && why != "" {
			r.cells[column] = o[column]
			taken = append(taken, column+" "+inWords(p.rec, k.Column(column), o[column]))
		}
	}
	if taken != nil {
		p.draft.Notes = append(p.draft.Notes, "Taken "+why+": "+strings.Join(taken, "; ")+".")
	}
	return nil
}

// inWords is a cell as people are told it: supplies by their names.
func inWords(rec *ledger.Records, c *ledger.Column, text string) string {
	if q, err := exact.ParseQuantity(text); c.Cell == ledger.AmountCell && err == nil {
		return rec.Settings.Show().Measure(q)
	}
	if c.Cell != ledger.SuppliesCell {
		return text
	}
	names := titled(rec, c.Known(rec))
	list := listParts(text)
	for i, part := range list {
		count, id, _ := strings.Cut(part, " ")
		list[i] = NameFor(id, names)
		if count != "1" {
			list[i] = count + " x " + list[i]
		}
	}
	return strings.Join(list, ", ")
}

// complete refuses a row of which something is not known.
func (p *packing) complete(r *packRow) error {
	if n, err := exact.ParseNumber(r.line.count); r.line.count != "" && (err != nil || !n.IsInt() || n.Sign() <= 0) {
		return typed(r.line.text, r.line.count+" is no whole number of containers")
	}
	pack := advice.Do(advice.AddPack, "chives 2 x 90 g")
	if r.run >= 0 {
		pack.Of = p.words(r)
	}
	for _, column := range slices.Sorted(maps.Keys(p.common)) { // what was typed besides
		if !slices.Contains([]string{"item", "count", "each", "dry"}, column) && p.common[column] != "" {
			pack = pack.With(column, p.common[column])
		}
	}
	hint := p.b.Records.Settings.Say(pack)
	switch {
	case r.line.text != "" && r.cells["count"] == "":
		return typed(r.line.text, "it does not say how many containers: "+hint)
	case r.line.text != "" && r.cells["each"] == "":
		return typed(r.line.text, "it does not say how much each container makes: "+hint)
	}
	return p.lacks(r, hint)
}

// words are the lines that pack a row: its food, in as many containers as were said,
// with what was said to go with them, or all that is left of its run.
func (p *packing) words(r *packRow) []string {
	if count, err := strconv.Atoi(r.cells["count"]); err == nil && r.item >= 0 {
		item := &p.g.Runs[r.run].Items[r.item]
		line, with := report.PackWord(p.g, item, count), cmp.Or(r.line.with, report.WithJar(p.g, item))
		if with != "" && p.common["with"] == "" {
			line += " with " + with
		}
		return []string{line}
	}
	return report.PackLines(p.g, r.run, false)
}

// close gathers what to know of all rows together.
func (p *packing) close() {
	d, names := p.draft, p.names
	said, short := report.PackPieces(p.g, p.need)
	d.Odd = append(d.Odd, short...)
	d.Advise = func(g *ledger.Ledger) []report.Remark {
		words := report.MoistPacks(g, names...)
		for _, line := range append(report.Remarks(append(report.PackLabels(g, names...), said...)...), report.PacksAdvice(g, names...)...) {
			if !slices.Contains(words, line) && !slices.ContainsFunc(p.over, func(o ledger.Pack) bool { return report.PackedAgainstLoaded(g, &o) == line.Words }) {
				words = append(words, line)
			}
		}
		return words
	}
	if len(p.dry) > 0 {
		d.Next = []advice.Doing{advice.Do(advice.Labels, p.dry...)}
	}
}
