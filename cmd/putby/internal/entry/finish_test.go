package entry

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger/advice"
)

// later is a base some hours on.
func later(b *Base, hours int) *Base {
	return NewBase(b.Records, At(b.Records, b.At.Now.Add(time.Duration(hours)*time.Hour)))
}

// writes lists what a draft changes and adds, in the order of the files.
func writes(d *Draft) string {
	var list []string
	cells := func(cells map[string]string) string {
		var words []string
		for _, c := range slices.Sorted(maps.Keys(cells)) {
			if c != "run" {
				words = append(words, c+"="+cells[c])
			}
		}
		return strings.Join(words, " ")
	}
	for _, s := range d.Sets {
		list = append(list, fmt.Sprintf("%s: %s", s.Kind.Name, cells(s.Cells)))
	}
	for _, r := range d.Rows {
		list = append(list, fmt.Sprintf("+%s: %s", r.Kind.Name, cells(r.Cells)))
	}
	return strings.Join(list, "; ")
}

// The run of apples began at 20:10; now is the next day but one, at 5:00, after
// 32 h 50 min. Run c46, the last of apples, had 6h20m of freezing, 16m of
// evacuation, 19h10m of primary and 5h15m of secondary drying, 31h1m in all.
func TestFinish(t *testing.T) {
	secondary := rowOf("phase", "run", "c48", "step", "1", "phase", "secondary", "duration", "2h")
	all := []Row{rowOf("phase", "run", "c48", "step", "1", "phase", "freezing", "duration", "7h"), rowOf("phase", "run", "c48", "step", "2", "phase", "primary", "duration", "20h"),
		rowOf("phase", "run", "c48", "step", "3", "phase", "secondary", "duration", "5h")}
	for _, c := range []struct {
		name string
		b    *Base
		in   FinishIn
		want string
	}{
		{"the meter, now", begun(t), FinishIn{KWh: "14,4 kWh"}, "run: end=2025-11-17 05:00 kwh=14.4 outcome=good"},
		{"the meter, at a time", begun(t), FinishIn{KWh: "14.4", At: "yesterday 22:00", Hands: "25min", Note: "stood open"},
			"run: end=2025-11-16 22:00 hands=25m kwh=14.4 note=stood open outcome=good"},
		{"phases say when", begun(t), FinishIn{Phases: []string{"freezing 8h", "primary 19h30m 640 W"}},
			"run: outcome=good; +phase: duration=8h phase=freezing step=1; +phase: duration=19h30m phase=primary step=2 watts=640"},
		{"phases, and when", begun(t), FinishIn{Phases: []string{"freezing 8h", "primary 24h50m"}, At: "4:59"},
			"run: outcome=good; +phase: duration=8h phase=freezing step=1; +phase: duration=24h50m phase=primary step=2"},
		{"phases so far are all", begun(t, all...), FinishIn{KWh: "14"}, "run: kwh=14 outcome=good"},
		{"phases behind those so far", begun(t, all[:2]...), FinishIn{Phases: []string{"secondary 5h"}}, "run: outcome=good; +phase: duration=5h phase=secondary step=3"},
		{"as usual", begun(t), FinishIn{AsUsual: true}, "run: note=phases as run c46, primary 19h10m made 20h59m outcome=good; " +
			"+phase: duration=6h20m phase=freezing step=1; +phase: duration=16m phase=evacuation step=2; +phase: duration=20h59m phase=primary step=3; +phase: duration=5h15m phase=secondary step=4"},
		{"as usual, with time on top", begun(t, secondary), FinishIn{KWh: "14"}, "phase: step=5; run: kwh=14 note=phases as run c46, primary 19h10m made 18h59m outcome=good; " +
			"+phase: duration=6h20m phase=freezing step=1; +phase: duration=16m phase=evacuation step=2; +phase: duration=18h59m phase=primary step=3; +phase: duration=5h15m phase=secondary step=4"},
		{"weights of the only food", begun(t), FinishIn{KWh: "14", Dry: []string{"180 g"}}, "run: end=2025-11-17 05:00 kwh=14 outcome=good; load: dry=180 g wet=1.2 kg"},
		{"weights by name, either way round", begun(t), FinishIn{KWh: "14", Wet: []string{"1.3 kg APPLE SLICES"}, Dry: []string{"apples 180g"}, Lost: []string{"50 g apples"}},
			"run: end=2025-11-17 05:00 kwh=14 outcome=good; load: dry=180g lost=50 g wet=1.3 kg"},
		{"spoiled", begun(t), FinishIn{KWh: "3", Spoiled: true}, "run: end=2025-11-17 05:00 kwh=3 outcome=spoiled"},
		{"more time", begun(t, all[:2]...), FinishIn{More: []string{"secondary 2h"}, KWh: "9"}, "run: kwh=9; +phase: duration=2h phase=secondary step=3"},
		{"of one that is finished", begun(t), FinishIn{Run: "C47", KWh: "17.4", Dry: []string{"0.53 kg"}}, "run: kwh=17.4; load: dry=0.53 kg"},
		{"what is there is no change", begun(t), FinishIn{Run: "c47", KWh: "17.17", Hands: "1h"}, "run: hands=1h"},
	} {
		d, err := Finish(later(c.b, 17), c.in)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if have := writes(d); have != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, have, c.want)
		}
	}
}

