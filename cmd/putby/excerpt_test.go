package main

import (
	"crypto/sha256"
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
				for range steps {
					l.step()
				}
				for _, h := range []*house{l.narrow, l.whole} {
					h.must(h.run("undo"))
				}
				l.same([]string{"undo"})
				if l.done < steps/8 {
					t.Errorf("%d of %d edits were good", l.done, steps)
				}
			})
		}
	}
}

// A receipt is told from those that are there by its day, shop and lines, and gets a
// name that none of them has, whatever of them was read.
func TestExcerptOfReceipts(t *testing.T) {
	l := &excerptLaw{T: t, narrow: excerptSample(t, 0), whole: excerptSample(t, 0)}
	l.narrow.must(l.narrow.run("edit", "setting", "hour_value", "7"))
	l.whole.must(l.whole.run("edit", "setting", "hour_value", "7"))
	for _, c := range []struct {
		good bool
		args string
	}{
		{true, "--shop|muddleby foods|2 x 454 g strawberries 3.99|soap 1.00"},
		{false, "--shop|Muddleby Foods|soap 1.00|2 x 454 g strawberries 3.99"},
		{true, "--shop|Muddleby Foods|soap 1.00|2 x 454 g strawberries 3.99|--again"},
		{true, "--shop|Corner Shop|soap 1.00"},
		{true, "--shop|Corner Shop|6 bag-1l 2.40|--date|2025-11-02"},
		{true, "--shop|Ossock Hill Farm|strawberries 3.20|tax 0.20|coupon strawberries 0.50|--total|2.90"},
		{false, "--shop|Muddleby Foods|soap 1.00|--receipt|oh-250704"},
		{false, "--shop|Muddleby Foods|soap 1.00|--total|2.00"},
		{true, "--shop|Muddleby Foods|rimewell 900|--receipt|new-machine"},
		{true, "--shop|Muddleby Foods|1 kg strawberries 99.00|--receipt|dear"},
	} {
		args := append([]string{"receipt", "add"}, strings.Split(c.args, "|")...)
		done := l.done
		l.both(args)
		if (l.done > done) != c.good {
			t.Errorf("%q: good is %t", args, l.done > done)
		}
	}
}

// An edit of strawberries reads nothing of how a run of broth went: the ledger is
// noted as sound, and then its record spoiled behind the note's back.
func TestExcerptReadsNoMore(t *testing.T) {
	for _, edit := range [][]string{
		{"draw", "add", "--pack", "c37-a"},
		{"take", "strawberries"},
		{"freeze", "0.1 kg strawberries"},
		{"count", "add", "--item", "label", "--quantity", "3"},
		{"receipt", "add", "--shop", "Muddleby Foods", "2 x 454 g strawberries 3.99", "6 bag-1l 2.40", "soap 1.00"},
	} {
		h := excerptSample(t, 0)
		if edit[0] == "freeze" {
			h.must(h.run("receipt", "add", "--shop", "Muddleby Foods", "1 kg strawberries 7.00"))
		}
		h.must(h.run("edit", "setting", "hour_value", "7"))
		sound := filepath.Join(h.dir, ".putby", "sound")
		spoil(t, filepath.Join(h.dir, "phases.csv"), "c44,1,freezing,", sound)
		h.must(h.run(edit...))
		if err := os.Remove(sound); err != nil {
			t.Fatal(err)
		}
		if s := h.run(edit...); s.status != exitFaults || !strings.Contains(s.stderr, "phases.csv") {
			t.Errorf("%q of all records: status %d\n%s%s", edit, s.status, s.stdout, s.stderr)
		}
	}
}

