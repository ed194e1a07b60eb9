package entry

import (
	"slices"

	"putby/ledger/figures"
	"putby/ledger/report"
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
	left := p.unpacked(run)
	for i := range g.Runs[run].Items {
		if item := &g.Runs[run].Items[i]; slices.Contains(left, g.Foods[item.Food].ID) {
			lines = append(lines, report.PackWord(g, item, 0))
		}
	}
	return lines
}

// next is the command that packs what is left of a run that ended, or where
// nothing is left tells what came of it. The run is named where another one would
// be packed first.
func (f *finishing) next() string {
	if figures.AllPacked(f.g, f.i) {
		return "putby explain " + f.run.ID
	}
	command := "putby pack add " + report.PackWords(f.g, f.i, false)
	first := (&packing{b: f.b, g: f.g}).awaiting("")
	if first >= 0 && first != f.i && !f.g.Records.Runs[first].Start.Before(f.run.Start) {
		command += " --run " + f.run.ID
	}
	return command
}
