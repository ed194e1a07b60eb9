package folder

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// scanAll splits a text, and returns its records with the lines they begin at.
func scanAll(text string, sep byte) (records [][]string, lines []int, flaws int) {
	for s := newScanner(text, sep); s.next(); {
		if s.bad != nil {
			flaws++
			continue
		}
		records = append(records, slices.Clone(s.cells))
		lines = append(lines, s.startLine)
	}
	return records, lines, flaws
}

// spectrum is the public test set csv-spectrum (npm, BSD-2-Clause), recalled
// from memory; location_coordinates is left out, and newlines_crlf is read
// with LF inside the quotes.
var spectrum = []struct {
	name, text string
	want       [][]string
}{
	{"comma_in_quotes", "first,last,address,city,zip\nJohn,Doe,120 any st.,\"Anytown, WW\",08123\n",
		[][]string{{"first", "last", "address", "city", "zip"}, {"John", "Doe", "120 any st.", "Anytown, WW", "08123"}}},
	{"empty", "a,b,c\n1,\"\",\"\"\n2,3,4\n", [][]string{{"a", "b", "c"}, {"1", "", ""}, {"2", "3", "4"}}},
	{"empty_crlf", "a,b,c\r\n1,\"\",\"\"\r\n2,3,4\r\n", [][]string{{"a", "b", "c"}, {"1", "", ""}, {"2", "3", "4"}}},
	{"escaped_quotes", "a,b\n1,\"ha \"\"ha\"\" ha\"\n3,4\n", [][]string{{"a", "b"}, {"1", `ha "ha" ha`}, {"3", "4"}}},
	{"json", "key,val\n1,\"{\"\"type\"\": \"\"Point\"\", \"\"coordinates\"\": [102.0, 0.5]}\"\n",
		[][]string{{"key", "val"}, {"1", `{"type": "Point", "coordinates": [102.0, 0.5]}`}}},
	{"newlines", "a,b,c\n1,2,3\n\"Once upon \na time\",5,6\n7,8,9\n",
		[][]string{{"a", "b", "c"}, {"1", "2", "3"}, {"Once upon \na time", "5", "6"}, {"7", "8", "9"}}},
	{"newlines_crlf", "a,b,c\r\n1,2,3\r\n\"Once upon \r\na time\",5,6\r\n7,8,9\r\n",
		[][]string{{"a", "b", "c"}, {"1", "2", "3"}, {"Once upon \na time", "5", "6"}, {"7", "8", "9"}}},
	{"quotes_and_newlines", "a,b\n1,\"ha \n\"\"ha\"\" \nha\"\n3,4\n", [][]string{{"a", "b"}, {"1", "ha \n\"ha\" \nha"}, {"3", "4"}}},
	{"simple", "a,b,c\n1,2,3\n", [][]string{{"a", "b", "c"}, {"1", "2", "3"}}},
	{"simple_crlf", "a,b,c\r\n1,2,3\r\n", [][]string{{"a", "b", "c"}, {"1", "2", "3"}}},
	{"utf8", "a,b,c\n1,2,3\n4,5,ʤ\n", [][]string{{"a", "b", "c"}, {"1", "2", "3"}, {"4", "5", "ʤ"}}},
}

func TestSpectrum(t *testing.T) {
	for _, c := range spectrum {
		records, _, flaws := scanAll(c.text, separator(c.text))
		if flaws > 0 || !slices.EqualFunc(records, c.want, slices.Equal) {
			t.Errorf("%s: %q, want %q", c.name, records, c.want)
		}
	}
}

// FuzzScan: what encoding/csv reads without an error, the scanner reads the
// same, at the same lines; what it refuses, the scanner refuses too. The bytes
// of the records follow each other and leave out nothing but blank lines; by
// themselves they are read as the same record, and each cell begins at its place.
func FuzzScan(f *testing.F) {
	for _, c := range spectrum {
		f.Add(c.text)
	}
	f.Add("a\r\rb\r\n\r\r\n\"x\"\r")
	f.Add("a,\"b\nc\",d\n\"\"\"\",\"\"")
	f.Fuzz(func(t *testing.T, text string) {
		records, lines, flaws := scanAll(text, ',')
		r := csv.NewReader(strings.NewReader(text))
		r.FieldsPerRecord = -1
		for i := 0; ; i++ {
			want, err := r.Read()
			if errors.Is(err, io.EOF) {
				if len(records) != i || flaws > 0 {
					t.Fatalf("%q: %q and %d flaws, want %d records", text, records, flaws, i)
				}
				break
			}
			if err != nil {
				if flaws == 0 {
					t.Fatalf("%q is taken as %q, csv says %v", text, records, err)
				}
				break
			}
			line, _ := r.FieldPos(0)
			if i >= len(records) || !slices.Equal(records[i], want) || lines[i] != line {
				if flaws > 0 { // limits, which csv does not have
					break
				}
				t.Fatalf("%q: %q at lines %v, want record %d %q at %d", text, records, lines, i, want, line)
			}
		}
		end := 0
		for s := newScanner(text, ','); s.next(); end = s.end {
			if strings.Trim(text[end:s.start], "\r\n") != "" {
				t.Fatalf("%q: %q is left out", text, text[end:s.start])
			}
			if s.bad != nil {
				if at := s.offset(s.bad.Line, s.bad.Column); at < s.start || at > s.end {
					t.Fatalf("%q: the flaw %+v is outside its record", text, *s.bad)
				}
				continue
			}
			again := newScanner(text[s.start:s.end], ',')
			if !again.next() || !slices.Equal(again.cells, s.cells) || again.end != s.end-s.start {
				t.Fatalf("%q: %q is read as %q, by itself as %q", text, text[s.start:s.end], s.cells, again.cells)
			}
			for i, cell := range s.cells {
				if at := s.place(i); !strings.HasPrefix(text[at:], cell) && text[at] != '"' {
					t.Fatalf("%q: the cell %q is not at %d", text, cell, at)
				}
			}
		}
		if strings.Trim(text[end:], "\r\n") != "" {
			t.Fatalf("%q: the end %q is left out", text, text[end:])
		}
	})
}

