package ledger

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"putby/pricing/exact"
	"putby/pricing/locale"
)

var settingsKind = sync.OnceValue(func() Kind {
	return Kind{
		Name: "setting", Short: "what applies to the whole ledger", File: SettingsFile, Key: []string{"setting"},
		// A SettingsReader reads the rows into one struct, so there is a list to ask, and nothing in it.
		list: func(*Records) RecordList { return new(plainList[Settings]) },
		Columns: []Column{
			{Name: "setting", Cell: WordCell, Need: true, Help: "name", Own: true, Words: settingNames()},
			{Name: "value", Need: true, Help: "value"},
		},
	}
})

// settings are the settings, in the order in which a new ledger has them, as
// columns of their one record.
var settings = sync.OnceValue(func() []field[Settings] {
	return []field[Settings]{
		read("format", TextCell, (*cell).format, func(*Settings, string) {}, "of the files, 1").blank("1"),
		read("currency", TextCell, by("three capital letters, such as EUR, USD or JPY", exact.ParseCurrency),
			func(s *Settings, c exact.Currency) { s.Currency = c }, "ISO 4217 code, such as EUR").need(),
		read("zone", TextCell, (*cell).location, func(s *Settings, z *time.Location) { s.Zone = z }, "IANA time zone, such as Europe/Vienna").need(),
		ref("tariff", func(s *Settings, name string) { s.Tariff = name }, "the tariff of runs that name none", Tariffs),
		word("costing", words{"fifo", "average"}, func(s *Settings, c Costing) { s.Costing = c }, "").blank("fifo"),
		word("share", shares[:ByQuantity], func(s *Settings, by Share) { s.Share = by }, "").blank("water"),
		read("household_kwh_month", ListCell, (*cell).months, func(s *Settings, kwh [12]exact.Number) { s.Household = kwh },
			"other use a month, one number or twelve separated by ;").in("kWh").label("kWh of the rest of the household").blank("0"),
		money("hour_value", func(s *Settings, m exact.Money) { s.HourValue = m }, "money per hour of hands-on work").label("worth of an hour of work").blank("0"),
		quantity("freezer_volume", []exact.Dimension{exact.Volume}, func(s *Settings, q exact.Quantity) { s.Freezer = q },
			"what the freezer holds, such as 120 L: plans freeze within it").blank("plans freeze nothing"),
		positive("freezer_kwh_month", func(s *Settings, kwh exact.Number) { s.FreezerKWh = exact.Some(kwh) },
			"what the freezer uses a month").in("kWh").label("kWh of the freezer a month").blank("not known"),
		unit("show_volume", exact.Volume, func(s *Settings, u exact.Unit) { s.ShowVolume = u }),
		unit("show_mass", exact.Mass, func(s *Settings, u exact.Unit) { s.ShowMass = u }),
		read("locale", WordCell, by("leave it blank for plain figures", locale.Parse), func(s *Settings, l locale.Locale) { s.Locale = l },
			"how numbers, money and dates are shown, such as de-DE or en-US").among(locale.Tags()).blank("plain numbers, dates such as 2025-02-28"),
		date("as_of", func(s *Settings, d exact.Date) { s.AsOf = exact.Some(d) }, "day at which reports stand, for a ledger kept as an example").label("day of the reports").blank("today"),
		budget("food", "food"), budget("supplies", "supplies"), budget("machines", "machines"), budget("services", "services"),
		budget("other", "other things"), budget("electricity", "electricity"),
	}
})

// unit is a unit of a dimension.
func unit(name string, d exact.Dimension, set func(*Settings, exact.Unit)) field[Settings] {
	return read(name, WordCell, func(c *cell) exact.Unit { return c.unit(d) }, set, "unit that tables show").label("unit of " + d.String()).among(unitNames(d)).blank(d.Base().String())
}

func budget(kind, what string) field[Settings] {
	return money("budget_"+kind, func(s *Settings, m exact.Money) {
		if s.Budgets == nil {
			s.Budgets = map[string]exact.Money{}
		}
		s.Budgets[kind] = m
	}, "most to spend on "+what+" a month").label("budget for " + what)
}

