package intake

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

func readLog(t testing.TB, in string, o LogOptions) (*energy.Log, LogReport) {
	t.Helper()
	log, report, err := ReadLog(strings.NewReader(in), o)
	if err != nil {
		t.Fatalf("%v\nin %s", err, in)
	}
	return log, report
}

// samples writes a log in short: seconds since t0 and watts.
func samples(l *energy.Log) string {
	var out []string
	for s := range l.All() {
		out = append(out, fmt.Sprintf("%v:%v", s.At.Sub(t0).Seconds(), s.Watts))
	}
	return strings.Join(out, " ")
}

// One log in the shapes that plug meters and spreadsheets give: 100 W at
// 0:00:00, 250.5 W at 0:00:10, 0 W at 0:01:00 on 1 January 2025, UTC.
func TestLogShapes(t *testing.T) {
	berlin := LogOptions{Zone: zone(t, "Europe/Berlin")}
	for name, c := range map[string]struct {
		in string
		o  LogOptions
	}{
		"as kept":          {"time,watts\n2025-01-01T00:00:00Z,100\n2025-01-01T00:00:10Z,250.5\n2025-01-01T00:01:00Z,0\n", LogOptions{}},
		"offsets":          {"Time,Power (W)\n2025-01-01 01:00:00+01:00,100\n2024-12-31T20:00:10-0400,250.5\n2025-01-01T05:31+0530,0.000\n", LogOptions{}},
		"local time":       {"timestamp,w\n2025-01-01 01:00:00,100\n2025-01-01 01:00:10,250.5\n2025-01-01 01:01,0\n", berlin},
		"named months":     {"time,w\n\"1 Jan 2025, 1:00 am\",100\nWed Jan 1 2025 01:00:10,250.5\n20250101 01:01:00,0\n", berlin},
		"seconds":          {"epoch,power_w\n1735689600,100\n1735689610.0,250.5\n1735689660,0\n", LogOptions{}},
		"milliseconds":     {"ts,kW\n1735689600000,0.1\n1735689610000,0.2505\n1735689660000,0\n", LogOptions{}},
		"semicolons":       {"\xef\xbb\xbfZeit;Leistung (kW)\r\n01.01.2025 01:00:00;0,1\r\n1.1.2025 1:00:10;0,2505\r\n1.1.2025 1:01;0,0\r\n", berlin},
		"tabs and sep":     {"sep=\t\ntime\twatts\n2025-01-01T00:00:00Z\t100\n2025-01-01T00:00:10Z\t250,5\n2025-01-01T00:01:00Z\t0\n", LogOptions{}},
		"utf-16":           {string(utf16Bytes("Zeit;Leistung (kW)\n01.01.2025 01:00:00;0,1\n1.1.2025 1:00:10;0,2505\n1.1.2025 1:01;0,0\n", binary.LittleEndian, true)), berlin},
		"windows-1252":     {"Z\xe4hler;Zeit|1;Leistung (kW)\nk\xfcche;01.01.2025 01:00:00;0,1\n;1.1.2025 1:00:10;0,2505\n;1.1.2025 1:01;0,0\n", berlin},
		"bars":             {"time|watts\n2025-01-01T00:00:00Z|100\n2025-01-01T00:00:10Z|250,5\n2025-01-01T00:01:00Z|0\n", LogOptions{}},
		"commas in header": {"Zeit;Leistung (W, Mittel)\n2025-01-01T00:00:00Z;100,0\n2025-01-01T00:00:10Z;250,5\n2025-01-01T00:01:00Z;0,0\n", LogOptions{}},
		"commas in notes":  {"time;watts;note\n2025-01-01T00:00:00Z;100;a,b,c,d,e,f,g,h\n2025-01-01T00:00:10Z;250,5;a,b,c,d,e,f,g,h\n2025-01-01T00:01:00Z;0;a,b,c,d,e,f,g,h\n", LogOptions{}},
		"quoted header":    {"\"time\",\"power; W\",note\n2025-01-01T00:00:00Z,100,a;b;c;d\n2025-01-01T00:00:10Z,250.5,a;b;c;d\n2025-01-01T00:01:00Z,0,a;b;c;d\n", LogOptions{}},
		"two columns":      {"no;Date;Time;Watt;Volt\n1;2025-01-01;01:00:00;100;230\n2;2025-01-01;01:00:10;250,5;231\n3;2025-01-01;01:01:00;0;229\n", berlin},
		"quotes, blanks":   {"\"time\",\"power [W]\"\n\n\"2025-01-01T00:00:00Z\",\"100\"\n,\n2025-01-01T00:00:10Z, 250.5\n2025-01-01T00:00:20Z,\n2025-01-01T00:01:00Z,0", LogOptions{}},
		"power and energy": {"time,total (kWh),power (W)\n2025-01-01T00:00:00Z,5,100\n2025-01-01T00:00:10Z,5,250.5\n2025-01-01T00:01:00Z,5.1,0\n", LogOptions{}},
		"named columns":    {"when,L1 (W),L2 (W)\n2025-01-01T00:00:00Z,1,100\n2025-01-01T00:00:10Z,1,250.5\n2025-01-01T00:01:00Z,1,0\n", LogOptions{TimeColumn: "when", ValueColumn: "L2 (W)"}},
		"named unit":       {"time,power\n2025-01-01T00:00:00Z,0.1\n2025-01-01T00:00:10Z,0.2505\n2025-01-01T00:01:00Z,0\n", LogOptions{Unit: exact.KW}},
	} {
		log, report := readLog(t, c.in, c.o)
		if got := samples(log); got != "0:100 10:250.5 60:0" {
			t.Errorf("%s: samples are %s", name, got)
		}
		if !report.First.Equal(t0) || !report.Last.Equal(t0.Add(time.Minute)) || report.Samples != 3 || strings.ContainsRune(report.TimeColumn, 0xfffd) {
			t.Errorf("%s: report is %+v", name, report)
		}
		if name == "quotes, blanks" && (report.Rows != 4 || report.Blank != 1) || name == "power and energy" && !slices.Equal(report.Unread, []string{"total (kWh)"}) {
			t.Errorf("%s: report is %+v", name, report)
		}
	}
}

