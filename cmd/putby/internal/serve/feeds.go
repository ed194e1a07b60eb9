package serve

import (
	"cmp"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// hoursForm brings in prices by the hour.
var hoursForm = recording{
	path: "hours", title: "Prices by the hour",
	intro: "What a kWh costs hour by hour, as a market or a supplier gives it: CSV or JSON. " +
		"Prices that are there already change nothing; what is missing is said.",
	groups: hoursGroups, draft: hoursDraft,
}

// meterForm adds a plug meter's log to a run.
var meterForm = recording{
	path: "meter", title: "A meter's log of a run",
	intro: "What a plug meter noted while the run was on: CSV with a column of times, and one of watts or of a running total. " +
		"It says how much the run drew and when.",
	groups: meterGroups, draft: meterDraft,
}

// importForm brings in what a shop, a bank or a spreadsheet gives.
var importForm = recording{
	path: "import", link: "From a file", title: "Receipts, runs or prices from a file", seldom: true,
	intro: "What a shop, a bank or a spreadsheet gives, as CSV. Look first: it says how the file is read, and how many rows are new. " +
		"Rows that are there already change nothing. How the file is read is kept for the next one.",
	groups: importGroups, draft: importDraft, parts: map[string]string{"rows": "file", "name": "names"},
}

func importGroups(f *filling) []page.Group {
	targets := options(intake.Receipts.String(), intake.Runs.String(), intake.Prices.String())
	return []page.Group{
		{Title: "The file", Fields: []page.Field{
			{Kind: "select", Name: "target", Label: "it has", Value: f.text("target", intake.Receipts.String()), Options: targets},
			f.fileField("file", "the file"),
			f.thingsField("values", "what no column of it says", "one a line: shop=Corner Shop, or date=2026-01-10"),
			f.thingsField("names", "what you call things in it", "one a line: KAROTTEN*=carrots, with its size where no column has that: EIER=eggs 10 ea; omit leaves such rows out"),
			f.switchField("skip-bad", "leave out the rows that cannot be read"),
		}},
		folded("How it is read",
			f.thingsField("columns", "which column is which", "one a line: price=Betrag, the ledger's column and the header of the file's; nothing behind = leaves it out"),
			f.thingsField("hows", "what is in a column", "one a line: price=total where it is that of the whole line; also negate, within, or a unit: g, L, h"),
			f.wordField("decimal", "decimal sign", intake.DecimalWords()), f.wordField("dates", "order of dates", intake.OrderWords()),
			f.textField("map", "as a file before", "the name under which it is kept; empty: the only one", "")),
	}
}

func importDraft(f *filling) (*entry.Draft, error) {
	in := &entry.FileIn{
		Dir: f.files.Dir(), Data: f.text("file", ""), Map: f.text("map", ""), Things: f.lines("names"), SkipBad: f.text("skip-bad", "") != "",
		Mend:  intake.Mend{Columns: f.lines("columns"), Values: f.lines("values"), Hows: f.lines("hows"), Dates: f.text("dates", ""), Decimal: f.text("decimal", "")},
		Names: func(string) string { return "a line under what you call things in it" },
	}
	for _, target := range []intake.Target{intake.Receipts, intake.Runs, intake.Prices} {
		if f.text("target", "") == target.String() {
			in.Target = target
		}
	}
	d, err := entry.ImportFile(f.Base, in)
	return d, ofField("file", err)
}

// fileField takes a file, or what is in it.
func (f *filling) fileField(name, label string) page.Field {
	return page.Field{Kind: "file", Name: name, Label: label, Value: f.text(name, ""), Need: true, Help: "choose it, or paste what is in it"}
}

// wordField asks for one of some words; blank is found.
func (f *filling) wordField(name, label string, words []string) page.Field {
	return page.Field{Kind: "select", Name: name, Label: label, Value: f.text(name, ""), Options: append([]page.Option{{Label: "as the file says"}}, options(words...)...)}
}

func hoursGroups(f *filling) []page.Group {
	tariff := f.column("tariff", "tariff", "")
	tariff.Help = "the one by the hour; empty: the only one of them"
	rate, tax, from := f.column("tariff", "rate", ""), f.column("tariff", "tax", ""), f.column("tariff", "from", "")
	return []page.Group{
		{Title: "The prices", Fields: []page.Field{f.fileField("prices", "the file"), tariff, f.switchField("replace", "take these prices where the ledger has other ones")}},
		folded("On top of them, for a tariff that is new", rate, tax, from),
		folded("How the file is read",
			f.wordField("per", "a price is for a", intake.PerWords()), f.wordField("decimal", "decimal sign", intake.DecimalWords()),
			f.wordField("dates", "order of dates", intake.OrderWords()), f.textField("column", "header of the prices", "empty: found", ""),
			f.textField("zone", "zone of its clock", "such as UTC; empty: the ledger's", "")),
	}
}

func hoursDraft(f *filling) (*entry.Draft, error) {
	cells := f.cells(ledger.MustKind("tariff"), "")
	labels := map[string]string{"replace": "a tick for that", "from": "unless a first day is given"}
	d, err := entry.ImportPrices(f.Base, &entry.PricesIn{
		Path: "The file", Data: f.text("prices", ""), Tariff: cells["tariff"], From: cells["from"], Tax: cells["tax"], Rate: cells["rate"],
		Per: f.text("per", ""), Column: f.text("column", ""), Zone: f.text("zone", ""), Decimal: f.text("decimal", ""), Dates: f.text("dates", ""),
		Replace: f.text("replace", "") != "", Names: func(part string) string { return labels[part] },
	})
	return d, ofField("prices", err)
}

func meterGroups(f *filling) []page.Group {
	run := f.column("load", "run", "")
	run.Options, run.Need = f.runs(), true
	return []page.Group{
		{Title: "The log", Fields: []page.Field{run, f.fileField("log", "the file"), f.switchField("replace", "put it in the place of the log that is there")}},
		folded("How it is read",
			f.textField("max-gap", "longest time without rows", "what is longer is a gap; empty: 10m", ""), f.switchField("bridge", "draw a straight line across gaps"),
			f.wordField("unit", "its values are in", []string{exact.W.String(), exact.KW.String(), exact.Wh.String(), exact.KWh.String()}),
			f.textField("zone", "zone of its clock", "such as UTC; empty: the ledger's", "")),
	}
}

func meterDraft(f *filling) (*entry.Draft, error) {
	d, _, err := entry.TakeMeter(f.Base, &entry.MeterIn{
		Run: f.text("run", ""), Path: "The file", Log: strings.NewReader(f.text("log", "")), Unit: f.text("unit", ""), Zone: f.text("zone", ""),
		MaxGap: f.text("max-gap", ""), Bridge: f.text("bridge", "") != "", Replace: f.text("replace", "") != "",
	})
	return d, ofField("log", err)
}

// ofField says of what is wrong with a file that it is so in its field.
func ofField(name string, err error) error {
	bad := entry.WrongsOf(err)
	for i := range bad {
		bad[i].Part = cmp.Or(bad[i].Part, name)
	}
	return bad.Err()
}
