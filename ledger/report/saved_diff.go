package report

import (
	"reflect"
	"slices"

	"putby/ledger"
)

// Differing finds the records of a kind that one of two states of a ledger has and
// the other has not, wherever they stand in the file. It reports false for a kind
// that there are no sentences for.
func Differing(kind string, before, after *ledger.Records) (gone, come []Written, ok bool) {
	if savedKinds[kind] == nil {
		return nil, nil, false
	}
	k := ledger.MustKind(kind)
	a, b := k.List(before), k.List(after)
	// What is alike at both ends goes first, so that only the middle is compared pair by pair; back
	// stops at first, where one list is the start of the other.
	first := 0
	for first < min(a.Len(), b.Len()) && alike(a.Record(first), b.Record(first)) {
		first++
	}
	back := 0
	for back < min(a.Len(), b.Len())-first && alike(a.Record(a.Len()-1-back), b.Record(b.Len()-1-back)) {
		back++
	}
	if max(a.Len(), b.Len())-back-first > mostCompared {
		return writtenFrom(kind, first, a.Len()-back), writtenFrom(kind, first, b.Len()-back), true
	}
	for i := first; i < a.Len()-back; i++ {
		gone = append(gone, Written{Kind: kind, At: i})
	}
	for i := first; i < b.Len()-back; i++ {
		come = append(come, Written{Kind: kind, At: i})
	}
	gone, come = unshared(a, gone, b, come)
	return gone, come, true
}

// mostCompared is how many records are held against each other one by one.
const mostCompared = 500

// unshared leaves out the records that stand between others that differ, and are
// the same on both sides.
func unshared(a ledger.RecordList, gone []Written, b ledger.RecordList, come []Written) (left, right []Written) {
	right = slices.Clone(come)
	for _, g := range gone {
		twin := slices.IndexFunc(right, func(c Written) bool { return alike(a.Record(g.At), b.Record(c.At)) })
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
