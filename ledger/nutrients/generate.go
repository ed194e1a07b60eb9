//go:build ignore

// This program makes sr28.bin from the two files of the release that the
// package needs:
//
//	go run generate.go abbrev.csv weight.txt sr28.bin
//
// See table.go for the layout, which the package's tests hold against the same
// two files.
package main

import (
	"bytes"
	"cmp"
	"compress/flate"
	"encoding/binary"
	"encoding/csv"
	"fmt"
	"log"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
)

type food struct {
	ndb                               int
	text                              string
	water, kcal, protein, fat, refuse uint64 // hundredths + 1; 0 is blank
	measures                          []measure
}

type measure struct {
	words         string
	amount, grams uint64 // thousandths, hundredths
}

func main() {
	log.SetFlags(0)
	if len(os.Args) != 4 {
		log.Fatal("usage: go run generate.go abbrev.csv weight.txt sr28.bin")
	}
	foods := readFoods(os.Args[1])
	readMeasures(os.Args[2], foods)
	list := slices.SortedFunc(maps.Values(foods), func(a, b *food) int { return cmp.Compare(a.ndb, b.ndb) })
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, flate.BestCompression)
	check(err)
	_, err = w.Write(encode(list))
	check(err)
	check(w.Close())
	check(os.WriteFile(os.Args[3], out.Bytes(), 0o644))
	fmt.Printf("%d foods, %d bytes\n", len(list), out.Len())
}

func readFoods(path string) map[int]*food {
	f, err := os.Open(path)
	check(err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	check(err)
	at := func(name string) int { return slices.Index(rows[0], name) }
	ndb, text, refuse := at("NDB_No"), at("Shrt_Desc"), at("Refuse_Pct")
	water, kcal, protein, fat := at("Water_(g)"), at("Energ_Kcal"), at("Protein_(g)"), at("Lipid_Tot_(g)")
	foods := map[int]*food{}
	for _, r := range rows[1:] {
		n, err := strconv.Atoi(r[ndb])
		check(err)
		foods[n] = &food{ndb: n, text: r[text], water: hundredths(r[water]), kcal: hundredths(r[kcal]),
			protein: hundredths(r[protein]), fat: hundredths(r[fat]), refuse: hundredths(r[refuse])}
	}
	return foods
}

func readMeasures(path string, foods map[int]*food) {
	text, err := os.ReadFile(path)
	check(err)
	for line := range strings.FieldsFuncSeq(string(text), func(r rune) bool { return r == '\r' || r == '\n' }) {
		f := strings.Split(strings.ReplaceAll(line, "~", ""), "^")
		n, err := strconv.Atoi(f[0])
		check(err)
		if foods[n] == nil {
			log.Fatalf("food %s has a measure but no figures", f[0])
		}
		foods[n].measures = append(foods[n].measures, measure{f[3], fixed(f[2], 3), fixed(f[4], 2)})
	}
}

// encode lays the foods out by columns, which compress better than rows.
func encode(foods []*food) []byte {
	count := map[string]int{}
	for _, f := range foods {
		for _, m := range f.measures {
			count[m.words]++
		}
	}
	words := slices.SortedFunc(maps.Keys(count), func(a, b string) int {
		return cmp.Or(cmp.Compare(count[b], count[a]), cmp.Compare(a, b))
	})
	number := map[string]int{}
	for i, w := range words {
		number[w] = i
	}
	var b []byte
	put := func(n uint64) { b = binary.AppendUvarint(b, n) }
	put(uint64(len(foods)))
	put(uint64(len(words)))
	for _, w := range words {
		b = append(append(b, w...), '\n')
	}
	for _, f := range foods {
		b = append(append(b, f.text...), '\n')
	}
	last := 0
	for _, f := range foods {
		put(uint64(f.ndb - last))
		last = f.ndb
	}
	for _, column := range []func(*food) uint64{
		func(f *food) uint64 { return f.water },
		func(f *food) uint64 { return f.kcal },
		func(f *food) uint64 { return f.protein },
		func(f *food) uint64 { return f.fat },
		func(f *food) uint64 { return f.refuse },
		func(f *food) uint64 { return uint64(len(f.measures)) },
	} {
		for _, f := range foods {
			put(column(f))
		}
	}
	for _, column := range []func(measure) uint64{
		func(m measure) uint64 { return uint64(number[m.words]) },
		func(m measure) uint64 { return m.amount },
		func(m measure) uint64 { return m.grams },
	} {
		for _, f := range foods {
			for _, m := range f.measures {
				put(column(m))
			}
		}
	}
	return b
}

func hundredths(s string) uint64 {
	if s == "" {
		return 0
	}
	return fixed(s, 2) + 1
}

// fixed reads digits with a point as a whole number of 10^-places, and refuses
// what would lose a digit.
func fixed(s string, places int) uint64 {
	whole, fraction, _ := strings.Cut(s, ".")
	if extra := strings.TrimRight(fraction, "0"); len(extra) > places {
		log.Fatalf("%s has more than %d places", s, places)
	}
	n, err := strconv.ParseUint(whole+(fraction + "000")[:places], 10, 64)
	check(err)
	return n
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