func TestLogReadFaults(t *testing.T) {
	const head = "time,power (W)\n2025-01-01T00:00:00Z,1\n"
	berlin := zone(t, "Europe/Berlin")
	for _, c := range []struct {
		in   string
		o    LogOptions
		want string
	}{
		{"", LogOptions{}, "1:1: the file is empty"},
		{"time\n", LogOptions{}, "1:1: the first row has no comma"},
		{"time,power (W)\n", LogOptions{}, "1:1: the log has no rows with values"},
		{"a,power (W)\n", LogOptions{}, "1:1: no column is headed as one of times"},
		{"time,end time,W\n", LogOptions{}, `1:1: several columns could hold the time: "time", "end time"`},
		{"time,a,b\n", LogOptions{}, "1:1: no column is headed with W, kW, Wh or kWh"},
		{"time,W,kW\n", LogOptions{}, `1:1: several columns could hold the power: "W", "kW"`},
		{"time,power\n", LogOptions{}, `1:1: the unit of the column "power" is not known`},
		{"time,W\n", LogOptions{ValueColumn: "x"}, `1:1: there is no column "x"`},
		{"time,W\n\x00", LogOptions{}, "line 2: it is no text and no table, but perhaps a picture: there is a zero byte, which no text has"},
		{head + "2025-01-01T00:00:00Z,2\n", LogOptions{}, "3:1: the time 2025-01-01T00:00:00Z is there twice"},
		{head + "2024-12-31T23:59:59.5Z,2\n", LogOptions{}, "3:1: the time is before that of the row above, 2025-01-01T00:00:00Z"},
		{head + "2025-01-01T00:01:00,2\n", LogOptions{}, `3:1: "2025-01-01T00:01:00" has no offset, and no time zone is given`},
		{head + "2025-03-30 02:30:00,2\n", LogOptions{Zone: berlin}, `3:1: "2025-03-30 02:30:00" is skipped by the clocks of Europe/Berlin`},
		{head + "2025-02-29T00:01:00Z,2\n", LogOptions{}, `3:1: "2025-02-29T00:01:00Z" is not a time that there is`},
		{head + "02/03/2025 10:00,2\n", LogOptions{}, `3:1: "02/03/2025 10:00" is not a time`},
		{head + "01.02.25 10:00,2\n", LogOptions{}, `3:1: "01.02.25 10:00" is not a time`},
		{head + "25-02-01 10:00,2\n", LogOptions{}, `3:1: "25-02-01 10:00" is not a time`},
		{head + "3600,2\n", LogOptions{}, `3:1: "3600" is not a time`},
		{head + "2025-01-01T00:01:00Z,-2\n", LogOptions{}, `3:22: "-2" is below 0`},
		{head + "2025-01-01T00:01:00Z,1e3\n", LogOptions{}, `3:22: "1e3" has an exponent`},
		{head + "2025-01-01T00:01:00Z,NaN\n", LogOptions{}, `3:22: "NaN" is not a number in W`},
		{head + "2025-01-01T00:01:00Z,\"1,5\"\n", LogOptions{}, `3:22: "1,5" has a comma, which here parts columns`},
		{head + "2025-01-01T00:01:00Z,1000000000.1\n", LogOptions{}, `3:22: "1000000000.1" is too large`},
		{head + "2025-01-01T00:01:00Z,99999999999999999999\n", LogOptions{}, `3:22: "99999999999999999999" is too large`},
		{head + "2025-01-01T00:01:00Z\n", LogOptions{}, "3:1: the row has 1 cells"},
		{"sep=;\ntime;W\nnever;1\n", LogOptions{}, `3:1: "never" is not a time`},
		{head + "2025-01-01T00:01:00Z,\"5\" W\n", LogOptions{}, "3:25: there is text after the quote that closes a cell"},
		{head + "\"2025\n", LogOptions{}, "3:1: the quote is not closed"},
		{head + strings.Repeat("x", 70000), LogOptions{}, "3:1: the line is longer than 64 KiB"},
		{"time,kWh\n2025-01-01T00:00:00Z,5\n2025-01-01T00:01:00Z,4.9\n", LogOptions{}, "3:22: the running total goes back"},
		{"time,kWh\n2025-01-01T00:00:00Z,5\n", LogOptions{}, "1:1: a running total needs two readings"},
		{"time,kWh\n2025-01-01T00:00:00Z,5\n", LogOptions{Modulus: num("4")}, "2:22: the running total is beyond"},
		{"time,kWh\n", LogOptions{Modulus: num("0")}, "1:1: a running total cannot start again at 0"},
		{head, LogOptions{To: exact.Some(t0.Add(-time.Hour)), From: exact.Some(t0.Add(-2 * time.Hour)), MaxSamples: 1}, ""},
		{head, LogOptions{From: exact.Some(t0.Add(time.Hour))}, "1:1: the log has no rows in the time that is kept"},
		{head + "2025-01-01T00:00:01Z,5\n2025-01-01T00:00:02Z,1\n", LogOptions{MaxSamples: 2}, "1:1: the log has more than 2 samples"},
	} {
		_, _, err := ReadLog(strings.NewReader(c.in), c.o)
		if c.want == "" {
			if err != nil {
				t.Errorf("%q: %v", c.in, err)
			}
			continue
		}
		var faults ledger.Faults
		if !errors.As(err, &faults) || !strings.HasPrefix(faults[0].Error(), c.want) {
			t.Errorf("%.80q: %v, want %s", c.in, err, c.want)
		}
	}
}