// spoil takes the duration from a phase, and notes the file as sound as it then is.
func spoil(t *testing.T, path, phase, sound string) {
	t.Helper()
	was, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	now := strings.Replace(string(was), phase, phase+"soon", 1)
	note, err := os.ReadFile(sound)
	if err != nil {
		t.Fatal(err)
	}
	noted := strings.Replace(string(note), fmt.Sprintf("%x", sha256.Sum256(was)), fmt.Sprintf("%x", sha256.Sum256([]byte(now))), 1)
	if now == string(was) || noted == string(note) {
		t.Fatalf("%s or its sum is not there:\n%s", phase, note)
	}
	for name, text := range map[string]string{path: now, sound: noted} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// excerptSample is the sample, by turns at average costs and with other line ends.
// Empty containers were counted in it, which ties all packs together.
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
	return h
}

// excerptDecade is a made-up household of ten years.
func excerptDecade(t *testing.T) *house {
	dir := filepath.Join(t.TempDir(), "ledger")
	if err := ledgertest.Write(dir, 3, 1); err != nil {
		t.Fatal(err)
	}
	return &house{t: t, dir: dir, now: time.Date(2023, 12, 20, 12, 0, 0, 0, time.UTC)}
}

// An excerptLaw makes the same edits in two ledgers: one of which it is known that
// it has no fault, and one of which that is forgotten each time.
type excerptLaw struct {
	*testing.T
	rng           *rand.Rand
	narrow, whole *house
	done          int      // edits that were good
	last          []string // the last receipt
}

func (l *excerptLaw) step() {
	l.Helper()
	args := l.edit()
	if l.rng.IntN(4) == 0 {
		args = append(args, "--dry-run")
	}
	l.both(args)
}

// both makes an edit in both ledgers.
func (l *excerptLaw) both(args []string) {
	l.Helper()
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
	day := []string{"--date", l.narrow.now.AddDate(0, 0, -l.rng.IntN(420)).Format(time.DateOnly)}
	if l.rng.IntN(2) == 0 {
		day = nil
	}
	amount := fmt.Sprintf("%d.%d ", l.rng.IntN(3), l.rng.IntN(10)) + pick([]string{"kg ", "L ", "ea ", "g "})
	late := packs[max(0, len(packs)-30):]
	if l.rng.IntN(3) == 0 {
		if l.last == nil || l.rng.IntN(3) > 0 {
			l.last = slices.Concat(l.receipt(rec), day)
		}
		return l.last
	}
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
		{"count", "add", "--item", pick(supplies), "--quantity", "3"},
	}[l.rng.IntN(13)], day)
}

// receipt is a receipt that may be right or wrong, or there already.
func (l *excerptLaw) receipt(rec *ledger.Records) []string {
	pick := func(list ...string) string { return list[l.rng.IntN(len(list))] }
	shops := ledger.Shops.In(rec)
	args := []string{"receipt", "add", "--shop", pick(append(shops, strings.ToUpper(pick(shops...)), "Corner Shop")...)}
	if r := rec.Receipts.At(l.rng.IntN(rec.Receipts.Len())); l.rng.IntN(4) == 0 {
		args = append(args, "--receipt", pick(r.Receipt, "anew-"+r.Receipt))
	}
	price := func() string { return fmt.Sprintf("%d.%02d", l.rng.IntN(30), l.rng.IntN(100)) }
	foods, things := ledger.Foods.In(rec), append(ledger.Supplies.In(rec), ledger.Machines.In(rec)...)
	for range 1 + l.rng.IntN(3) {
		food := pick(foods...)
		args = append(args, pick(
			food+" "+price(), "2 x "+food+" "+price(), "1.5 kg "+food+" "+price(), "2 L "+food+" "+price()+" regular", "3 ea "+food+" "+price(),
			"3 "+pick(things...)+" "+price(), "soap "+price(), "deposit 2 x 0.25", "coupon "+food+" 0.50", "coupon 1.00", "delivery 4.90"))
	}
	if l.rng.IntN(5) == 0 {
		args = append(args, "--total", price())
	}
	if l.rng.IntN(4) == 0 {
		args = append(args, "--again")
	}
	return args
}