// FuzzRead: no bytes in any file make the reading panic, every fault is in a
// file, and a text that is not UTF-8 has one.
func FuzzRead(f *testing.F) {
	names := []string{
		"settings.csv", "foods.csv", "supplies.csv", "machines.csv", "wattage.csv", "tariffs.csv", "holidays.csv",
		"receipts.csv", "shelf.csv", "batches.csv", "runs.csv", "phases.csv", "loads.csv", "packs.csv", "draws.csv",
		"counts.csv", "meter/R1.csv",
	}
	seeds := map[string]string{
		"settings.csv": okSettings + "household_kwh_month,1;2;3;4;5;6;7;8;9;10;11;12\nshow_mass,lb\n",
		"foods.csv":    "food,basis,density,serving\nleek,mass,0.38,120 g\n",
		"supplies.csv": "supply,kind,uses,capacity,price\njar,jar,20,1 L,1.90\n",
		"machines.csv": "machine,cycles,with\nm,1500,\"1 oil, 2 filter\"\n",
		"wattage.csv":  "machine;phase;watts\nm;hold;420.5\n",
		"tariffs.csv":  "tariff,from,months,days,start,end,above_kwh,rate,tax\nt,2025-01-01,11-4,\"mon-fri,hol\",22:00,6:00,90,-0.01,20\n",
		"holidays.csv": "tariff,date\nt,2025-12-25\n",
		"receipts.csv": "receipt,date,line,kind,item,count,size,price,on\nB1,2025-01-01,1,food,leek,1.2,1 kg,3.10,\nB1,2025-01-01,,charge,,,,1,\"1,2\"\n",
		"shelf.csv":    "date,item,size,price,form,makes\n2025-01-01,leek,1 kg,2,preserved,3 kg\n",
		"batches.csv":  "batch,date,item,quantity,from\nK1,2025-01-01,soup,4 L,\"1 kg leek, 2 egg\"\n",
		"runs.csv":     "run,machine,start,end,hands\nR1,m,2025-10-26 02:30,2025-10-27T02:30:00+01:00,40m\n",
		"phases.csv":   "run,step,phase,duration,kwh\nR1,1,hold,8:24:07,1\n",
		"loads.csv":    "run,item,quantity,wet,dry,trays\nR1,leek,1 kg,1 kg,100 g,5\n",
		"packs.csv":    "pack,item,date,count,each,with\nP1,leek,2025-01-03,4,0.25 kg,\"1 jar, 1 lid\"\n",
		"draws.csv":    "date,pack,item,quantity\n2025-02-01,P1,,1\n",
		"counts.csv":   "date,pack,item,quantity\n2025-02-01,,leek,1 kg\n",
		"meter/R1.csv": "time,watts\n2025-10-26 02:30,5\n2025-10-26 02:15,6\n",
	}
	for i, name := range names {
		if seeds[name] == "" {
			f.Fatalf("no seed for %s", name)
		}
		f.Add(byte(i), seeds[name])
		f.Add(byte(i), "\xff\xfe\x00\"")
	}
	f.Fuzz(func(t *testing.T, which byte, text string) {
		name := names[int(which)%len(names)]
		s := &snapshot{texts: map[string]string{"settings.csv": okSettings}}
		s.texts[name] = text
		_, faults := parse(s, keepTexts)
		for _, fault := range faults {
			if fault.File != name || fault.What == "" {
				t.Fatalf("%q: %+v", text, fault)
			}
			if !utf8.ValidString(fault.Error()) || strings.ContainsAny(fault.Error(), "\x00\x1b\x07\n") {
				t.Fatalf("%q: the fault %q has control characters", text, fault.Error())
			}
		}
		if len(faults) == 0 && !utf8.ValidString(text) {
			t.Fatalf("%q is taken as UTF-8", text)
		}
	})
}
