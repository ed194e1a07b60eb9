package folder

import (
	"maps"
	"path"

	"putby/energy"
	"putby/ledger"
)

// A material is what an excerpt is picked out of.
type material interface {
	few() *ledger.Records // its settings, foods, supplies, machines, tariffs and batches; nil with a fault
	table(name string) table
	excerpt(*excerptBuilder) *ledger.Records // what the tables keep, with all that has none; nil with a fault
}

// material is what is known of a ledger that has no fault: its records where they were
// kept, and else the texts of its files. It is nil where there may be faults.
func (b *Book) material() material {
	rec, sound := b.keptRecords()
	if b.flawless = b.flawless || sound || b.isSound(); !b.flawless {
		return nil
	}
	if rec != nil {
		return keptMaterial{rec}
	}
	return &textMaterial{b.files.texts, map[string]*textTable{}}
}

// keptMaterial are records that nobody else has.
type keptMaterial struct{ rec *ledger.Records }

func (m keptMaterial) few() *ledger.Records {
	all := m.rec
	return &ledger.Records{
		Settings: all.Settings, Foods: all.Foods, Supplies: all.Supplies, Machines: all.Machines, Tariffs: all.Tariffs, Batches: all.Batches,
	}
}

func (m keptMaterial) table(name string) table { return m.rec.Table(name) }

func (m keptMaterial) excerpt(p *excerptBuilder) *ledger.Records {
	m.rec.Meters = maps.Clone(m.rec.Meters)
	maps.DeleteFunc(m.rec.Meters, func(run string, _ *energy.Log) bool { return !p.runs[run] })
	return m.rec
}

// textMaterial are the texts of a ledger's files.
type textMaterial struct {
	texts  map[string]string
	tables map[string]*textTable
}

func (m *textMaterial) few() *ledger.Records {
	small := map[string]string{}
	for _, name := range []string{ledger.SettingsFile, ledger.FoodsFile, ledger.SuppliesFile, ledger.MachinesFile, ledger.TariffsFile, ledger.BatchesFile} {
		if text, there := m.texts[name]; there {
			small[name] = text
		}
	}
	return faultless(parse(&snapshot{texts: small}, keepTexts))
}

// faultless are records in which nothing is wrong; nil otherwise.
func faultless(rec *ledger.Records, faults ledger.Faults) *ledger.Records {
	if len(faults) > 0 {
		return nil
	}
	return rec
}

func (m *textMaterial) table(name string) table {
	t := &textTable{rowFinder: openRowFinder(m.texts[name])}
	if t.rowFinder == nil {
		t.rowFinder = new(rowFinder)
	}
	m.tables[name] = t
	return t
}

func (m *textMaterial) excerpt(p *excerptBuilder) *ledger.Records {
	texts := map[string]string{}
	for name, text := range m.texts {
		if t := m.tables[name]; t != nil {
			texts[name] = t.kept
		} else if path.Dir(name) != ledger.MeterFolder || p.runs[runOf(name)] {
			texts[name] = text
		}
	}
	return faultless(parse(&snapshot{texts: texts}, letGo))
}

// A textTable is the table of a file's text.
type textTable struct {
	rowFinder *rowFinder
	row       string // at hand
	kept      string
}

func (t *textTable) Column(name string) func() string {
	at := t.rowFinder.column(name)
	return func() string { return t.rowFinder.cell(t.row, at) }
}

func (t *textTable) Each(do func()) {
	t.rowFinder.each(func(row string) {
		t.row = row
		do()
	})
}

func (t *textTable) Keep(wanted func() bool) {
	t.kept = t.rowFinder.keep(func(row string) bool {
		t.row = row
		return wanted()
	})
}
