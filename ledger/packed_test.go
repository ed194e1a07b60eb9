package ledger_test

import (
	"strings"
	"testing"
)

// sixes are runs of 6 L of stock each: three packed as 5.4 L, and one so far.
const sixes = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,stock,1,24 L,24.00
-- runs.csv --
run,machine,start,kwh
1,dryer,2025-01-02 08:00,0
2,dryer,2025-01-03 08:00,0
3,dryer,2025-01-04 08:00,0
4,dryer,2025-01-05 08:00,0
-- loads.csv --
run,item,quantity,lost
1,stock,6 L,
2,stock,6 L,
3,stock,6 L,
4,stock,6 L,1 L
-- packs.csv --
pack,run,item,date,count,each,packed
1,1,stock,2025-01-10,6,900 mL,
2,2,stock,2025-01-10,6,900 mL,
3,3,stock,2025-01-10,6,900 mL,
`

// short reads how far the food of a run is packed.
func short(t *testing.T, text, id string) (usual string, is bool) {
	t.Helper()
	g := book(t, text)
	item := &run(t, g, id).Items[0]
	n, _ := item.Usual.Number()
	return n.String(), item.Short
}

// Of the 5 L kept of run 4 usually 4.5 L come back, nine tenths as of the others.
// Less than four fifths of that, 3.6 L, is packed in part; just 3.6 L is all, and
// so is less where a pack says so. What is not packed at all is not in part.
func TestPackedInPart(t *testing.T) {
	for pack, want := range map[string]bool{
		"4,4,stock,2025-01-11,3,1 L,\n":                                    true,
		"4,4,stock,2025-01-11,1,3.6 L,\n":                                  false,
		"4,4,stock,2025-01-11,1,3.599 L,\n":                                true,
		"4,4,stock,2025-01-11,3,1 L,all\n":                                 false,
		"4,4,stock,2025-01-11,3,1 L,\n5,4,stock,2025-02-11,1,700 mL,\n":    false,
		"4,4,stock,2025-01-11,3,1 L,\n5,4,stock,2025-02-11,1,500 mL,all\n": false,
		"": false,
	} {
		if usual, is := short(t, sixes+pack, "4"); usual != "4.5" || is != want {
			t.Errorf("%q: packed in part %t, usually %s", pack, is, usual)
		}
	}
}

// What is usual is the median of the others: of three the middle one, of two
// their mean. Runs 1 to 3 give 0.5, 0.8 and 0.9 of what was loaded.
func TestUsuallyMade(t *testing.T) {
	text := strings.NewReplacer("1,1,stock,2025-01-10,6,900 mL", "1,1,stock,2025-01-10,3,1 L", "2,2,stock,2025-01-10,6,900 mL", "2,2,stock,2025-01-10,6,800 mL").Replace(sixes)
	for id, want := range map[string]string{"1": "5.1", "2": "4.2", "3": "3.9", "4": "4"} {
		if usual, is := short(t, text, id); usual != want || is != (id == "1") {
			t.Errorf("run %s usually makes %s, packed in part %t, want %s", id, usual, is, want)
		}
	}
}

// A run of which over 130 % of what was kept is packed says nothing of the others:
// 7.8 L of 6 still do, 1.3 of what was loaded; 7.806 do not. It is held to the
// others itself, and of one run alone to what was loaded. Where each of two makes
// so much it is how the food is.
func TestPackedOverIsNotUsual(t *testing.T) {
	first := strings.NewReplacer("2,2,stock,2025-01-10,6,900 mL,\n", "", "3,3,stock,2025-01-10,6,900 mL,\n", "").Replace(sixes)
	for _, c := range []struct {
		pack, of, usual string
		short           bool
	}{
		{"4,4,stock,2025-01-11,5,1.3 L,\n", "1", "7.8", true},
		{"4,4,stock,2025-01-11,5,1.301 L,\n", "1", "6", false},
		{"4,4,stock,2025-01-11,5,1.301 L,\n", "2", "5.4", false},
		{"4,4,stock,2025-01-11,5,1.301 L,\n", "4", "4.5", false},
	} {
		if usual, is := short(t, first+c.pack, c.of); usual != c.usual || is != c.short {
			t.Errorf("%q: run %s usually makes %s, packed in part %t, want %+v", c.pack, c.of, usual, is, c)
		}
	}
	alone := strings.Replace(first, "1,1,stock,2025-01-10,6,900 mL,\n", "", 1)
	if usual, _ := short(t, alone+"4,4,stock,2025-01-11,5,2 L,\n", "1"); usual != "6" {
		t.Errorf("one run of 10 L of 5: another makes %s", usual)
	}
	if usual, _ := short(t, alone+"1,1,stock,2025-01-10,12,1 L,\n4,4,stock,2025-01-11,5,2 L,\n", "2"); usual != "12" {
		t.Errorf("two runs that double: another makes %s", usual)
	}
}

// A run packed in part keeps its costs on the packs that it has: no estimate
// moves money.
func TestPackedInPartMovesNoMoney(t *testing.T) {
	g := book(t, sixes+"4,4,stock,2025-01-11,3,1 L,\n")
	figures(t, map[string]any{"pack": pack(t, g, "4").Total(), "awaiting": g.AwaitingPacking()}, map[string]string{"pack": "5", "awaiting": "0"})
	wantFaults(t, "-- packs.csv --\npack,item,date,count,each,cost,packed\np,egg,2025-01-01,1,1,1,all\nq,egg,2025-01-01,1,1,1,half\n",
		"packs.csv:2 packed packed: opening stock comes from no run", "packs.csv:3 packed packed:")
}

// The only run of a food is held to what was loaded and kept.
func TestPackedAlone(t *testing.T) {
	for each, want := range map[string]bool{"1 ea": true, "4 ea": false} {
		g := book(t, oneRun+"-- packs.csv --\npack,run,item,date,count,each\np,r,egg,2025-01-03,1,"+each+"\n")
		if item := run(t, g, "r").Items[0]; item.Short != want {
			t.Errorf("%s of 4 eggs: packed in part %t", each, item.Short)
		}
	}
}
