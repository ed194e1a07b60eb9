package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// What begins a run, ends it, records it whole and packs it is taken or refused, told
// and written by the records that it concerns alone as by all.
func TestExcerptOfRuns(t *testing.T) {
	for name, seeds := range map[string]int{"sample": 3, "decade": 1} {
		for seed := range seeds {
			t.Run(fmt.Sprintf("%s %d", name, seed), func(t *testing.T) {
				l := &excerptLaw{T: t, rng: rand.New(rand.NewPCG(uint64(seed), 11))}
				rounds := 4
				if name == "sample" {
					l.narrow, l.whole = excerptSample(t, seed), excerptSample(t, seed)
				} else {
					l.narrow, l.whole = excerptDecade(t), excerptDecade(t)
					rounds = 1
					l.narrow.now = l.narrow.now.AddDate(0, 0, 9) // nothing is on
					l.whole.now = l.narrow.now
				}
				l.narrow.must(l.narrow.run("edit", "setting", "hour_value", "7")) // which is judged by all
				l.whole.must(l.whole.run("edit", "setting", "hour_value", "7"))
				good := map[string]int{}
				for range rounds {
					for _, args := range l.cycle() {
						if l.rng.IntN(6) == 0 {
							l.both(slices.Concat(args, []string{"--dry-run"}))
						}
						if done := l.done; args != nil {
							if l.both(args); l.done > done {
								good[args[0]]++
							}
						}
					}
				}
				for _, h := range []*house{l.narrow, l.whole} {
					h.must(h.run("undo"))
				}
				l.same([]string{"undo"})
				for _, command := range []string{"start", "finish", "pack"} {
					if good[command] == 0 && (name == "sample" || command == "pack") {
						t.Errorf("no %s was good", command)
					}
				}
			})
		}
	}
}

// cycle is the life of a load from the shop to the jars, with slips on the way.
func (l *excerptLaw) cycle() [][]string {
	rec, faults, err := folder.Read(l.whole.dir)
	if err != nil || len(faults) > 0 {
		l.Fatal(err, faults)
	}
	pick := func(list ...string) string { return list[l.rng.IntN(len(list))] }
	some := func(args []string, one int, more ...string) []string {
		if l.rng.IntN(one) == 0 {
			return slices.Concat(args, more)
		}
		return args
	}
	at := func(days, hours int) string {
		return l.narrow.now.Add(-time.Duration(24*days+hours) * time.Hour).Format("2006-01-02 15:04")
	}
	foods, runs, machine := ledger.Foods.In(rec), ledger.Runs.In(rec), pick(ledger.Machines.In(rec)...)
	food, other := pick(foods...), pick(foods...)
	unit := map[bool]string{true: "ea", false: "L"}[slices.ContainsFunc(rec.Foods, func(f ledger.Food) bool { return f.ID == food && f.Basis.String() == "ea" })]
	if slices.ContainsFunc(rec.Foods, func(f ledger.Food) bool { return f.ID == food && f.Basis.String() == "kg" }) {
		unit = "kg"
	}
	late, with := runs[max(0, len(runs)-6):], []string{"--with", "nothing"}
	if supplies := ledger.Supplies.In(rec); len(supplies) > 0 {
		with = []string{"--with", "1 " + pick(supplies...)}
	}
	start := some([]string{"start", "2 " + unit + " " + food}, 3, "0.5 kg "+other)
	finish := [][]string{
		{"finish", "--kwh", pick("14.2", "900", "0.1")},
		{"finish", "--as-usual", "--hands", "25m"},
		{"finish", "--kwh", "13", "--dry", pick("0.4 kg", food+" 0.5 kg", "3 kg")},
		{"finish", "--phase", "freezing 4h", "--phase", "primary 12h 500 W", "--lost", pick("0.1 ", "9 ") + unit},
		{"finish", "--spoiled", "--kwh", "9"},
		{"finish", "--more", "secondary 2h"},
	}[l.rng.IntN(6)]
	return [][]string{
		{"receipt", "add", "--shop", "Corner Shop", "7 " + unit + " " + food + " 9.00", "--date", at(2, 0)[:10]},
		some(some(start, 6, "--at", at(400, 0)), 2, "--machine", machine),
		some([]string{"start", "1 " + unit + " " + food, "--at", at(1, l.rng.IntN(30)), "--machine", machine}, 4, "--run", pick(runs...)),
		{"pack", "add", pick("2", food+" 2 x 0.5 "+unit)},
		finish,
		{"finish", "--kwh", "12", "--at", at(0, 1)},
		some([]string{"finish", pick(append(late, "no-such", strings.ToUpper(pick(late...)))...), pick("--hands", "--kwh"), pick("12", "12m")}, 3, "--dry", "0.3 kg"),
		some([]string{"pack", "add", pick("2 x 0.4 "+unit, food+" 1 x 0.5 "+unit, food+" 1", "3")}, 2, with...),
		some([]string{"pack", "add", food + " 1 x 0.3 " + unit, "--date", pick("yesterday", "today", at(380, 0)[:10])}, 3, "--pack", pick("new-"+food, "c01-a", "p0-0-0")),
		some([]string{"pack", "add", "1 x 0.2 " + unit, "--run", pick(append(late, pick(runs...), "no-such")...)}, 3, "--all-packed"),
		some([]string{"pack", "add", "--item", pick(foods...), "--count", "2", "--each", "0.5 " + unit}, 2, "--cost", "6.40"),
		some([]string{"run", "add", "--start", at(l.rng.IntN(40), 3), "--load", "1 " + unit + " " + food, "--kwh", pick("12", "400")}, 2, "--machine", machine),
		some([]string{"run", "add", "--start", at(1+l.rng.IntN(300), 5), "--load", "0.2 " + unit + " " + pick(foods...), "--phase", "primary 3h 400 W"}, 2,
			"--load", "0.1 "+unit+" "+food, "--outcome", pick("good", "spoiled", "running")),
	}
}

// An edit of a run reads nothing of what other food came to: the ledger is noted as
// sound, and then its record spoiled behind the note's back.
func TestExcerptOfRunsReadsNoMore(t *testing.T) {
	h := excerptSample(t, 0)
	h.must(h.run("receipt", "add", "--shop", "Muddleby Foods", "3 kg strawberries 7.00", "--date", "2025-11-18"))
	h.must(h.run("edit", "setting", "hour_value", "7"))
	spoil(t, filepath.Join(h.dir, "receipts.csv"), "oh-251002,", filepath.Join(h.dir, ".putby", "sound"))
	for _, edit := range [][]string{
		{"run", "add", "--start", "2025-11-19 08:00", "--load", "1 kg strawberries", "--kwh", "9"},
		{"pack", "add", "strawberries 2 x 50 g", "--with", "1 bag-1l"},
		{"start", "1 kg strawberries"},
		{"finish", "--kwh", "9"},
		{"finish", "--dry", "0.1 kg", "--lost", "0.1 kg", "c49"},
	} {
		if s := h.run(edit...); s.status != exitDone {
			t.Errorf("%q: status %d\n%s%s", edit, s.status, s.stdout, s.stderr)
		}
	}
}
