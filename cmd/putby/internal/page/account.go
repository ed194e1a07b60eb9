package page

import (
	"putby/ledger/report"
)

// An account is what stands at the top of the page: what was saved, and what
// was lost of it, to the net.
type account struct {
	Net   figureOf
	Words []string
	Lines []line
}

// A figureOf is a figure as people read it, with all its digits beside.
type figureOf struct{ Text, Exact string }

// A line is a line of an account.
type line struct {
	Name  string
	Class string // "sum" below a sum, "after" at a new group
	figureOf
}

func (t teller) figure(v report.Value) figureOf { return figureOf{t.short(v), t.whole(v)} }

// newAccount takes the account from the month report's totals.
func newAccount(r Reports) account {
	t := tellerOf(r.Month)
	a := account{Net: t.figure(value(r.Month, "totals", "net")), Words: r.Month.Words}
	add := func(name, class string, v report.Value) {
		if !v.IsNull() {
			a.Lines = append(a.Lines, line{name, class, t.figure(v)})
		}
	}
	add("saved on what was used", "", value(r.Month, "totals", "saved"))
	for _, less := range []struct{ key, name string }{
		{"lost", "less what was lost in drying"}, {"spoiled", "less what spoiled in store"},
		{"missing", "less what went missing"}, {"fresh_spoiled", "less fresh food that spoiled"},
	} {
		if v := value(r.Month, "totals", less.key); v.Ratio().Sign() != 0 {
			add(less.name, "", v)
		}
	}
	add("net", "sum", value(r.Month, "totals", "net"))
	add("packs in store cost", "after", value(r.Month, "to_come", "in_store"))
	add("the shelf asks for them", "", value(r.Month, "to_come", "shelf_value"))
	add("saved once they are used", "", value(r.Month, "to_come", "saved"))
	return a
}
