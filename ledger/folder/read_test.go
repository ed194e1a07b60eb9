package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
)

const okSettings = "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\n"

// write makes a ledger's folder of files given as name, text, name, text ...
// settings.csv is added where it is not among them.
func write(t testing.TB, files ...string) string {
	t.Helper()
	dir := t.TempDir()
	put(t, dir, "settings.csv", okSettings)
	for i := 0; i < len(files); i += 2 {
		put(t, dir, files[i], files[i+1])
	}
	return dir
}

func put(t testing.TB, dir, name, text string) {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// read reads a ledger that may have faults.
func read(t testing.TB, dir string) (*ledger.Records, ledger.Faults) {
	t.Helper()
	rec, faults, err := Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	return rec, faults
}

// wantFaults compares faults one by one; what other packages say about a cell
// may go on behind what is wanted.
func wantFaults(t testing.TB, faults ledger.Faults, want ...string) {
	t.Helper()
	var have []string
	for _, f := range faults {
		have = append(have, f.Error())
	}
	if !slices.EqualFunc(have, want, strings.HasPrefix) {
		t.Errorf("faults:\n\t%s\nwant:\n\t%s", strings.Join(have, "\n\t"), strings.Join(want, "\n\t"))
	}
}

const foodsHeader = "food,basis,name\n"

func TestReadForms(t *testing.T) {
	const plain = "food,basis,name\nleek,mass,Leeks\ncorn,count,\"Corn, \"\"sweet\"\"\"\n"
	crlf := strings.ReplaceAll(plain, "\n", "\r\n")
	for name, text := range map[string]string{
		"plain":              plain,
		"mark":               mark + plain,
		"CR LF":              crlf,
		"mark and CR LF":     mark + crlf,
		"semicolons":         "food;basis;name\nleek;mass;Leeks\ncorn;count;\"Corn, \"\"sweet\"\"\"\n",
		"no final line end":  strings.TrimSuffix(plain, "\n"),
		"final CR":           strings.TrimSuffix(crlf, "\n"),
		"quoted header":      "\"food\",\"basis\",\"na\"\"me\",name\nleek,mass,,Leeks\ncorn,count,,\"Corn, \"\"sweet\"\"\"\n",
		"semicolon in quote": "food;basis;\"a,b,c,d\";name\nleek;mass;;Leeks\ncorn;count;;\"Corn, \"\"sweet\"\"\"\n",
		"columns moved":      "extra,name,food,basis\n1,Leeks,leek,mass\n2,\"Corn, \"\"sweet\"\"\",corn,count\n",
		"blanks":             "\r\n , ,\nfood , basis,\tname\n\n,,\nleek, mass,Leeks \n\t, ,\n corn,count ,\"Corn, \"\"sweet\"\"\"\n\n\n",
	} {
		rec, faults := read(t, write(t, "foods.csv", text))
		wantFaults(t, faults)
		if n := len(rec.Foods); n != 2 {
			t.Errorf("%s: %d foods", name, n)
			continue
		}
		if a, b := rec.Foods[0], rec.Foods[1]; a.ID != "leek" || a.Name != "Leeks" || b.ID != "corn" || b.Name != `Corn, "sweet"` {
			t.Errorf("%s: %+v, %+v", name, a, b)
		}
	}
}

func TestNothingThere(t *testing.T) {
	for _, text := range []string{"", mark, "\n\n", "\r\n", ",,,\n , ,\n"} {
		rec, faults := read(t, write(t, "foods.csv", text))
		wantFaults(t, faults)
		if len(rec.Foods) > 0 {
			t.Errorf("%q gives %v", text, rec.Foods)
		}
	}
	rec, faults := read(t, write(t, "foods.csv", foodsHeader, "unknown.csv", "\"", "meter/notes.txt", "\xff", "sub/x.csv", "\xff"))
	wantFaults(t, faults)
	if len(rec.Foods) > 0 {
		t.Errorf("a header gives %v", rec.Foods)
	}
}

func TestLines(t *testing.T) {
	rec, faults := read(t, write(t, "foods.csv", "food,basis,name\r\n\r\nleek,mass,\"two\r\nlines\"\r\n,,\r\ncorn,count,x\n"))
	wantFaults(t, faults)
	if rec.Foods[0].Line != 3 || rec.Foods[1].Line != 6 || rec.Foods[0].Name != "two\nlines" {
		t.Errorf("%+v", rec.Foods)
	}
}

func TestFaults(t *testing.T) {
	long := strings.Repeat("x", MaxCell+1)
	for _, c := range []struct {
		why   string
		files []string
		want  []string
	}{
		{"every fault of a file, at its cell", []string{"foods.csv", foodsHeader + "leek,mess,\n\"a b\",\"mass\",\ncorn,count\nok,mass,\n,mass,x\n"}, []string{
			`foods.csv:2:6: basis: "mess" is not one of its words`,
			`foods.csv:3:1: food: "a b" is not an identifier: it has " "`,
			`foods.csv:4:1: the row has 2 cells, the header 3`,
			`foods.csv:6:1: food: the cell is blank`,
		}},
		{"columns are bytes", []string{"foods.csv", "name,food,basis\n\"Käse, süß\",x,mess\n"}, []string{
			`foods.csv:2:18: basis: "mess" is not one of its words`,
		}},
		{"a cell after others of many lines", []string{"foods.csv", "name,food,basis\n\n\"a\nb\",\"x\",mess\n"}, []string{
			`foods.csv:4:8: basis: "mess" is not one of its words`,
		}},
		{"a mark does not count", []string{"foods.csv", mark + "food,food,basis\n"}, []string{
			`foods.csv:1:6: the column "food" is there twice`,
		}},
		{"missing column", []string{"foods.csv", "\nfood,name\nleek,x\n"}, []string{
			`foods.csv:2:1: the column "basis" is missing`,
		}},
		{"too many cells", []string{"foods.csv", foodsHeader + "leek,mass,a,b\n"}, []string{
			`foods.csv:2:13: the row has 4 cells, the header 3`,
		}},
		{"quotes", []string{"foods.csv", foodsHeader + "leek,mass,12\" tray\ncorn,count,\"a\" b\nplum,\"mass,\nfig,mess,\n"}, []string{
			`foods.csv:2:13: a quote inside a cell that does not begin with one`,
			`foods.csv:3:15: text after the quote that closes a cell`,
			`foods.csv:4:6: the quote that opens here is never closed`,
		}},
		{"quote in the header", []string{"foods.csv", "food,ba\"sis\nleek,mass\n"}, []string{
			`foods.csv:1:8: a quote inside a cell that does not begin with one`,
		}},
		{"NUL", []string{"foods.csv", foodsHeader + "leek,mass,a\x00b\x00\nfig,mass,\x00\n"}, []string{
			`foods.csv:2:12: a NUL byte`, `foods.csv:3:10: a NUL byte`,
		}},
		{"Windows-1252", []string{"foods.csv", foodsHeader + "leek,mass,K\xe4se\n"}, []string{
			`foods.csv:2:12: a byte that is not UTF-8`,
		}},
		{"surrogates and overlong forms", []string{"foods.csv", foodsHeader + "leek,mass,\xed\xa0\x80\nfig,mass,\xc0\x80\n"}, []string{
			`foods.csv:2:11: a byte that is not UTF-8`, `foods.csv:3:10: a byte that is not UTF-8`,
		}},
		{"UTF-16 with its mark", []string{"foods.csv", "\xff\xfef\x00o\x00"}, []string{`foods.csv:1:1: the file is UTF-16, not UTF-8`}},
		{"UTF-16 without", []string{"foods.csv", "f\x00o\x00o\x00d\x00,\x00"}, []string{`foods.csv:1:1: the file is UTF-16, not UTF-8`}},
		{"UTF-16, big end first", []string{"foods.csv", "\x00f\x00o\x00o\x00d\x00,"}, []string{`foods.csv:1:1: the file is UTF-16, not UTF-8`}},
		{"UTF-16 settings", []string{"settings.csv", "\xff\xfes\x00"}, []string{`settings.csv:1:1: the file is UTF-16, not UTF-8`}},
		{"a workbook", []string{"foods.csv", "PK\x03\x04\x00\x00"}, []string{`foods.csv:1:1: the file is a workbook, not CSV`}},
		{"CR alone", []string{"foods.csv", "food,basis\rleek,mass\r"}, []string{`foods.csv:1:11: the lines end in CR alone`}},
		{"a long cell", []string{"foods.csv", foodsHeader + "leek,mass," + long + "\nfig,mess,\n"}, []string{
			`foods.csv:2:11: the cell is longer than 64 KiB`, `foods.csv:3:5: basis: "mess" is not one of its words`,
		}},
		{"a long row", []string{"foods.csv", foodsHeader + strings.Repeat(",", 2000) + "x\n"}, []string{
			`foods.csv:2:1001: more than 1,000 cells in a row`,
		}},
		{"settings", []string{"settings.csv", "setting,value\nformat,2\ncurrency,EUR\ncolour,red\nzone,Local\ncurrency,USD\n"}, []string{
			`settings.csv:2:8: format: "2" is not a known format`,
			`settings.csv:4:1: setting: "colour" is not a setting`,
			`settings.csv:5:6: zone: "Local" is not a time zone`,
			`settings.csv:6:1: setting: currency is set twice`,
		}},
		{"settings missing", []string{"settings.csv", "setting,value\ncurrency,EUR\n"}, []string{
			`settings.csv:1:1: the setting zone is missing`,
		}},
		{"empty settings", []string{"settings.csv", "\n"}, []string{
			`settings.csv:1:1: the setting currency is missing`, `settings.csv:1:1: the setting zone is missing`,
		}},
		{"no value column", []string{"settings.csv", "setting\n"}, []string{`settings.csv:1:1: the column "value" is missing`}},
		{"the zone is that of the settings", []string{"runs.csv", "run,machine,start\nR1,m,2025-03-30 02:30\n"}, []string{
			`runs.csv:2:6: start: "2025-03-30 02:30" is not a date and time`,
		}},
		{"several files, sorted", []string{"packs.csv", "x\n", "draws.csv", "date,quantity\n2025-02-30,1\n", "foods.csv", "food,basis\n,mess\n"}, []string{
			`draws.csv:2:1: date: "2025-02-30" is not a date`,
			`foods.csv:2:1: food: the cell is blank`,
			`foods.csv:2:2: basis: "mess" is not one of its words`,
		}},
		{"numbers", []string{"wattage.csv", "machine,phase,watts\nm,hold,1e999999999\nm,primary,NaN\nm,defrost,--5\nm,freezing," + strings.Repeat("1", 40) + "\nm,secondary,\"1,5\"\n"}, []string{
			`wattage.csv:2:8: watts: "1e999999999" is not a number`,
			`wattage.csv:3:11: watts: "NaN" is not a number`,
			`wattage.csv:4:11: watts: "--5" is not a number`,
			`wattage.csv:5:12: watts: "1111111111111111111111111111111111111111" is not a number`,
			`wattage.csv:6:13: watts: "1,5" is not a number`,
		}},
		{"a log", []string{"meter/R1.csv", "watts,time\n1,2025-01-01 10:00\n2,2025-01-01 10:00\n-3,2025-01-01 10:01\nx,later\n4,2025-01-01 10:02,\n"}, []string{
			`meter/R1.csv:3:3: time: 2025-01-01 10:00 is not after the sample in line 2`,
			`meter/R1.csv:4:1: watts: -3 is below 0`,
			`meter/R1.csv:5:1: watts: "x" is not a number`,
			`meter/R1.csv:5:3: time: "later" is not a date and time`,
			`meter/R1.csv:6:20: the row has 3 cells, the header 2`,
		}},
		{"a log beyond any plug", []string{"meter/R1.csv", "time,watts\n2025-01-01 10:00,1\n2025-01-01 10:01,1000000000000\n"}, []string{
			`meter/R1.csv:3:18: watts: power must be from 0 to 1000000000 W`,
		}},
		{"a log's header", []string{"meter/R1.csv", "time,time\n", "meter/R2.csv", "\"time\n"}, []string{
			`meter/R1.csv:1:1: the column "watts" is missing`, `meter/R1.csv:1:6: the column "time" is there twice`,
			`meter/R2.csv:1:1: the quote that opens here is never closed`,
		}},
		{"what came from the roof", []string{"meter/R1.csv", "time,watts,solar\n2025-01-01 10:00,100,100\n2025-01-01 10:01,100,40%\n2025-01-01 10:02,100,\n"}, nil},
		{"a roof that gives too much", []string{"meter/R1.csv", "time,watts,solar\n2025-01-01 10:00,100,0\n2025-01-01 10:01,100,101\n"}, []string{
			`meter/R1.csv:3:22: solar: more power came from the roof than was drawn`,
		}},
		{"a roof that gives nonsense", []string{"meter/R1.csv", "time,watts,solar\n2025-01-01 10:00,100,-1\n2025-01-01 10:01,100,much\n"}, []string{
			`meter/R1.csv:2:22: solar: -1 is below 0`, `meter/R1.csv:3:22: solar: "much" is not a number`,
		}},
		{"hourly prices", []string{"rates/dyn.csv", "rate,time\n0.1,2025-10-26 02:00\n-0.2,2025-10-26 02:00\n,2025-10-26T03:00+01:00\n"}, nil},
		{"bad hourly prices", []string{"rates/dyn.csv", "time,rate\n2025-01-01 10:00,0.1\n2025-01-01 10:00,0.2\n2025-01-01 11:00,dear\nnoon,1\n2025-01-01 12:00,1,2\n"}, []string{
			`rates/dyn.csv:3:1: time: 2025-01-01 10:00 is not after the price in line 2`,
			`rates/dyn.csv:4:18: rate: "dear" is not a number`,
			`rates/dyn.csv:5:1: time: "noon" is not a date and time`,
			`rates/dyn.csv:6:20: the row has 3 cells, the header 2`,
		}},
		{"hourly prices within a second", []string{"rates/dyn.csv", "time,rate\n2025-01-01 10:00:00.5,0.1\n"}, []string{
			`rates/dyn.csv:2:1: time: its time is not a whole second`,
		}},
		{"the header of hourly prices", []string{"rates/dyn.csv", "when,rate\n"}, []string{`rates/dyn.csv:1:1: the column "time" is missing`}},
		{"the name of hourly prices", []string{"rates/a b.csv", "time,rate\n"}, []string{`rates/a b.csv:1:1: the file's name is not a tariff's identifier`}},
		{"no folder of hourly prices", []string{"rates", "x"}, []string{`rates:1:1: it is not a folder`}},
		{"a log's name", []string{"meter/a b.csv", "time,watts\n"}, []string{`meter/a b.csv:1:1: the file's name is not a run's identifier`}},
	} {
		t.Run(c.why, func(t *testing.T) {
			want := c.want
			if c.why == "several files, sorted" {
				k, _ := ledger.KindOf("pack")
				var missing []string
				for _, col := range k.Columns {
					if col.Need {
						missing = append(missing, fmt.Sprintf("packs.csv:1:1: the column %q is missing", col.Name))
					}
				}
				slices.Sort(missing)
				want = append(slices.Clone(want), missing...)
			}
			_, faults := read(t, write(t, c.files...))
			wantFaults(t, faults, want...)
		})
	}
}

// TestClockChange holds a log to the rule that a time which steps back at the
// change of the clocks is the second one. Vienna went from 3:00 to 2:00 on
// 2025-10-26 at 1:00 UTC.
func TestClockChange(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		t.Fatal(err)
	}
	r := &logReader{seriesReader: seriesReader{zone: zone}}
	if _, faults := r.begin([]string{"time", "watts"}); faults != nil {
		t.Fatal(faults)
	}
	want := []string{"23:30", "00:30", "00:59", "01:15", "01:45", "02:00", "02:01"}
	for i, at := range []string{
		"2025-10-26 01:30", "2025-10-26 02:30", "2025-10-26 02:59", "2025-10-26 02:15",
		"2025-10-26 02:45", "2025-10-26 03:00", "2025-10-26T02:01Z",
	} {
		if faults := r.row(i+2, []string{at, "5"}); len(faults) > 0 {
			t.Fatal(faults)
		}
		if have := r.samples[i].At.UTC().Format("15:04"); have != want[i] {
			t.Errorf("%s is %s UTC, want %s", at, have, want[i])
		}
	}
	for _, at := range []string{"2025-10-26 02:45", "2025-10-26 02:15+01:00", "2025-10-26 03:01"} {
		if faults := r.row(9, []string{at, "5"}); len(faults) == 0 {
			t.Errorf("%s is taken after 03:01", at)
		}
	}
}

