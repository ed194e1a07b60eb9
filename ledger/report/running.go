package report

import (
	"fmt"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
)

// UsualEnd says when a run that is running usually ends; nothing where nobody
// can tell.
func UsualEnd(g *ledger.Ledger, run int) []string {
	end, ok := figures.UsualEnd(g, run).Get()
	if !ok {
		return nil
	}
	length := end.Sub(g.Records.Runs[run].Start)
	return []string{fmt.Sprintf("As usual it takes ~%s, until ~%s.", SpanOf(length.Round(time.Minute)).Text(), phrasingOf(&g.Settings).moment(end.Round(time.Minute)))}
}
