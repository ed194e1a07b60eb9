package entry

import (
	"slices"

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
			lines = append(lines, report.PackWord(g, item))
		}
	}
	return lines
}
