package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/ledgertest"
)

// An edit that is judged by the records that it concerns alone is taken or refused,
// told and written to the last byte as one that is judged by all.
func TestExcerpt(t *testing.T) {
	for name, seeds := range map[string]int{"sample": 6, "decade": 1} {
		for seed := range seeds {
			t.Run(fmt.Sprintf("%s %d", name, seed), func(t *testing.T) {
				l := &excerptLaw{T: t, rng: rand.New(rand.NewPCG(uint64(seed), 7))}
				steps := 25
				if name == "sample" {
					l.narrow, l.whole = excerptSample(t, seed), excerptSample(t, seed)
				} else {
					l.narrow, l.whole = excerptDecade(t), excerptDecade(t)
					steps = 10
				}
				l.narrow.must(l.narrow.run("edit", "setting", "hour_value", "7")) // which is judged by all
				l.whole.must(l.whole.run("edit", "setting", "hour_value", "7"))
				before := folder.Excerpts()
				for range steps {
					l.step()
				}
				for _, h := range []*house{l.narrow, l.whole} {
					h.must(h.run("undo"))
				}
				l.same([]string{"undo"})
				if used := folder.Excerpts() - before; used < l.done/2 {
					t.Errorf("%d of %d good edits were judged by an excerpt", used, l.done)
				}
			})
		}
	}
}

// excerptSample is the sample with the things in it that tie records together, by
// turns: average costing, no counts of lids, hours in the morning.
func excerptSample(t *testing.T, seed int) *house {
	h := sampleHouse(t)
	change := func(name string, to func(string) string) {
		path := filepath.Join(h.dir, name)
		text, err := os.ReadFile(path)
		if err == nil {
			err = os.WriteFile(path, []byte(to(string(text))), 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if seed%2 == 1 {
		change("settings.csv", func(s string) string { return strings.Replace(s, "costing,fifo", "costing,average", 1) })
		change("loads.csv", func(s string) string {
			var lines []string
			for line := range strings.Lines(s) {
				cells := strings.Split(line, ",")
				if len(lines) > 0 {
					cells[3], cells[4] = "", ""
				}
				lines = append(lines, strings.Join(cells, ","))
			}
			return strings.Join(lines, "")
		})
	}
	if seed%3 == 2 {
		change("packs.csv", func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") })
		change("draws.csv", func(s string) string { return "\ufeff" + strings.TrimSuffix(s, "\n") })
	}
	change("counts.csv", func(s string) string { // empty containers hang on all packs
		var kept []string
		for line := range strings.Lines(s) {
			if !strings.Contains(line, ",jar-") && !strings.Contains(line, ",lid") {
				kept = append(kept, line)
			}
		}
		return strings.Join(kept, "")
	})
	return h
}

// excerptDecade is a made-up household of ten years.
func excerptDecade(t *testing.T) *house {
	dir := filepath.Join(t.TempDir(), "ledger")
	if err := ledgertest.Write(dir, 3, 1); err != nil {
		t.Fatal(err)
	}
	return &house{t, dir, time.Date(2023, 12, 20, 12, 0, 0, 0, time.UTC)}
}

// An excerptLaw makes the same edits in two ledgers: one of which it is known that
// it has no fault, and one of which that is forgotten each time.
type excerptLaw struct {
	*testing.T
	rng           *rand.Rand
	narrow, whole *house
	done          int // edits that were good
}

func (l *excerptLaw) step() {
	l.Helper()
	args := l.edit()
	if l.rng.IntN(4) == 0 {
		args = append(args, "--dry-run")
	}
	_ = os.Remove(filepath.Join(l.whole.dir, ".putby", "sound"))
	got, want := l.narrow.run(args...), l.whole.run(args...)
	if got != want {
		l.Fatalf("%q:\n%+v\nof all records\n%+v", args, got, want)
	}
	l.same(args)
	if got.status == exitDone {
		l.done++
	}
}

// same holds the files of the two to each other.
func (l *excerptLaw) same(args []string) {
	l.Helper()
	narrow, whole := l.narrow.files(), l.whole.files()
	for name, want := range whole {
		name = strings.TrimPrefix(name, l.whole.dir)
		if got := narrow[l.narrow.dir+name]; strings.HasSuffix(name, ".csv") && got != want {
			l.Fatalf("%q: %s is\n%s\nof all records\n%s", args, name, got, want)
		}
	}
}

// edit is a command that may be right or wrong.
func (l *excerptLaw) edit() []string {
	rec, faults, err := folder.Read(l.whole.dir)
	if err != nil || len(faults) > 0 {
		l.Fatal(err, faults)
	}
	pick := func(list []string) string { return list[l.rng.IntN(len(list))] }
	packs, foods, supplies := ledger.Packs.In(rec), ledger.Foods.In(rec), ledger.Supplies.In(rec)
	var once []string // where others are counted, all records are needed from then on
	for i := range rec.Supplies {
		if s := &rec.Supplies[i]; !s.ServesAgain() {
			once = append(once, s.ID)
		}
	}
	day := []string{"--date", l.narrow.now.AddDate(0, 0, -l.rng.IntN(420)).Format(time.DateOnly)}
	if l.rng.IntN(2) == 0 {
		day = nil
	}
	amount := fmt.Sprintf("%d.%d ", l.rng.IntN(3), l.rng.IntN(10)) + pick([]string{"kg ", "L ", "ea ", "g "})
	late := packs[max(0, len(packs)-30):]
	return slices.Concat([][]string{
		{"draw", "add", "--pack", pick(late), "--quantity", pick([]string{"1", "1", "2", "9"}), "--reason", pick([]string{"used", "given", "spoiled"})},
		{"draw", "add", "--pack", pick(append(packs, "no-such", strings.ToUpper(pick(late))))},
		{"draw", "add", "--food", pick(foods), "--quantity", pick([]string{"1", "3", "400"})},
		{"draw", "add", "--item", pick(append(foods, supplies...)), "--quantity", strings.TrimSpace(amount)},
		{"take", pick(foods), "2 " + pick(foods)},
		{"take", "pack " + pick(late), pick(foods)},
		{"take", amount + pick(foods), "--spoiled"},
		{"take", "1 " + pick(supplies)},
		{"freeze", amount + pick(foods)},
		{"freeze", pick(foods)},
		{"count", "add", "--pack", pick(late), "--quantity", pick([]string{"0", "1", "2"})},
		{"count", "add", "--item", pick(foods), "--quantity", strings.TrimSpace(amount)},
		{"count", "add", "--item", pick(once), "--quantity", "3"},
		{"count", "add", "--item", pick(supplies), "--quantity", "3", "--dry-run"},
	}[l.rng.IntN(14)], day)
}
