package main

import (
	"testing"

	"putby/ledger"
)

// What a person may say to mend a fault has its flag.
func TestChoiceHints(t *testing.T) {
	for c, hint := range choiceHints {
		if (hint == "") != (ledger.Choice(c) == ledger.NoChoice) {
			t.Errorf("choice %d is told as %q", c, hint)
		}
	}
}