func TestWrongFiles(t *testing.T) {
	outside := filepath.Join(t.TempDir(), "foods.csv")
	put(t, filepath.Dir(outside), "foods.csv", foodsHeader+"leek,mass,\n")
	dir := write(t, "real.txt", "supply,kind\njar-1l,jar\n")
	in := func(name string) string { return filepath.Join(dir, name) }
	for _, err := range []error{
		os.Symlink(outside, in("foods.csv")),
		os.Symlink("real.txt", in("supplies.csv")), // stays inside: read
		os.Symlink("nowhere", in("machines.csv")),
		os.Symlink("tariffs.csv", in("tariffs.csv")),
		os.Mkdir(in("runs.csv"), 0o700),
		mkfifo(in("packs.csv")),
		os.Symlink("/dev/zero", in("draws.csv")),
		os.WriteFile(in("meter"), nil, 0o600),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := mkzero(in("loads.csv")); err != nil {
		t.Logf("no device in place of loads.csv: %v", err)
		put(t, dir, "loads.csv/x", "")
	}
	rec, faults := read(t, dir)
	wantFaults(t, faults,
		"draws.csv:1:1: the file is a link that leaves the ledger's folder",
		"foods.csv:1:1: the file is a link that leaves the ledger's folder",
		"loads.csv:1:1: it is not a file",
		"machines.csv:1:1: the file is a link that leads nowhere",
		"meter:1:1: it is not a folder",
		"packs.csv:1:1: it is not a file",
		"runs.csv:1:1: it is not a file",
		"tariffs.csv:1:1: the file cannot be read: too many levels of symbolic links",
	)
	if len(rec.Supplies) != 1 {
		t.Errorf("a link inside the folder gives %v", rec.Supplies)
	}
}

func TestHugeFile(t *testing.T) {
	dir := write(t, "foods.csv", "")
	if err := os.Truncate(filepath.Join(dir, "foods.csv"), MaxFile+1); err != nil {
		t.Fatal(err)
	}
	_, faults := read(t, dir)
	wantFaults(t, faults, "foods.csv:1:1: the file is larger than 512 MiB")
}

// TestMillionFaults holds a million bad rows, and a cell of 10 MB, to a bounded
// list.
func TestMillionFaults(t *testing.T) {
	rows := 1_000_000
	if testing.Short() {
		rows = 20_000
	}
	dir := write(t, "foods.csv", foodsHeader+strings.Repeat("a b,mass,\n", rows),
		"shelf.csv", "date,shop,item,size,price\n"+strings.Repeat("x", 10<<20)+"\n")
	_, faults := read(t, dir)
	if len(faults) != MaxFaults+2 {
		t.Fatalf("%d faults", len(faults))
	}
	wantFaults(t, faults[MaxFaults:],
		fmt.Sprintf("foods.csv:%d:1: from here on %d more faults, not told one by one", MaxFaults+2, rows-MaxFaults),
		"shelf.csv:2:1: the cell is longer than 64 KiB")
}

func TestNotLedger(t *testing.T) {
	empty := t.TempDir()
	file := filepath.Join(empty, "file")
	put(t, empty, "file", "")
	for _, c := range []struct {
		dir, want string
		cause     error
	}{
		{empty, fmt.Sprintf("%q is not a ledger: it has no settings.csv", short(empty)), nil},
		{file, fmt.Sprintf("%q cannot be opened as a ledger: not a directory", short(file)), nil},
		{filepath.Join(empty, "none"), fmt.Sprintf("%q cannot be opened as a ledger: no such file or directory", short(filepath.Join(empty, "none"))), fs.ErrNotExist},
	} {
		_, _, err := Read(c.dir)
		e := new(ledger.Fault)
		if !errors.As(err, &e) || !errors.Is(err, ErrNotLedger) || e.Choice != ledger.WhichLedger || e.Error() != c.want {
			t.Errorf("%v, want %s", err, c.want)
		}
		if c.cause != nil && !errors.Is(err, c.cause) {
			t.Errorf("%v is not %v", err, c.cause)
		}
	}
}

// short cuts a path as messages do.
func short(path string) string {
	if r := []rune(path); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return path
}

func TestLocate(t *testing.T) {
	dir := write(t, "loads.csv", mark+"run;item;quantity;receipt\r\n\r\nR1;leek;2 kg;B1\r\n\"R2\";\"le\r\nek\";\"1 kg\";B2\r\n")
	faults := ledger.Faults{
		{File: "loads.csv", Line: 4, Field: "quantity", What: "c"},
		{File: "loads.csv", Line: 3, Field: "quantity", What: "a"},
		{File: "loads.csv", Line: 3, Field: "", What: "b"},
		{File: "loads.csv", Line: 3, Field: "lost", What: "no such column"},
		{File: "loads.csv", Line: 99, Field: "run", What: "no such line"},
		{File: "loads.csv", Field: "run", What: "the whole file"},
		{File: "loads.csv", Line: 7, Column: 3, Field: "run", What: "known"},
		{File: "nowhere.csv", Line: 7, Field: "run", What: "no such file"},
	}
	Locate(dir, faults)
	wantFaults(t, faults,
		"loads.csv:1:1: the whole file",
		"loads.csv:3:1: b", "loads.csv:3:1: no such column", "loads.csv:3:9: a",
		"loads.csv:5:5: c", "loads.csv:7:3: known", "loads.csv:99:1: no such line",
		"nowhere.csv:7:1: no such file")
}