// Faults come together, and the rows after one are still read.
func TestLogFaultsTogether(t *testing.T) {
	in := "time,W\n2025-01-01T00:00:00Z,x\n2025-01-01T00:00:01Z,1\nnever,1\n2025-01-01T00:00:00Z,1\n"
	_, _, err := ReadLog(strings.NewReader(in), LogOptions{})
	want := "2:22: \"x\" is not a number in W\n4:1: \"never\" is not a time\n5:1: the time is before that of the row above, 2025-01-01T00:00:01Z"
	if err == nil || err.Error() != want {
		t.Errorf("faults are\n%v\nwant\n%s", err, want)
	}
	_, _, err = ReadLog(strings.NewReader("time,W\n"+strings.Repeat("never,1\n", 1000)), LogOptions{})
	var faults ledger.Faults
	if !errors.As(err, &faults) || len(faults) != maxFaults {
		t.Errorf("%d faults are told, want %d", len(faults), maxFaults)
	}
}

// A local time that occurs twice is the first one, and the second where the
// first would step back.
func TestLogClockStepsBack(t *testing.T) {
	for _, c := range []struct{ zone, rows, want string }{
		{"Europe/Berlin", "2025-10-26 01:30|2025-10-26 02:00|2025-10-26 02:30|2025-10-26 02:00|2025-10-26 02:30|2025-10-26 03:00",
			"23:30 00:00 00:30 01:00 01:30 02:00"},
		{"Europe/Berlin", "2025-10-26 02:30|2025-10-26 02:30|2025-10-26 02:31", "00:30 01:30 01:31"},
		{"Australia/Lord_Howe", "2025-04-06 01:20|2025-04-06 01:40|2025-04-06 01:30|2025-04-06 01:50|2025-04-06 02:00",
			"14:20 14:40 15:00 15:20 15:30"},
		{"Asia/Kolkata", "2025-10-26 01:30|2025-10-26 02:00", "20:00 20:30"},
	} {
		in := "time,W\n"
		for i, row := range strings.Split(c.rows, "|") {
			in += fmt.Sprintf("%s,%d\n", row, i*i)
		}
		log, _ := readLog(t, in, LogOptions{Zone: zone(t, c.zone), MaxGap: 2 * time.Hour})
		var got []string
		for s := range log.All() {
			got = append(got, s.At.Format("15:04"))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", c.zone, got, c.want)
		}
	}
}