// SettingColumns describes the settings, each as a column, in the order in which
// a new ledger has them.
func SettingColumns() []Column {
	list := make([]Column, len(settings()))
	for i := range settings() {
		list[i] = settings()[i].describe()
	}
	return list
}

func settingNames() []string {
	return Distinct(settings(), func(f *field[Settings]) string { return f.Name })
}

// format reads the format of the files, of which there is one.
func (c *cell) format() string {
	if c.text != "1" {
		c.fail("this program reads format 1", "%s is not a known format", exact.Quote(c.text))
	}
	return c.text
}

//go:embed zones.txt
var zoneNames string

// Zones are the names of all time zones that a ledger may have: those that Go
// knows by itself. Others, which a machine may have beside them (localtime,
// posixrules, right/...), would make a ledger say something else on the next
// machine, or nothing.
func Zones() []string { return strings.Fields(zoneNames) }

// CheckZone says whether name is an IANA time zone that a ledger may have.
func CheckZone(name string) error {
	if _, err := time.LoadLocation(name); err != nil || !slices.Contains(Zones(), name) {
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
	for i, part := range parts {
		list[i] = c.part(strings.TrimSpace(part)).number()
	}
	if len(parts) == 1 {
		list = [12]exact.Number(slices.Repeat(list[:1], 12))
	}
	return list
}

// A SettingsReader reads settings.csv, which comes before all other files,
// since they need its zone.
type SettingsReader struct {
	row   rowReader
	names int            // index of the column setting
	value int            // and of the column value
	width int            // cells of the header
	lines map[string]int // that the settings read so far stand in
	into  *Settings
}

// ReadSettings begins to read settings.csv with the given header into rec.
func ReadSettings(rec *Records, header []string) (*SettingsReader, Faults) {
	if faults := settingsKind().headerFaults(header); faults != nil {
		return nil, faults
	}
	rec.Settings = Settings{ShowVolume: exact.L, ShowMass: exact.Kg}
	return &SettingsReader{
		row: rowReader{file: SettingsFile}, into: &rec.Settings, lines: map[string]int{},
		names: slices.Index(header, "setting"), value: slices.Index(header, "value"), width: len(header),
	}, nil
}

// Row reads one setting, as [Reader.Row] does.
func (r *SettingsReader) Row(line int, cells []string) Faults {
	r.row.line, r.row.faults = line, r.row.faults[:0]
	if len(cells) != r.width {
		return widthFault(&r.row, len(cells), r.width, nil)
	}
	name, text := strings.TrimSpace(cells[r.names]), strings.TrimSpace(cells[r.value])
	at := slices.IndexFunc(settings(), func(f field[Settings]) bool { return f.Name == name })
	c := cell{row: &r.row, name: "setting", text: text}
	switch {
	case at < 0:
		c.fail("settings are "+strings.Join(settingNames(), ", "), "%s is not a setting", exact.Quote(name))
	case r.lines[name] > 0:
		c.fail("keep one of the two rows", "%s is set twice", name)
	case text == "" && settings()[at].Need:
		c.name, c.says = "value", name
		c.fail(settings()[at].Help, "it has no value")
	case text != "":
		c.name, c.says = "value", name
		settings()[at].reader()(&c, r.into)
	}
	r.lines[name] = cmp.Or(r.lines[name], line)
	return r.row.faults
}

// Close returns the faults of settings that are missing, and sets what they
// would have been, so that the other files can be read all the same. Only
// then is TariffLine known.
func (r *SettingsReader) Close() Faults {
	var faults Faults
	for _, s := range settings() {
		if s.Need && r.lines[s.Name] == 0 {
			faults = append(faults, Fault{File: SettingsFile, Line: 1, Column: 1, What: "the setting " + s.Name + " is missing", Hint: s.Help})
		}
	}
	if r.into.Zone == nil {
		r.into.Zone = time.UTC
	}
	r.into.TariffLine = r.lines["tariff"]
	return faults
}
