package ledgertest

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"
)

// Runs is how many runs a household-decade has.
const Runs = 1000

// Files returns the files of a ledger of so many household-decades, by name.
func Files(seed uint64, times int) map[string][]byte {
	g := &generator{rng: rand.New(rand.NewPCG(seed, 1)), out: map[string]*bytes.Buffer{}}
	g.basics(times)
	g.shelf()
	before := make([][]pack, times) // packed by the run before, not eaten yet
	for n := range Runs {
		for h := range times {
			before[h] = g.cycle(n, h, before[h])
		}
	}
	files := map[string][]byte{}
	for name, b := range g.out {
		files[name] = b.Bytes()
	}
	return files
}

// Write writes such a ledger into dir, which it makes.
func Write(dir string, seed uint64, times int) error {
	for name, data := range Files(seed, times) {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			return err
		}
		if err := os.WriteFile(path, data, 0o600); err != nil {
			return err
		}
	}
	return nil
}

type generator struct {
	rng *rand.Rand
	out map[string]*bytes.Buffer
}

// row adds a line to a file.
func (g *generator) row(file, format string, args ...any) {
	if g.out[file] == nil {
		g.out[file] = new(bytes.Buffer)
	}
	fmt.Fprintf(g.out[file], format+"\n", args...)
}

// between returns a number from low to high.
func (g *generator) between(low, high int) int { return low + g.rng.IntN(high-low+1) }

func pick[T any](g *generator, list []T) T { return list[g.rng.IntN(len(list))] }

// start is the first day of every ledger, a Wednesday.
var start = time.Date(2014, time.January, 1, 0, 0, 0, 0, time.UTC)

func day(t time.Time) string { return t.Format(time.DateOnly) }

// cents writes an amount of cents, thousandths one of thousandths.
func cents(n int) string       { return fmt.Sprintf("%d.%02d", n/100, n%100) }
func thousandths(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

// cycle makes what belongs to one run: a receipt, the run, its packs, and the
// meals from the packs of the run before.
func (g *generator) cycle(n, household int, before []pack) []pack {
	c := &cycle{
		generator: g,
		run:       fmt.Sprintf("R%d-%d", household+1, n+1),
		receipt:   fmt.Sprintf("B%d-%d", household+1, n+1),
		machine:   fmt.Sprintf("dryer-%d", household+1),
		number:    n,
		// 87.6 hours apart: the longest cycle and the widest spread fit.
		bought: start.Add(time.Duration(n) * 876 * time.Hour / 10).Truncate(24 * time.Hour),
	}
	first, second := c.foods()
	c.buy(first, second)
	c.dry(household == 0 && n%50 == 7)
	c.eat(before)
	return c.pack()
}
