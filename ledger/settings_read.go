package ledger

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
	"time"

	"putby/pricing/exact"
)

var settingsKind = Kind{
	Name: "setting", File: SettingsFile, Key: []string{"setting"},
	Columns: []Column{
		{"setting", true, "name"},
		{"value", true, "value"},
	},
}

// setting is one setting: how it is read, and whether every ledger has it.
type setting struct {
	need bool
	help string
	set  func(*cell, *Settings)
}

var settingNames = []string{
	"format", "currency", "zone", "tariff", "costing", "share", "household_kwh_month", "hour_value",
	"show_volume", "show_mass", "as_of", "budget_food", "budget_supplies", "budget_machines", "budget_services",
	"budget_other", "budget_electricity",
}

var settingTable = map[string]setting{
	"format": {false, "of the files, 1 (1)", func(c *cell, s *Settings) {
		if c.text != "1" {
			c.fail("this program reads format 1", "%s is not a known format", exact.Quote(c.text))
		}
	}},
	"currency": {true, "ISO 4217 code, such as EUR", func(c *cell, s *Settings) {
		s.Currency = parsed(c, "three capital letters, such as EUR, USD or JPY", exact.ParseCurrency)
	}},
	"zone": {true, "IANA time zone, such as Europe/Vienna", func(c *cell, s *Settings) { s.Zone = c.location() }},
	"tariff": {false, "the tariff of runs that name none", func(c *cell, s *Settings) {
		s.Tariff, s.TariffLine = c.id(), c.row.line
	}},
	"costing": {false, "fifo or average (fifo)", func(c *cell, s *Settings) {
		s.Costing = Costing(c.word(words{"fifo", "average"}))
	}},
	"share": {false, "water, mass or trays (water)", func(c *cell, s *Settings) {
		s.Share = Share(c.word(words{"water", "mass", "trays"}))
	}},
	"household_kwh_month": {false, "other use a month, one number or twelve separated by ; (0)", func(c *cell, s *Settings) {
		s.Household = c.months()
	}},
	"hour_value": {false, "money per hour of hands-on work (0)", func(c *cell, s *Settings) { s.HourValue = c.money() }},
	"show_volume": {false, "unit that tables show (L)", func(c *cell, s *Settings) {
		s.ShowVolume = c.unit(exact.Volume)
	}},
	"show_mass": {false, "unit that tables show (kg)", func(c *cell, s *Settings) {
		s.ShowMass = c.unit(exact.Mass)
	}},
	"as_of": {false, "day at which reports stand, for a ledger kept as an example (today)", func(c *cell, s *Settings) {
		s.AsOf = exact.Some(c.date())
	}},
	"budget_food":        budget("food"),
	"budget_supplies":    budget("supplies"),
	"budget_machines":    budget("machines"),
	"budget_services":    budget("services"),
	"budget_other":       budget("other"),
	"budget_electricity": budget("electricity"),
}

func budget(kind string) setting {
	return setting{false, "most to spend on it a month", func(c *cell, s *Settings) {
		if s.Budgets == nil {
			s.Budgets = map[string]exact.Money{}
		}
		s.Budgets[kind] = c.money()
	}}
}

// SettingNames lists the settings with what each holds, in the order in which
// a new ledger has them.
func SettingNames() []Column {
	var list []Column
	for _, name := range settingNames {
		s := settingTable[name]
		list = append(list, Column{name, s.need, s.help})
	}
	return list
}

//go:embed zones.txt
var zoneNames string

// zones are the names of the time zones that Go knows by itself. Others, which a
// machine may have beside them (localtime, posixrules, right/...), would make a
// ledger say something else on the next machine, or nothing.
var zones = sync.OnceValue(func() map[string]bool {
	names := map[string]bool{}
	for _, name := range strings.Fields(zoneNames) {
		names[name] = true
	}
	return names
})

// CheckZone says whether name is an IANA time zone that a ledger may have.
func CheckZone(name string) error {
	if _, err := time.LoadLocation(name); err != nil || !zones()[name] {
		return fmt.Errorf("%s is not a time zone: write an IANA name, such as Europe/Vienna", exact.Quote(name))
	}
	return nil
}

// location reads an IANA time zone.
func (c *cell) location() *time.Location {
	if err := CheckZone(c.text); err != nil {
		c.fail("write an IANA name, such as Europe/Vienna", "%s is not a time zone", exact.Quote(c.text))
		return nil
	}
	zone, _ := time.LoadLocation(c.text)
	return zone
}

// months reads one number or twelve.
func (c *cell) months() (list [12]exact.Number) {
	parts := strings.Split(c.text, ";")
	if len(parts) != 1 && len(parts) != 12 {
		c.fail("write one number, or twelve separated by ; from January on", "there are %d numbers", len(parts))
		return list
	}
	for i := range list {
		one := *c
		one.text = strings.TrimSpace(parts[i%len(parts)])
		if len(parts) == 1 && i > 0 {
			list[i] = list[0]
			continue
		}
		list[i] = one.number()
	}
	return list
}

// A SettingsReader reads settings.csv, which comes before all other files,
// since they need its zone.
type SettingsReader struct {
	row   rowReader
	names int // index of the column setting
	value int
	width int
	seen  map[string]bool
	into  *Settings
}

// ReadSettings begins to read settings.csv with the given header into rec.
func ReadSettings(rec *Records, header []string) (*SettingsReader, Faults) {
	k := settingsKind
	r := &SettingsReader{row: rowReader{file: k.File}, into: &rec.Settings, seen: map[string]bool{}, width: len(header)}
	r.names, r.value = -1, -1
	k.reader = func(*Records, Context, []string) rowFunc { return nil }
	if _, faults := k.Read(rec, Context{}, header); faults != nil {
		return nil, faults
	}
	for i, name := range header {
		switch name {
		case "setting":
			r.names = i
		case "value":
			r.value = i
		}
	}
	*r.into = Settings{ShowVolume: exact.L, ShowMass: exact.Kg}
	return r, nil
}

// Row reads one setting, as [Reader.Row] does.
func (r *SettingsReader) Row(line int, cells []string) Faults {
	r.row.line, r.row.faults = line, r.row.faults[:0]
	if len(cells) != r.width {
		return widthFault(&r.row, len(cells), r.width, nil)
	}
	name, text := strings.TrimSpace(cells[r.names]), strings.TrimSpace(cells[r.value])
	s, known := settingTable[name]
	c := cell{row: &r.row, name: "setting", text: text}
	switch {
	case !known:
		c.fail("settings are "+strings.Join(settingNames, ", "), "%s is not a setting", exact.Quote(name))
	case r.seen[name]:
		c.fail("keep one of the two rows", "%s is set twice", name)
	case text == "" && s.need:
		c.name, c.says = "value", name
		c.fail(s.help, "it has no value")
	case text != "":
		c.name, c.says = "value", name
		s.set(&c, r.into)
	}
	r.seen[name] = true
	return r.row.faults
}

// Close returns the faults of settings that are missing, and sets what they
// would have been, so that the other files can be read all the same.
func (r *SettingsReader) Close() Faults {
	var faults Faults
	for _, name := range settingNames {
		if s := settingTable[name]; s.need && !r.seen[name] {
			faults = append(faults, Fault{File: SettingsFile, Line: 1, Column: 1, What: "the setting " + name + " is missing", Hint: s.help})
		}
	}
	if r.into.Zone == nil {
		r.into.Zone = time.UTC
	}
	return faults
}