// What cannot be is said in a sentence, with what is there and what to type.
func TestFinishRefuses(t *testing.T) {
	secondary := rowOf("phase", "run", "c48", "step", "1", "phase", "secondary", "duration", "2h")
	shed := []Row{rowOf("machine", "machine", "shed", "cycles", "900"), rowOf("run", "run", "c49", "machine", "shed", "start", "2025-11-16 09:00", "outcome", "running"),
		rowOf("load", "run", "c49", "item", "onions", "quantity", "0.5 kg"), rowOf("load", "run", "c49", "item", "apples", "quantity", "0.1 kg")}
	for _, c := range []struct {
		name string
		b    *Base
		in   FinishIn
		why  string
	}{
		{"none is running", bench(t), FinishIn{KWh: "14"}, "no run is running: start begins one; to add to one that is finished, name it, as in finish c47 kwh 17.4"},
		{"two are", begun(t, shed...), FinishIn{KWh: "14"}, "several runs are running: say which, as in finish c48 or c49"},
		{"no such run", begun(t), FinishIn{Run: "c84"}, `no run is called "c84"`},
		{"nothing is known", begun(t), FinishIn{}, `how much electricity did run c48 use? Give the meter's kWh (kwh 17.4), or each phase (phase "primary 22h"), or as-usual for the phases of run c46`},
		{"nothing to go by", begun(t, shed...), FinishIn{Run: "c49", AsUsual: true}, "no finished run of Onions on shed has phases to go by: give them, as in phase \"primary 22h\", or the meter's kwh"},
		{"before its start", begun(t), FinishIn{KWh: "14", At: "2025-11-15 20:00"}, "run c48 began on Sat 2025-11-15 at 20:10, so it cannot have ended on Sat 2025-11-15 at 20:00"},
		{"phases that go on", begun(t), FinishIn{KWh: "14", Phases: []string{"primary 40h"}}, "Mon 2025-11-17 at 12:10 is still to come"},
		{"phases and another end", begun(t), FinishIn{KWh: "14", Phases: []string{"primary 20h"}, At: "4:00"},
			"the phases of run c48 last 20h, until Sun 2025-11-16 at 16:10, and it ended on Mon 2025-11-17 at 04:00: correct a phase or the time"},
		{"phases so far are not all", begun(t, secondary), FinishIn{}, `the phases of run c48 so far last 2h, and it ran 32h50m: give the others (phase "primary 22h"), or as-usual`},
		{"both ways", begun(t), FinishIn{AsUsual: true, Phases: []string{"primary 20h"}}, "as-usual stands for phase"},
		{"a phase that there is not", begun(t), FinishIn{Phases: []string{"priamry 20h"}}, `"priamry" is no phase; did you mean primary?`},
		{"no length", begun(t), FinishIn{Phases: []string{"primary soon"}}, `"soon" is no length of time`},
		{"what nothing tells of", begun(t, shed...), FinishIn{Run: "c49", Phases: []string{"defrost 15h"}}, "nothing says how much electricity the phase defrost used"},
		{"no kWh", begun(t), FinishIn{KWh: "lots"}, `"lots": write the meter's kWh as 17.4`},
		{"below nothing", begun(t), FinishIn{KWh: "-1"}, "write the meter's kWh"},
		{"another energy", begun(t), FinishIn{KWh: "17 L"}, "write the meter's kWh"},
		{"no hands", begun(t), FinishIn{KWh: "14", Hands: "long"}, "write a length of time as 25m"},
		{"more, and an end", begun(t), FinishIn{More: []string{"secondary 2h"}, At: "4:00"}, "more adds time to a run that goes on: leave out what ends it"},
		{"more of one that is over", begun(t), FinishIn{Run: "c47", More: []string{"secondary 2h"}}, "run c47 is finished: phase add"},
		{"more of what", begun(t), FinishIn{More: []string{"2h"}}, `"2h": write a phase and how long it took`},
		{"no weight", begun(t), FinishIn{KWh: "14", Dry: []string{"apples"}}, `"apples": it says no amount: write dry "apples 0.61 kg"`},
		{"no weight but a volume", begun(t), FinishIn{KWh: "14", Dry: []string{"0.6 L"}}, "a weight has a unit, such as 0.61 kg"},
		{"food that is not in it", begun(t), FinishIn{KWh: "14", Dry: []string{"onions 0.6 kg"}}, "run c48 was not loaded with that: it has apples"},
		{"which food", begun(t, shed...), FinishIn{Run: "c49", KWh: "14", Dry: []string{"60 g"}}, "run c49 has onions or apples: name the food too"},
		{"dry above wet", begun(t), FinishIn{KWh: "14", Dry: []string{"1.3 kg"}}, "of Apple slices 1.3 kg dry is more than 1.2 kg wet"},
		{"more lost than loaded", begun(t), FinishIn{KWh: "14", Lost: []string{"1.3 kg"}}, "1.3 kg of Apple slices is lost, and 1.2 kg was loaded: a run of which all is lost is spoiled"},
		{"nothing to add", begun(t), FinishIn{Run: "c47"}, "run c47 is finished: say what is to be added"},
		{"phases twice", begun(t), FinishIn{Run: "c47", AsUsual: true}, "run c47 has phases already"},
	} {
		_, err := Finish(later(c.b, 17), c.in)
		if !errors.Is(err, ErrTyped) && !errors.Is(err, ErrNone) && !errors.Is(err, ErrAhead) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: %v, want %s", c.name, err, c.why)
		}
	}
}

