package report_test

import (
	"strings"
	"testing"

	"putby/pricing/exact"
)

// Four jars that all stand full are as many as receipts cover, and none is free;
// of three that is said. Nothing else is.
func TestOnHandJarsAllFull(t *testing.T) {
	text := jars[:strings.Index(jars, "-- draws")]
	for _, c := range []struct{ bought, free, note string }{
		{"5", "1", ""}, {"4", "0", ""}, {"3", "0", "in store than receipts cover"},
	} {
		d := onHand(t, join(t, write(t, strings.Replace(text, "jar,1,12 ea", "jar,1,"+c.bought+" ea", 1)), exact.NoDate), nil)
		supplies := table(t, d, "supplies")
		jar := find(t, supplies, "supply", "jar")
		wants(t, supplies, jar, map[string]string{"owned": c.bought, "in_store": "4", "free": c.free, "lasts": c.free})
		if notes := strings.Join(supplies.Rows[jar].Notes, "; "); !strings.HasSuffix(notes, c.note) || (c.note == "") != (notes == "") {
			t.Errorf("of %s jars it says %q, want %q", c.bought, notes, c.note)
		}
	}
}
