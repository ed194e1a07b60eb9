package entry

import (
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// ToPack offers a line for [Pack] of each food that awaits packing of the last
// run of which any does; none where nothing does.
func (b *Base) ToPack() (lines []string) {
	g, err := b.Ledger()
	if err != nil {
		return nil
	}
	p := packing{b: b, g: g}
	run := p.awaiting("")
	if run < 0 {
		return nil
	}
	for i := range g.Runs[run].Items {
		if item := &g.Runs[run].Items[i]; item.ToPack() {
			lines = append(lines, report.PackWord(g, item, 0))
		}
	}
	return lines
}

// next packs what is left of a run that ended, or where nothing is left tells what came
// of it. The run is named where another one would be packed first.
func (f *finishing) next() advice.Doing {
	if figures.AllPacked(f.g, f.i) {
		return advice.Do(advice.Explain, f.run.ID)
	}
	pack := advice.Do(advice.AddPack, report.PackLines(f.g, f.i, false)...)
	first := (&packing{b: f.b, g: f.g}).awaiting("")
	if first >= 0 && first != f.i && !f.g.Records.Runs[first].Start.Before(f.run.Start) {
		pack = pack.With("run", f.run.ID)
	}
	if at, _, _, err := f.ended(); err == nil && f.in.At != "" && exact.DateIn(at) < f.b.At.Today.AddDays(-1) { // what is packed at last is packed today
		pack = pack.With("date", exact.DateIn(at).String())
	}
	return pack
}
