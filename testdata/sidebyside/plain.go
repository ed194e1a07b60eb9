package main

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"
)

// runsOfDecade is how many runs a household has in ten years.
const runsOfDecade = 1000

// writePlain writes a plain ledger of so many households, which share its foods. All
// of it is invented; the same seed makes the same bytes.
func writePlain(dir string, seed uint64, times int) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	g := &plain{rng: rand.New(rand.NewPCG(seed, 2)), dir: dir, files: map[string]*bufio.Writer{}}
	g.row("settings.csv", "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\ntariff,flat")
	g.row("tariffs.csv", "tariff,rate\nflat,0.2837")
	g.row("foods.csv", "food,name,basis")
	g.row("machines.csv", "machine,name,cycles")
	for i := range 8 {
		g.row("foods.csv", "food-%d,Food %d,volume", i, i)
	}
	for name, header := range map[string]string{
		"receipts.csv": "receipt,date,shop,line,kind,item,count,size,price", "runs.csv": "run,machine,start",
		"phases.csv": "run,step,phase,duration,kwh", "loads.csv": "run,item,quantity,receipt",
		"packs.csv": "pack,run,item,date,count,each", "draws.csv": "date,pack,quantity,reason",
	} {
		g.row(name, header)
	}
	for h := range times {
		g.row("machines.csv", "dryer-%d,Dryer %d,1500", h, h)
	}
	for n := range runsOfDecade {
		for h := range times {
			g.cycle(n, h)
		}
	}
	for _, f := range g.files {
		if err := f.Flush(); err != nil {
			return err
		}
	}
	return g.err
}

// plain writes the files of a ledger.
type plain struct {
	rng   *rand.Rand
	dir   string
	files map[string]*bufio.Writer
	err   error
}

// row adds a line to a file.
func (g *plain) row(name, format string, args ...any) {
	out := g.files[name]
	if out == nil {
		f, err := os.Create(filepath.Join(g.dir, name))
		if err != nil {
			g.err = err
		}
		out = bufio.NewWriterSize(f, 1<<16)
		g.files[name] = out
	}
	fmt.Fprintf(out, format+"\n", args...)
}

func (g *plain) between(low, high int) int { return low + g.rng.IntN(high-low+1) }

func thousandths(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

// cycle is a run, with what it dried and what came of it.
func (g *plain) cycle(n, house int) {
	id := fmt.Sprintf("%d-%d", house, n)
	day := time.Date(2014, 1, 1+n*365/100, 0, 0, 0, 0, time.UTC)
	date, packed := day.Format(time.DateOnly), day.AddDate(0, 0, 2).Format(time.DateOnly)
	food, litres := g.between(0, 7), g.between(3000, 7000)/8*8
	shop := g.between(1, 9)
	line := func(number int, kind, item, count, size string) {
		g.row("receipts.csv", "r%s,%s,Shop %d,%d,%s,%s,%s,%s,%d.%02d", id, date, shop, number, kind, item, count, size, g.between(0, 6), g.between(0, 99))
	}
	line(1, "food", fmt.Sprint("food-", food), thousandths(litres), "1 L")
	for number := range 3 {
		line(2+number, "other", "odds and ends", "1.000", "")
	}
	g.row("runs.csv", "c%s,dryer-%d,%s %02d:%02d", id, house, date, g.between(6, 18), g.between(0, 59))
	for step, phase := range []string{"freezing", "evacuation", "primary", "secondary", "hold", "defrost"} {
		g.row("phases.csv", "c%s,%d,%s,%dm,%s", id, step+1, phase, g.between(15, 400), thousandths(g.between(100, 9000)))
	}
	g.row("loads.csv", "c%s,food-%d,%s L,r%s", id, food, thousandths(litres), id)
	for p := range 4 {
		g.row("packs.csv", "p%s-%d,c%s,food-%d,%s,2,%s L", id, p, id, food, packed, thousandths(litres/8))
		g.row("draws.csv", "%s,p%s-%d,1,used", packed, id, p)
	}
}
