package entry

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/ledger"
)

// spansFrom reads "freezing 8, primary 20" in hours; a line of 1 marks those that are
// recorded.
func spansFrom(text string, line int) (list []span) {
	words := ledger.MustKind("phase").Column("phase").Words
	for part := range strings.SplitSeq(text, ", ") {
		name, hours := "", 0
		if _, err := fmt.Sscan(part, &name, &hours); err != nil {
			continue
		}
		for i, w := range words {
			if w == name {
				list = append(list, span{name: ledger.PhaseName(i), length: time.Duration(hours) * time.Hour, line: line})
			}
		}
	}
	return list
}

func hoursOf(list []span) string {
	var words []string
	for _, s := range list {
		text := fmt.Sprintf("%v %v", s.name, s.length.Hours())
		if s.line > 0 {
			text += "!"
		}
		words = append(words, text)
	}
	return strings.Join(words, ", ")
}

// begins counts how many phases so far begin as the usual ones do.
func begins(sofar, usual []span) (same int) {
	for same < min(len(sofar), len(usual)) && sofar[same].name == usual[same].name {
		same++
	}
	return same
}

// The usual phases are 8, 20 and 6 hours. What is recorded has a "!".
func TestFitting(t *testing.T) {
	const usual = "freezing 8, primary 20, secondary 6"
	for _, c := range []struct {
		name, sofar   string
		total         int // 0: nobody knows
		want, changed string
	}{
		{"as they were", "", 34, "freezing 8, primary 20, secondary 6", ""},
		{"stretched", "", 37, "freezing 8, primary 23, secondary 6", ", primary 20h made 23h"},
		{"shortened", "", 15, "freezing 8, primary 1, secondary 6", ", primary 20h made 1h"},
		{"nobody knows how long", "", 0, "freezing 8, primary 20, secondary 6", ""},
		{"begun", "freezing 9", 37, "freezing 9!, primary 22, secondary 6", ", primary 20h made 22h"},
		{"begun, the longest is over", "freezing 9, primary 19", 37, "freezing 9!, primary 19!, secondary 9", ", secondary 6h made 9h"},
		{"time on top", "secondary 2", 37, "freezing 8, primary 21, secondary 6, secondary 2!", ", primary 20h made 21h"},
		{"on top of what has begun", "freezing 8, secondary 2", 36, "freezing 8!, primary 20, secondary 6, secondary 2!", ""},
		{"on top, of another name", "hold 1", 35, "freezing 8, primary 20, secondary 6, hold 1!", ""},
		{"stands for the usual one", "primary 23", 37, "freezing 8, primary 23!, secondary 6", ""},
		{"all is there", "freezing 8, primary 20, secondary 6", 34, "freezing 8!, primary 20!, secondary 6!", ""},
		{"all is there, and does not end with it", "freezing 8, primary 20, secondary 6", 36, "cannot", ""},
		{"too short a run", "", 14, "cannot", ""},
		{"shorter than what is recorded", "freezing 9", 8, "cannot", ""},
	} {
		sofar := spansFrom(c.sofar, 1)
		f := phaseFit{sofar: sofar, usual: spansFrom(usual, 0), known: c.total > 0, total: time.Duration(c.total) * time.Hour}
		f.same = begins(f.sofar, f.usual)
		list, ok := f.fit()
		have := hoursOf(list)
		if !ok {
			have = "cannot"
		}
		if have != c.want || ok && f.changed != c.changed {
			t.Errorf("%s: %s%s, want %s%s", c.name, have, f.changed, c.want, c.changed)
		}
	}
}

// Whatever is fitted lasts as long as the run did, keeps what is recorded as it
// is, and has no phase that lasts no time but those.
func TestFittingLasts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string, line int) (list []span) {
			for range rapid.IntRange(0, 4).Draw(t, label) {
				list = append(list, span{name: ledger.PhaseName(rapid.IntRange(0, 5).Draw(t, "name")), length: time.Duration(rapid.IntRange(1, 2000).Draw(t, "minutes")) * time.Minute, line: line})
			}
			return list
		}
		f := phaseFit{sofar: draw("sofar", 1), usual: draw("usual", 0), known: true, total: time.Duration(rapid.IntRange(0, 6000).Draw(t, "total")) * time.Minute}
		f.same = begins(f.sofar, f.usual)
		list, ok := f.fit()
		if !ok {
			return
		}
		recorded := time.Duration(0)
		for _, s := range list {
			if s.length <= 0 {
				t.Fatalf("a phase lasts %v: %s", s.length, hoursOf(list))
			}
			if s.line > 0 {
				recorded += s.length
			}
		}
		if off := sumOf(list) - f.total; off.Abs() > slack || recorded != sumOf(f.sofar) {
			t.Fatalf("they last %v of %v, %v of it recorded: %s", sumOf(list), f.total, recorded, hoursOf(list))
		}
	})
}
