package report

import (
	"reflect"
	"slices"

	"putby/ledger"
)

// recordLists are the records of each kind that there are sentences for.
var recordLists = map[string]func(*ledger.Records) recordList{
	"food": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Foods), func(i int) any { return rec.Foods[i] }}
	},
	"supply": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Supplies), func(i int) any { return rec.Supplies[i] }}
	},
	"machine": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Machines), func(i int) any { return rec.Machines[i] }}
	},
	"wattage": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Wattage), func(i int) any { return rec.Wattage[i] }}
	},
	"tariff": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Tariffs), func(i int) any { return rec.Tariffs[i] }}
	},
	"holiday": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Holidays), func(i int) any { return rec.Holidays[i] }}
	},
	"receipt": func(rec *ledger.Records) recordList {
		return recordList{rec.Receipts.Len(), func(i int) any { return rec.Receipts.At(i) }}
	},
	"price": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Shelf), func(i int) any { return rec.Shelf[i] }}
	},
	"batch": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Batches), func(i int) any { return rec.Batches[i] }}
	},
	"run": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Runs), func(i int) any { return rec.Runs[i] }}
	},
	"phase": func(rec *ledger.Records) recordList {
		return recordList{rec.Phases.Len(), func(i int) any { return rec.Phases.At(i) }}
	},
	"load": func(rec *ledger.Records) recordList {
		return recordList{rec.Loads.Len(), func(i int) any { return rec.Loads.At(i) }}
	},
	"pack": func(rec *ledger.Records) recordList {
		return recordList{rec.Packs.Len(), func(i int) any { return rec.Packs.At(i) }}
	},
	"draw": func(rec *ledger.Records) recordList {
		return recordList{rec.Draws.Len(), func(i int) any { return rec.Draws.At(i) }}
	},
	"frozen": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Freezes), func(i int) any { return rec.Freezes[i] }}
	},
	"count": func(rec *ledger.Records) recordList {
		return recordList{len(rec.Counts), func(i int) any { return rec.Counts[i] }}
	},
}

// A recordList is the records of a kind, of whatever type.
type recordList struct {
	n  int
	at func(i int) any
}

// Differing finds the records of a kind that one of two states of a ledger has and
// the other has not, wherever they stand in the file. It reports false for a kind
// that there are no sentences for.
func Differing(kind string, before, after *ledger.Records) (gone, come []Written, ok bool) {
	list, ok := recordLists[kind]
	if !ok {
		return nil, nil, false
	}
	a, b := list(before), list(after)
	first := 0
	for first < min(a.n, b.n) && alike(a.at(first), b.at(first)) {
		first++
	}
	back := 0
	for back < min(a.n, b.n)-first && alike(a.at(a.n-1-back), b.at(b.n-1-back)) {
		back++
	}
	if max(a.n, b.n)-back-first > mostCompared {
		return writtenFrom(kind, first, a.n-back), writtenFrom(kind, first, b.n-back), true
	}
	for i := first; i < a.n-back; i++ {
		gone = append(gone, Written{Kind: kind, At: i})
	}
	for i := first; i < b.n-back; i++ {
		come = append(come, Written{Kind: kind, At: i})
	}
	gone, come = unshared(a, gone, b, come)
	return gone, come, true
}

// mostCompared is how many records are held against each other one by one.
const mostCompared = 500

// unshared leaves out the records that stand between others that differ, and are
// the same on both sides.
func unshared(a recordList, gone []Written, b recordList, come []Written) (left, right []Written) {
	right = slices.Clone(come)
	for _, g := range gone {
		twin := slices.IndexFunc(right, func(c Written) bool { return alike(a.at(g.At), b.at(c.At)) })
		if twin < 0 {
			left = append(left, g)
			continue
		}
		right = slices.Delete(right, twin, twin+1)
	}
	return left, right
}

// alike reports whether two records hold the same, at whatever line.
func alike(a, b any) bool { return alikeIn(reflect.ValueOf(a), reflect.ValueOf(b)) }

func alikeIn(a, b reflect.Value) bool {
	for i := range a.NumField() {
		f := a.Type().Field(i)
		switch {
		case f.Name == "Line":
		case f.Anonymous && f.Type.Kind() == reflect.Struct:
			if !alikeIn(a.Field(i), b.Field(i)) {
				return false
			}
		case !reflect.DeepEqual(a.Field(i).Interface(), b.Field(i).Interface()):
			return false
		}
	}
	return true
}
