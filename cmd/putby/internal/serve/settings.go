package serve

import (
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

var settingsForm = recording{
	path: "settings", title: "Change settings",
	intro:  "What applies to the whole ledger. What you leave alone stays as it is.",
	groups: settingsGroups, draft: settingsDraft,
}

// settingField is the name of the field of a setting.
func settingField(name string) string { return "setting-" + name }

// settings are the settings as the file has them.
func (f *filling) settings() map[string]string {
	rows, err := folder.Rows(f.files.Dir(), ledger.SettingsKind())
	if err != nil {
		return nil // the form says why
	}
	set := map[string]string{}
	for _, r := range rows {
		set[r.Cells["setting"]] = r.Cells["value"]
	}
	return set
}

// settingsWere are the settings as they were when the form was shown.
func (f *filling) settingsWere() map[string]string {
	if list := f.held(); list != nil {
		return list[0].Was
	}
	return f.settings()
}

func settingsGroups(f *filling) []page.Group {
	were := f.settingsWere()
	fields := []page.Field{heldRecord{Kind: ledger.SettingsKind().Name, Was: were}.field(1)}
	columns := ledger.SettingColumns()
	for i := range columns {
		if c := &columns[i]; c.Name != "format" { // of which there is one
			fields = append(fields, f.fieldOf(c, settingField(c.Name), were[c.Name]))
		}
	}
	return []page.Group{{Title: "Settings", Fields: fields}}
}

// settingsDraft sets what was changed, each as it is read for the command line.
func settingsDraft(f *filling) (*entry.Draft, error) {
	d, were, now := &entry.Draft{}, f.settingsWere(), f.settings()
	var bad entry.Wrongs
	for _, c := range ledger.SettingColumns() {
		name := settingField(c.Name)
		if !f.in.Has(name) || f.untouched(&c, name, were[c.Name]) {
			continue
		}
		value, err := f.At.ReadSetting(f.Records, c.Name, f.text(name, ""))
		if err == nil {
			err = entry.SettingFault(c.Name, value)
		}
		switch {
		case err != nil:
			bad = append(bad, entry.Wrong{Part: name, Err: err})
		case value == were[c.Name]:
		case now[c.Name] != were[c.Name]:
			bad = append(bad, entry.Wrong{Part: name, Err: entry.ChangedMeanwhile(ledger.SettingsKind())})
		default:
			d.Sets = append(d.Sets, entry.Setting(c.Name, value))
		}
	}
	return d, bad.Err()
}