// All phases that are wrong are told, each by its number.
func TestFinishTellsEachPhase(t *testing.T) {
	_, err := Finish(later(begun(t), 17), FinishIn{Phases: []string{"freezing 8h", "priamry 20h", "secondary soon"}})
	var have []string
	for _, w := range WrongsOf(err) {
		have = append(have, fmt.Sprintf("%s %d %v", w.Part, w.Number, w.Err))
	}
	for i, want := range []string{`phases 2 "priamry`, `phases 3 "secondary soon`} {
		if len(have) != 2 || !strings.HasPrefix(have[i], want) {
			t.Errorf("%q, want %s", have, want)
		}
	}
}

// What comes next is to pack it as last time, in bags of 500 g. A kilogram of apples made
// 0.95 to 1 kg, so 1.2 kg fill 2.3 to 2.4 bags and 1.4 kg 2.7 to 2.8.
func TestFinishSaysHowToPack(t *testing.T) {
	for quantity, next := range map[string]string{"1.2 kg": "pack add 2", "1.4 kg": "pack add 3"} {
		b := bench(t, rowOf("run", "run", "c48", "machine", "rimewell", "start", "2025-11-15 20:10", "outcome", "running"),
			rowOf("load", "run", "c48", "item", "apples", "quantity", quantity))
		d, err := Finish(later(b, 12), FinishIn{KWh: "14.4"})
		if err != nil || len(d.Next) != 1 || (advice.Plain{}).Say(d.Next[0]) != next {
			t.Errorf("after %s of apples: %v (%v), want %s", quantity, d, err, next)
		}
	}
}
