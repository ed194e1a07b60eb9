package nutrients

import (
	"bytes"
	"compress/flate"
	_ "embed" // for sr28.bin
	"encoding/binary"
	"io"
	"strconv"
	"strings"
	"sync"

	"putby/pricing/exact"
)

// packed is the table as generate.go makes it, deflated (RFC 1951): the number
// of foods and of distinct measures, the measures' words and then the foods'
// descriptions, a line each, and after them columns of variable-length
// integers:
//
//	for each food:    step of the NDB number from the last food's; water, kcal,
//	                  protein, fat and refuse in hundredths plus 1, 0 for a
//	                  blank; number of measures
//	for each measure: index of its words, amount in thousandths, grams in
//	                  hundredths
//
//go:embed sr28.bin
var packed []byte

// leftOut lists what is not to be shown, since it names a maker, a shop or a
// brand: foods by their NDB numbers, and measures as NUMBER:PLACE.
//
//go:embed left_out.txt
var leftOut string

// table unpacks the foods, by NDB number, at the first call.
var table = sync.OnceValue(func() []Food { return without(mustUnpack(packed), leftOut) })

// without takes out of foods what a list names. Lines that begin with # are
// remarks.
func without(foods []Food, list string) []Food {
	out := map[string]bool{}
	for line := range strings.Lines(list) {
		if !strings.HasPrefix(line, "#") {
			for _, what := range strings.Fields(line) {
				ndb, _, ofMeasure := strings.Cut(what, ":")
				out[what] = true
				if ofMeasure {
					out[ndb+":"] = true // some of its measures are out
				}
			}
		}
	}
	kept := foods[:0]
	for _, f := range foods {
		if out[f.NDB] {
			continue
		}
		if out[f.NDB+":"] {
			measures := f.Measures
			f.Measures = nil
			for i, m := range measures {
				if !out[f.NDB+":"+strconv.Itoa(i+1)] {
					f.Measures = append(f.Measures, m)
				}
			}
		}
		kept = append(kept, f)
	}
	return kept
}

// mustUnpack panics on anything that generate.go would not write: then the
// program was built wrong.
func mustUnpack(packed []byte) []Food {
	var plain strings.Builder
	plain.Grow(4 * len(packed))
	if _, err := io.Copy(&plain, flate.NewReader(bytes.NewReader(packed))); err != nil {
		panic("nutrients: " + err.Error())
	}
	in := &reader{plain.String()}
	foods := make([]Food, in.uint())
	measures := make([]string, in.uint())
	for i := range measures {
		measures[i] = in.line()
	}
	for i := range foods {
		foods[i].Description = in.line()
	}
	unpackColumns(in, foods)
	unpackMeasures(in, foods, measures)
	return foods
}

// unpackColumns reads the columns that each food has one figure of.
func unpackColumns(in *reader, foods []Food) {
	ndb := uint64(0)
	for i := range foods {
		ndb += in.uint()
		foods[i].NDB = strconv.FormatUint(100000+ndb, 10)[1:]
	}
	for _, column := range []func(*Food) *exact.Opt[exact.Number]{
		func(f *Food) *exact.Opt[exact.Number] { return &f.Water },
		func(f *Food) *exact.Opt[exact.Number] { return &f.Kcal },
		func(f *Food) *exact.Opt[exact.Number] { return &f.Protein },
		func(f *Food) *exact.Opt[exact.Number] { return &f.Fat },
		func(f *Food) *exact.Opt[exact.Number] { return &f.Refuse },
	} {
		for i := range foods {
			if n := in.uint(); n > 0 {
				*column(&foods[i]) = exact.Some(exact.New(int64(n-1), 2))
			}
		}
	}
}

// unpackMeasures reads the measures; all foods share one array of them.
func unpackMeasures(in *reader, foods []Food, words []string) {
	counts, sum := make([]uint64, len(foods)), uint64(0)
	for i := range counts {
		counts[i] = in.uint()
		sum += counts[i]
	}
	all := make([]Measure, sum)
	for i := range all {
		all[i].Words = words[in.uint()]
	}
	for i := range all {
		all[i].Amount = exact.New(int64(in.uint()), 3)
	}
	for i := range all {
		all[i].Grams = exact.New(int64(in.uint()), 2)
	}
	for i, n := range counts {
		foods[i].Measures, all = all[:n:n], all[n:]
	}
}

// reader takes the parts of the table off its front; the lines share its memory.
type reader struct{ rest string }

// uint takes a variable-length integer, as encoding/binary writes it.
func (r *reader) uint() uint64 {
	n := uint64(0)
	for i := range min(len(r.rest), binary.MaxVarintLen64) {
		n |= uint64(r.rest[i]&0x7f) << (7 * i)
		if r.rest[i] < 0x80 {
			r.rest = r.rest[i+1:]
			return n
		}
	}
	panic("nutrients: the table ends early")
}

func (r *reader) line() string {
	line, rest, _ := strings.Cut(r.rest, "\n")
	r.rest = rest
	return line
}
