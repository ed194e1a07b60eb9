package folder

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"putby/ledger"
)

// TestReread: what a change leaves is the same read from what changed alone as
// read from all files, whatever is changed, tried, refused and taken back.
func TestReread(t *testing.T) {
	for seed := range uint64(20) {
		random := rand.New(rand.NewPCG(seed, 1))
		dir := household(t)
		if seed%2 == 0 {
			put(t, dir, "meter/R0.csv", "time,watts\n2025-01-01 10:00,5\n")
		}
		b := openBook(t, dir)
		for range 30 {
			what, err := changeAtRandom(t, b, random)
			want, faults := parse(b.files, keepTexts)
			b.readAll()
			normal := *b.records
			if len(normal.Meters) == 0 {
				normal.Meters = want.Meters
			}
			if !reflect.DeepEqual(spelled(&normal), spelled(want)) || !slices.Equal(texts(faults), texts(b.faults)) {
				t.Fatalf("seed %d: after %s (%v) it has\n%+v\n%v, want\n%+v\n%v", seed, what, err, spelled(b.records), b.faults, spelled(want), faults)
			}
		}
	}
}

func texts(faults ledger.Faults) (list []string) {
	for _, f := range faults {
		list = append(list, f.Error())
	}
	return list
}

// changeAtRandom makes, tries or takes back one change.
func changeAtRandom(t *testing.T, b *Book, random *rand.Rand) (string, error) {
	draws := kindOf(t, "draw")
	edits := map[string]func(*Tx) error{
		"append": addDraw(t, "P1", fmt.Sprint(random.Int())),
		"fault":  addDraw(t, "P9", "x"),
		"bad": func(tx *Tx) error {
			return tx.Append(draws, map[string]string{"date": "x", "pack": "P1", "quantity": "1"})
		},
		"amend or strike": func(tx *Tx) error {
			for line := range tx.Rows(draws) {
				if random.IntN(2) == 0 {
					return tx.Replace(draws, line, map[string]string{"quantity": "1"})
				}
				return tx.Strike(draws, line)
			}
			return nil
		},
		"two files": func(tx *Tx) error { return errors.Join(pairOf("x")(tx), addDraw(t, "P1", "and")(tx)) },
		"log": func(tx *Tx) error {
			return tx.WriteFile("meter/R1.csv", fmt.Appendf(nil, "time,watts\n2025-01-01 10:00,%d\n", random.IntN(900)))
		},
		"no log": func(tx *Tx) error { return tx.RemoveFile("meter/R1.csv") },
		"settings": func(tx *Tx) error {
			return tx.Replace(kindOf(t, "setting"), 4, map[string]string{"value": []string{"UTC", "Europe/Vienna"}[random.IntN(2)]})
		},
	}
	names := []string{"append", "append", "fault", "bad", "amend or strike", "two files", "log", "no log", "settings"}
	name := names[random.IntN(len(names))]
	var err error
	switch random.IntN(6) {
	case 0:
		name = "try " + name
		_, err = b.Try("test", edits[name[4:]])
	case 1:
		name = "undo"
		_, err = b.Undo()
	case 2:
		name = "redo"
		_, err = b.Redo()
	default:
		_, err = b.Edit("test", edits[name])
	}
	return name, err
}
