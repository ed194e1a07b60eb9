package folder

import "testing"

// rulesVariable has a process of a test go by the rules of Windows.
const rulesVariable = "FOLDER_RULES"

// By the rules of Windows, as far as they can be kept here, saves do not mix
// either, and nobody in the queue is passed over or lost.
func TestByTheRulesOfWindows(t *testing.T) {
	t.Setenv(rulesVariable, "windows")
	before := here
	here = windowsRules
	t.Cleanup(func() { here = before })
	for name, law := range map[string]func(*testing.T){
		"mark": TestMark, "look": TestLook, "waiting": TestWaiting, "queue": TestQueue, "sixteen": TestSixteen, "folders": TestMakeOutside, "undo": TestUndo,
	} {
		t.Run(name, law)
	}
}
