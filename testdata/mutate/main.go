package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

func main() {
	seed := flag.Uint64("seed", 1, "which changes are chosen")
	n := flag.Int("n", 20, "how many changes to try in each package")
	skip := flag.Int("skip", 0, "how many of the chosen ones to pass over, to go on with a seed")
	but := flag.String("but", "", "leave out the tests of importers whose `paths` end so, as in ledger/folder,ledger/report, which take long")
	at := flag.String("at", "", "try all changes of these `lines`, as in pricing/plan.go:12,pricing/shelf.go:7, and no others")
	slower := flag.Int("slower", 5, "how many times as long as without a change the tests of a package may take; beyond it a change is noticed")
	flag.Parse()
	if flag.NArg() == 0 {
		flag.Usage()
		os.Exit(2)
	}
	for _, dir := range flag.Args() {
		t := trial{dir: dir, but: *but, at: *at, slower: *slower}
		if err := t.run(*seed, *skip, *n); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
}

// A trial is the changes of one package.
type trial struct {
	dir, but, at string
	slower       int
	programs     []program // of the package's tests, then those of its importers
}

// A program is the tests of one package.
type program struct {
	path, dir, file string
	tests           []test
}

// A test is one of a program, as it is without a change.
type test struct {
	name    string
	took    time.Duration
	reached string // a folder with a file named by each change that it reaches
}

// run tries some of the package's changes and says what became of them.
func (t *trial) run(seed uint64, skip, n int) error {
	programs, files, err := listed(t.dir)
	if err != nil {
		return err
	}
	importers := slices.DeleteFunc(programs[1:], func(p program) bool {
		return slices.ContainsFunc(strings.Split(t.but, ","), func(end string) bool { return end != "" && strings.HasSuffix(p.path, end) })
	})
	programs = programs[:1+len(importers)]
	changes, err := changesOf(t.dir, files)
	if err != nil {
		return err
	}
	changes = t.pick(changes, seed, skip, n)
	for i := range changes {
		changes[i].number = i + 1
	}
	w, built, err := newWorkshop(programs[0], slices.Clone(changes))
	if w != nil {
		defer os.RemoveAll(w.dir)
	}
	if err != nil {
		return err
	}
	if t.programs, err = w.programs(programs); err != nil {
		return err
	}
	count := 0
	for _, c := range built {
		if err := w.choose(c.number); err != nil {
			return err
		}
		if t.notices(c) {
			count++
			continue
		}
		fmt.Printf("%s:%d:%d: %s\n", c.file, c.line, c.column, c.what)
	}
	fmt.Printf("%s: %d of %d changes were noticed; %d more did not build\n", t.dir, count, len(built), len(changes)-len(built))
	return nil
}

// pick takes those of the lines asked for, else some at random.
func (t *trial) pick(changes []change, seed uint64, skip, n int) []change {
	if t.at != "" {
		lines := strings.Split(t.at, ",")
		return slices.DeleteFunc(changes, func(c change) bool { return !slices.Contains(lines, fmt.Sprintf("%s:%d", c.file, c.line)) })
	}
	rand.New(rand.NewPCG(seed, 0)).Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
	changes = changes[min(skip, len(changes)):]
	return changes[:min(n, len(changes))]
}

// notices reports whether a test fails that reaches a change. The slow ones are asked
// last.
func (t *trial) notices(c change) bool {
	for _, slow := range []bool{false, true} {
		for _, p := range t.programs {
			var names []string
			limit := 10 * time.Second
			for _, one := range p.tests {
				if _, err := os.Stat(filepath.Join(one.reached, strconv.Itoa(c.number))); err == nil && one.took > slowTest == slow {
					names = append(names, one.name)
					limit += time.Duration(t.slower) * one.took
				}
			}
			if len(names) > 0 && !p.passes(limit, "", names...) {
				return true
			}
		}
	}
	return false
}

// slowTest is how long a test takes that is asked last.
const slowTest = time.Second

// listed returns the package in a folder, then those of the libraries that import it,
// and the package's files.
func listed(dir string) ([]program, []string, error) {
	own, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{.Dir}} {{join .GoFiles " "}}`, dir).Output()
	if err != nil {
		return nil, nil, err
	}
	words := strings.Fields(string(own))
	list, files := []program{{path: words[0], dir: words[1]}}, words[2:]
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{.Dir}} {{join .Imports " "}} {{join .TestImports " "}} {{join .XTestImports " "}}`, "./...").Output()
	if err != nil {
		return nil, nil, err
	}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		if words[0] != list[0].path && slices.Contains(words[2:], list[0].path) && !strings.Contains(words[0], "/cmd/") {
			list = append(list, program{path: words[0], dir: words[1]})
		}
	}
	return list, files, nil
}

// programs builds the tests of packages, and runs them without a change.
func (w *workshop) programs(list []program) ([]program, error) {
	if err := w.choose(0); err != nil {
		return nil, err
	}
	var built []program
	for i, p := range list {
		p.file = filepath.Join(w.dir, fmt.Sprintf("%d.test", i))
		if out, err := exec.Command("go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", w.overlay, "-o", p.file, p.path).CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%s: %w:\n%s", p.path, err, out)
		}
		if _, err := os.Stat(p.file); err != nil {
			continue // it has no tests
		}
		if err := p.time(); err != nil {
			return nil, err
		}
		built = append(built, p)
	}
	return built, nil
}

// time runs each test without a change, and notes how long it takes and what it
// reaches.
func (p *program) time() error {
	out, err := exec.Command(p.file, "-test.list", "^(Test|Fuzz|Example)").Output()
	if err != nil {
		return fmt.Errorf("%s: %w", p.path, err)
	}
	for _, name := range strings.Fields(string(out)) {
		one := test{name: name, reached: filepath.Join(p.file+".reached", name)}
		if err := os.MkdirAll(one.reached, 0o700); err != nil {
			return err
		}
		start := time.Now()
		if !p.passes(10*time.Minute, one.reached, name) { // such as one that counts allocations
			fmt.Fprintf(os.Stderr, "%s: %s is left out, since it fails without a change\n", p.path, name)
			continue
		}
		one.took = time.Since(start)
		p.tests = append(p.tests, one)
	}
	return nil
}

// passes reports whether tests pass in time. They note what they reach in a folder, where
// one is given.
func (p *program) passes(limit time.Duration, reached string, tests ...string) bool {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	cmd := exec.CommandContext(ctx, p.file, "-test.short", "-test.failfast", "-test.run=^("+strings.Join(tests, "|")+")$")
	cmd.Dir = p.dir
	cmd.Env = append(os.Environ(), "GOMEMLIMIT=1GiB", "PUTBY_REACHED="+reached)
	cmd.WaitDelay = time.Second
	return cmd.Run() == nil
}
