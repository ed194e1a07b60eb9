package folder

import "putby/ledger"

// mostSettings is more than any settings.csv has, in bytes.
const mostSettings = 1 << 20

// SettingsOf returns the settings of the ledger in dir, without reading its other
// files, as far as they can be read: what is wrong with them [Read] says.
func SettingsOf(dir string) ledger.Settings {
	rec := &ledger.Records{}
	root, err := openRoot(dir)
	if err != nil {
		return rec.Settings
	}
	defer root.Close()
	if text, found, err := root.read(ledger.SettingsFile, mostSettings); err == nil && found {
		parseSettings(text, rec)
	}
	return rec.Settings
}