// Law: a local time is read as the ledger's moments are, and written out in its
// zone it is what was read.
func TestLogClockIsMoment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := rapid.SampledFrom(changing).Draw(t, "zone")
		z := must(time.LoadLocation(pick.name))
		clock := logClock{zone: z}
		at := exact.MustDate(pick.near).Midnight(time.UTC)
		for range 20 {
			at = at.Add(time.Duration(rapid.Int64Range(0, 12*3600).Draw(t, "step")) * time.Second)
			text := at.Format("2006-01-02 15:04:05")
			want, err := exact.ParseMoment(text, z)
			got, problem := clock.read(text, -1<<63)
			if (err == nil) != (problem == "") || err == nil && got != want.UnixNano() {
				t.Fatalf("%s in %s: %v %q, as a moment %v %v", text, pick.name, time.Unix(0, got).UTC(), problem, want.UTC(), err)
			}
		}
	})
}

func TestLogGaps(t *testing.T) {
	in := "time,W\n2025-01-01T00:00:00Z,600\n2025-01-01T00:10:00Z,600\n2025-01-01T01:10:00Z,1200\n2025-01-01T01:20:00Z,1200\n"
	log, report := readLog(t, in, LogOptions{})
	if report.GapCount != 1 || report.Gaps[0].Line != 4 || !report.Gaps[0].From.Equal(t0.Add(10*time.Minute)) || report.MaxGap != 10*time.Minute {
		t.Errorf("report is %+v", report)
	}
	// 0.1 + 0.2 kWh, and the ramps of a second at either end of the gap.
	want := kwh("0.3").Add(exact.Int(900).Over(exact.Int(3_600_000)))
	if got := log.Energy(log.First(), log.Last()); !got.Equal(want) {
		t.Errorf("unbridged it has %v kWh, want %v", got, want)
	}
	log, report = readLog(t, in, LogOptions{Bridge: true})
	if got := log.Energy(log.First(), log.Last()); !got.Equal(kwh("1.2")) || report.GapCount != 1 {
		t.Errorf("bridged it has %v kWh, want 0.3 + 0.9; report %+v", got, report)
	}
}

