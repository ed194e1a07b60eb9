package serve

import "testing"

// A changed setting is told by what its form calls it, with its currency, and the list
// of changes says which it was.
func TestSettingsTold(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	_, settings := ask(t, "GET", link+"settings", "")
	saves(t, link, "settings", []string{recordName(1), hiddenIn(t, settings, recordName(1)), "setting-hour_value", "12"},
		"Setting worth of an hour of work: 12 CAD.")
	shows(t, link, "changes", "Setting worth of an hour of work: 12 CAD (before: ")
	shows(t, link, "settings", "worth of an hour of work", "budget for food")
}

// What an option's name does not say by itself, the form of a sale calls as a cook would.
func TestWorthInWords(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	shows(t, link, "worth", "dried as", "what one container gives", "what goes with each container", "turns by")
}
