package main

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"text/tabwriter"
	"time"
)

var (
	//go:embed duckdb.sql
	duckDBQuery string
	//go:embed sqlite.sql
	sqliteQuery string
	//go:embed answer.py
	pythonAnswer string
	//go:embed duckdb.mjs
	duckDBProgram string
)

func main() {
	times := flag.Int("times", 1, "household-decades in the ledger")
	seed := flag.Uint64("seed", 1, "which ledger is made up")
	runs := flag.Int("runs", 5, "how often each is run, of which the best counts")
	read := flag.String("read", "", "read the CSV files of this `folder`, and do nothing else")
	flag.Parse()
	err := error(nil)
	if *read != "" {
		err = readAll(*read)
	} else {
		err = compare(*seed, *times, *runs)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "sidebyside:", err)
		os.Exit(1)
	}
}

// readAll reads every file as encoding/csv does.
func readAll(dir string) error {
	names, err := filepath.Glob(filepath.Join(dir, "*.csv"))
	for _, name := range names {
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		in := csv.NewReader(f)
		in.ReuseRecord = true
		for {
			if _, err := in.Read(); err == io.EOF {
				break
			} else if err != nil {
				return err
			}
		}
		f.Close()
	}
	return err
}

// A program is one way to the answer.
type program struct {
	name    string
	command []string
	stdin   string
	answers bool                         // else it only reads
	inUnits func(string) (string, error) // writes its answer as the others do; may be nil
}

// compare makes a ledger, runs all programs on it, and prints what they took.
func compare(seed uint64, times, runs int) error {
	dir, err := os.MkdirTemp("", "sidebyside")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	ledger := filepath.Join(dir, "ledger")
	if err := writePlain(ledger, seed, times); err != nil {
		return err
	}
	list, err := programs(dir)
	if err != nil {
		return err
	}
	out := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(out, "program\twall\tprocessor\tpeak\twall beside putby's\tprocessor beside putby's\t")
	base, want := took{}, ""
	for _, p := range list {
		best, answer, err := p.best(ledger, runs)
		if errors.Is(err, exec.ErrNotFound) {
			fmt.Fprintf(out, "%s\tnot here\t\t\t\t\t\n", p.name)
			continue
		}
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		if want == "" {
			base, want = best, answer
		} else if p.answers && answer != want {
			return fmt.Errorf("%s has another answer than putby:\n%s\nwant\n%s", p.name, answer, want)
		}
		fmt.Fprintf(out, "%s\t%v\t%v\t%d MB\t%s\t%s\t\n", p.name, best.wall.Round(time.Millisecond/10), best.processor.Round(time.Millisecond/10),
			best.peak>>20, ratio(best.wall, base.wall), ratio(best.processor, base.processor))
	}
	fmt.Fprintf(out, "\n")
	if err := out.Flush(); err != nil {
		return err
	}
	fmt.Printf("%d months, the same to the last digit.\n", strings.Count(want, "\n"))
	return nil
}

// programs builds putby, and lists the ways to the answer, putby's first.
func programs(dir string) ([]program, error) {
	putby := filepath.Join(dir, "putby")
	if out, err := exec.Command("go", "build", "-o", putby, "./cmd/putby").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%w\n%s", err, out)
	}
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	list := []program{
		{"putby", []string{putby, "cost", "--by", "month", "--format", "csv", "--ledger", "."}, "", true, inUnits},
		{"start of putby", []string{putby, "version"}, "", false, nil},
		{"encoding/csv, reading alone", []string{self, "-read", "."}, "", false, nil},
		{"SQLite", []string{"sqlite3"}, sqliteQuery, true, nil},
		{"Python", []string{"python3", "-c", pythonAnswer}, "", true, nil},
	}
	modules := os.Getenv("DUCKDB_MODULES")
	if modules == "" {
		caches, err := os.UserCacheDir()
		if err != nil {
			return nil, err
		}
		modules = filepath.Join(caches, "putby-ci", "duckdb")
	}
	if _, err := os.Stat(filepath.Join(modules, "node_modules")); err == nil {
		list = append(list, program{"DuckDB", []string{"node", "--input-type=module", "-e", duckDBProgram, modules, duckDBQuery}, "", true, nil})
	}
	return list, nil
}

// took is what a run took.
type took struct {
	wall, processor time.Duration
	peak            int64 // bytes
}

func ratio(a, b time.Duration) string {
	hundredths := a * 100 / max(b, 1)
	return fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100)
}

// best runs a program some times in the ledger's folder.
func (p *program) best(dir string, runs int) (best took, answer string, err error) {
	for i := range runs {
		var out, said bytes.Buffer
		cmd := exec.Command(p.command[0], p.command[1:]...)
		cmd.Dir, cmd.Stdin, cmd.Stdout, cmd.Stderr = dir, strings.NewReader(p.stdin), &out, &said
		begun := time.Now()
		if err := cmd.Run(); err != nil {
			return best, "", fmt.Errorf("%w\n%s", err, said.Bytes())
		}
		state := cmd.ProcessState
		if t := (took{time.Since(begun), state.UserTime() + state.SystemTime(), peakOf(state)}); i == 0 || t.wall < best.wall {
			best = t
		}
		answer = out.String()
	}
	if answer = strings.ReplaceAll(answer, "\r", ""); p.inUnits != nil {
		answer, err = p.inUnits(answer)
	}
	return best, answer, err
}

// inUnits writes putby's answer as the others have theirs: month, mL, and millionths
// of the currency for food and electricity.
func inUnits(text string) (string, error) {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return "", err
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	var b strings.Builder
	for _, row := range rows[1:] {
		fmt.Fprintf(&b, "%s,%s,%s,%s\n", row[at["month"]], units(row[at["reconstituted"]], 3), units(row[at["food"]], 6), units(row[at["electricity"]], 6))
	}
	return b.String(), nil
}

// units is a decimal as a whole number of its last place.
func units(s string, places int) string {
	whole, part, _ := strings.Cut(s, ".")
	return strings.TrimLeft(whole+part+strings.Repeat("0", places-len(part)), "0")
}