// The time that is kept has the energy that the whole log has then.
func TestLogWindow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, at := "time,W\n", t0
		for range rapid.IntRange(1, 20).Draw(t, "rows") {
			in += fmt.Sprintf("%s,%d\n", at.Format(time.RFC3339), rapid.IntRange(0, 4).Draw(t, "watts")*100)
			at = at.Add(time.Duration(rapid.IntRange(1, 100).Draw(t, "step")) * time.Second)
		}
		whole, _, err := ReadLog(strings.NewReader(in), LogOptions{})
		if err != nil {
			t.Fatal(err)
		}
		from := t0.Add(time.Duration(rapid.IntRange(-100, 1000).Draw(t, "from")) * time.Second)
		to := from.Add(time.Duration(rapid.IntRange(0, 1000).Draw(t, "to")) * time.Second)
		part, _, err := ReadLog(strings.NewReader(in), LogOptions{From: exact.Some(from), To: exact.Some(to)})
		want := whole.Energy(from, to)
		if err != nil {
			if !want.IsZero() {
				t.Fatalf("%v, but it has %v kWh", err, want)
			}
			return
		}
		if got := part.Energy(from, to); !got.Equal(want) {
			t.Fatalf("kept %v kWh, want %v", got, want)
		}
	})
}

// Samples on a line between others are left out, and no energy with them.
func TestLogDropsCollinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, at := "time,W\n", t0
		var all []energy.Sample
		for range rapid.IntRange(1, 40).Draw(t, "rows") {
			s := energy.Sample{At: at, Watts: exact.Int(rapid.Int64Range(0, 2).Draw(t, "watts"))}
			all = append(all, s)
			in += fmt.Sprintf("%s,%v\n", at.Format(time.RFC3339), s.Watts)
			at = at.Add(time.Duration(rapid.IntRange(1, 2).Draw(t, "step")) * time.Second)
		}
		log, report, err := ReadLog(strings.NewReader(in), LogOptions{})
		if err != nil {
			t.Fatal(err)
		}
		full := must(energy.NewLog(all))
		from := t0.Add(time.Duration(rapid.IntRange(0, 80_000).Draw(t, "from")) * time.Millisecond)
		if !log.Energy(from, at).Equal(full.Energy(from, at)) || report.Samples > len(all) {
			t.Fatalf("%s has other energy than %s", samples(log), samples(full))
		}
	})
	log, _ := readLog(t, "time,W\n2025-01-01T00:00:00Z,5\n2025-01-01T00:00:01Z,5\n2025-01-01T00:00:02Z,5\n2025-01-01T00:00:03Z,6\n", LogOptions{})
	if got := samples(log); got != "0:5 2:5 3:6" {
		t.Errorf("samples are %s", got)
	}
}

// The samples of a running total hold what it rose by: in all to within a
// nanowatt over the last stretch, and from reading to reading to within the
// ramps; and no power is negative.
func TestLogRunningTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, at := "time,energy (Wh)\n", t0
		modulus := exact.Int(50)
		total := exact.New(rapid.Int64Range(0, 49_999).Draw(t, "start"), 3)
		var rise exact.Number
		times := []time.Time{at}
		for i := range rapid.IntRange(2, 15).Draw(t, "rows") {
			if i > 0 {
				at = at.Add(time.Duration(rapid.SampledFrom([]int{1, 3, 4, 60, 500}).Draw(t, "step")) * time.Second)
				step := exact.New(rapid.SampledFrom([]int64{0, 0, 1, 250, 30_000}).Draw(t, "rise"), 3)
				rise, total = rise.Add(step), total.Add(step)
				if !total.Less(modulus) {
					total = total.Sub(modulus)
				}
				times = append(times, at)
			}
			in += fmt.Sprintf("%s,%v\n", at.Format(time.RFC3339), total)
		}
		log, _, err := ReadLog(strings.NewReader(in), LogOptions{Modulus: exact.Some(modulus)})
		if err != nil {
			t.Fatal(err)
		}
		missing := exact.RatioOf(rise.Mul(exact.New(1, 3))).Sub(log.Energy(log.First(), log.Last()))
		// A nanowatt for 1000 s is 1e-9/3600 kWh x 1e-3.
		if missing.Sign() < 0 || exact.New(1, 12).Over(exact.Int(3)).Cmp(missing) < 0 {
			t.Fatalf("%v Wh, but the log has %v kWh less: %s", rise, missing, samples(log))
		}
		if !log.First().Equal(times[0]) || !log.Last().Equal(at) {
			t.Fatalf("the log is from %v to %v", log.First(), log.Last())
		}
	})
}

