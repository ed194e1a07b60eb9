package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

func main() {
	seed := flag.Uint64("seed", 1, "which changes are chosen")
	n := flag.Int("n", 20, "how many changes to try in each package")
	skip := flag.Int("skip", 0, "how many of the chosen ones to pass over, to go on with a seed")
	but := flag.String("but", "", "leave out the tests of importers whose `paths` end so, as in ledger/folder,ledger/report, which take long")
	limit := flag.Duration("limit", 3*time.Minute, "how long the tests of a package may take; beyond it a change is noticed")
	flag.Parse()
	if flag.NArg() == 0 {
		flag.Usage()
		os.Exit(2)
	}
	for _, dir := range flag.Args() {
		t := trial{dir: dir, but: *but, limit: *limit}
		if err := t.run(*seed, *skip, *n); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
}

// A trial is the changes of one package.
type trial struct {
	dir, but string
	limit    time.Duration
	packages []string // the package, then those that import it
}

// The ends that a change may come to.
const (
	noticed  = "noticed"
	survived = "survived"
	unbuilt  = "does not build"
)

// run tries some of the package's changes and says what became of them.
func (t *trial) run(seed uint64, skip, n int) error {
	changes, err := changesOf(t.dir)
	if err != nil {
		return err
	}
	if t.packages, err = importers(t.dir); err != nil {
		return err
	}
	t.packages = slices.DeleteFunc(t.packages, func(p string) bool {
		return slices.ContainsFunc(strings.Split(t.but, ","), func(end string) bool { return end != "" && strings.HasSuffix(p, end) })
	})
	switch end, err := t.try(change{}); {
	case err != nil:
		return err
	case end != survived:
		return fmt.Errorf("%s: its tests fail as it is", t.dir)
	}
	rand.New(rand.NewPCG(seed, 0)).Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
	ends, chosen := map[string]int{}, changes[min(skip, len(changes)):]
	for _, c := range chosen {
		if ends[noticed]+ends[survived] == n {
			break
		}
		end, err := t.try(c)
		if err != nil {
			return err
		}
		ends[end]++
		if end == survived {
			fmt.Printf("%s:%d:%d: %s\n", c.file, c.line, c.column, c.what)
		}
	}
	fmt.Printf("%s: %d of %d changes were noticed; %d more did not build\n", t.dir, ends[noticed], ends[noticed]+ends[survived], ends[unbuilt])
	return nil
}

// importers returns a package and those of the libraries that import it.
func importers(dir string) ([]string, error) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "./...").Output()
	if err != nil {
		return nil, err
	}
	own, err := exec.Command("go", "list", dir).Output()
	if err != nil {
		return nil, err
	}
	list := []string{strings.TrimSpace(string(own))}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		if slices.Contains(words[1:], list[0]) && !strings.Contains(words[0], "/cmd/") {
			list = append(list, words[0])
		}
	}
	return list, nil
}

// try runs the tests with a change, the package's own first.
func (t *trial) try(c change) (string, error) {
	dir, err := os.MkdirTemp("", "putby-mutate")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	overlay, err := overlayOf(dir, c)
	if err != nil {
		return "", err
	}
	build := exec.Command("go", "build", "-overlay", overlay, t.packages[0])
	if build.Run() != nil {
		return unbuilt, nil
	}
	for _, p := range t.packages {
		if !t.passes(overlay, p) {
			return noticed, nil
		}
	}
	return survived, nil
}

// passes reports whether the quick tests of a package pass in time.
func (t *trial) passes(overlay, name string) bool {
	ctx, cancel := context.WithTimeout(context.Background(), t.limit)
	defer cancel()
	cmd := exec.CommandContext(ctx, "go", "test", "-short", "-failfast", "-vet=off", "-overlay", overlay, name)
	cmd.Env = append(os.Environ(), "GOMEMLIMIT=1GiB")
	cmd.WaitDelay = time.Second
	return cmd.Run() == nil
}

// overlayOf has a changed file stand in for the one that is there.
func overlayOf(dir string, c change) (string, error) {
	replace := map[string]string{}
	if c.file != "" {
		source, err := os.ReadFile(c.file)
		if err != nil {
			return "", err
		}
		path, err := filepath.Abs(c.file)
		if err != nil {
			return "", err
		}
		replace[path] = filepath.Join(dir, "changed.go")
		text := bytes.Join([][]byte{source[:c.from], []byte(c.text), source[c.to:]}, nil)
		if err := os.WriteFile(replace[path], text, 0o600); err != nil {
			return "", err
		}
	}
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	name := filepath.Join(dir, "overlay.json")
	return name, os.WriteFile(name, data, 0o600)
}