// A steady machine on a running total: 0.5 kWh an hour, then nothing, across a
// roll-over of the meter at 100000 kWh.
func TestLogRollOver(t *testing.T) {
	in := "time;Zählerstand (kWh)\n2025-01-01T00:00:00Z;99999,5\n2025-01-01T01:00:00Z;0\n2025-01-01T02:00:00Z;0,5\n2025-01-01T03:00:00Z;0,5\n2025-01-01T04:00:00Z;0,5\n"
	log, report := readLog(t, in, LogOptions{Modulus: num("100000")})
	// The last change is before the reading, and its 250 Ws go to the hour after.
	if got := samples(log); !strings.HasPrefix(got, "0:500 7199:500 7200:0.06") {
		t.Errorf("samples are %s", got)
	}
	if report.RollOvers != 1 || report.Unit != exact.KWh || report.GapCount != 4 {
		t.Errorf("report is %+v", report)
	}
	if got := log.Energy(t0, t0.Add(time.Hour)); !got.Equal(kwh("0.5")) {
		t.Errorf("the first hour has %v kWh", got)
	}
}

func TestLogRounding(t *testing.T) {
	in := "time,W\n2025-01-01T00:00:00.4Z,100.0000000005\n2025-01-01T00:00:00.6Z,100.00000000050001\n2025-01-01T00:00:01.2Z,5\n2025-01-01T00:00:02Z,1450.1999999999998\n"
	log, report := readLog(t, in, LogOptions{})
	if got := samples(log); got != "0.4:100 0.6:100.000000001 1.2:5 2:1450.2" {
		t.Errorf("samples are %s", got)
	}
	if report.Rounded != 3 {
		t.Errorf("%d values are rounded", report.Rounded)
	}
}

// Law: whatever the bytes, reading ends, with a log that makes sense or with a
// place.
func FuzzReadLog(f *testing.F) {
	f.Add("time,W\n2025-01-01T00:00:00Z,1\n2025-01-01T00:00:01Z,2\n", true)
	f.Add("sep=;\nDatum;Uhrzeit;kWh\n01.01.2025;00:00:00;1,5\n26.10.2025;02:30;1,6\n", false)
	f.Add("ts\tkW\n1735689600000\t0,1\n", true)
	f.Add("sep=;\nDatum;Uhrzeit;kWh\n01.01.2025;00:00:00;1,5\n26.10.2199;02:30;0\n", true)
	f.Fuzz(func(t *testing.T, in string, bridge bool) {
		o := LogOptions{Zone: zone(t, "Europe/Berlin"), Bridge: bridge, Modulus: num("10")}
		log, report, err := ReadLog(strings.NewReader(in), o)
		if err != nil {
			var faults ledger.Faults
			if !errors.As(err, &faults) || len(faults) == 0 {
				t.Errorf("%v says no place", err)
			}
			return
		}
		var all []energy.Sample
		for s := range log.All() {
			all = append(all, s)
		}
		if _, err := energy.NewLog(all); err != nil || report.Samples != len(all) {
			t.Errorf("the log is none: %v", err)
		}
	})
}
