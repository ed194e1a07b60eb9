package ledger

import (
	"iter"
	"reflect"
	"slices"
)

// A List holds records of a kind of which a ledger has many, each as a C, which
// takes a fraction of the memory and has nothing in it that the collector must
// follow. What comes out of it are records as they were put in, whose fields may be
// changed without changing the list; what their pointers and slices lead to is the
// list's. Its zero value is empty.
//
// Any number of goroutines may read a list. A copy of it may be added to; that
// leaves the list alone as long as only one copy is, or the copy is clipped first.
type List[R any, C compact[R, C]] struct {
	rows  []C
	store *store
}

// A compact row is a record whose texts and wide numbers are kept in a store. Of
// it, only pack needs no row: it makes one.
type compact[R, C any] interface {
	comparable
	pack(*R, *packer) C
	unpack(*store) R
	at() int32 // its line
}

// Len is how many records there are.
func (l *List[R, C]) Len() int { return len(l.rows) }

// At returns the record at a position.
func (l *List[R, C]) At(i int) R { return l.rows[i].unpack(l.store) }

// All gives all records, with their positions.
func (l *List[R, C]) All() iter.Seq2[int, R] {
	return func(yield func(int, R) bool) {
		for i := range l.rows {
			if !yield(i, l.rows[i].unpack(l.store)) {
				return
			}
		}
	}
}

// Slice returns the records, each whole.
func (l *List[R, C]) Slice() []R {
	list := make([]R, len(l.rows))
	for i := range list {
		list[i] = l.At(i)
	}
	return list
}

// Only returns those records that are asked for.
func (l *List[R, C]) Only(asked func(*R) bool) List[R, C] {
	some := List[R, C]{store: l.store}
	for i := range l.rows {
		if r := l.At(i); asked(&r) {
			some.rows = append(some.rows, l.rows[i])
		}
	}
	return some
}

// Index returns the position of the first record that is asked for, or -1.
func (l *List[R, C]) Index(asked func(*R) bool) int {
	for i, r := range l.All() {
		if asked(&r) {
			return i
		}
	}
	return -1
}

// Distinct is the function of that name for the list's records.
func (l *List[R, C]) Distinct(name func(*R) string) []string { return distinct(l.All(), name) }

// From returns the records from a position on.
func (l *List[R, C]) From(first int) List[R, C] { return List[R, C]{l.rows[first:], l.store} }

// Empty takes all records out of the list, which keeps their room: no copy of it may
// be in use.
func (l *List[R, C]) Empty() { l.rows = l.rows[:0] }

// With returns the list with records at its end; l stays as it is.
func (l List[R, C]) With(records ...R) List[R, C] {
	l.clip()
	add := l.adder()
	for i := range records {
		add(&records[i])
	}
	return l
}

// adder returns what puts a record at the end of the list. It keeps nothing of
// what the record's texts are parts of.
func (l *List[R, C]) adder() func(*R) {
	p := newPacker(l.store)
	l.store = p.store
	var none C
	return func(r *R) { l.rows = append(l.rows, none.pack(r, p)) }
}

// Record is the record at a position, as a value of its type.
func (l *List[R, C]) Record(i int) any { return l.At(i) }

func (l *List[R, C]) line(i int) int { return int(l.rows[i].at()) }

func (l *List[R, C]) grow(rows int) { l.rows = slices.Grow(l.rows, rows) }
func (l *List[R, C]) clear()        { *l = List[R, C]{} }
func (l *List[R, C]) clip()         { l.rows = slices.Clip(l.rows) }

func (l *List[R, C]) is(other RecordList) bool { return sameRows(l.rows, other.(*List[R, C]).rows) }

func (l *List[R, C]) goesOn(other RecordList) bool {
	o := other.(*List[R, C])
	n := len(o.rows)
	if n == 0 || len(l.rows) < n {
		return n == 0
	}
	// Rows say where their texts lie, so with equal pages equal rows are equal records, and none
	// need be made.
	if pages := len(o.store.pages); len(l.store.pages) >= pages && slices.Equal(l.store.pages[:pages], o.store.pages) && slices.Equal(l.rows[:n], o.rows) {
		return true
	}
	for i := range n { // packed otherwise
		if !reflect.DeepEqual(l.At(i), o.At(i)) {
			return false
		}
	}
	return true
}

// packs says that records are packed, so that nobody else need keep their texts.
func (l *List[R, C]) packs() bool { return true }

// A plainList is a list of records of which few are expected, as they are.
type plainList[R any] []R

func (l *plainList[R]) Len() int         { return len(*l) }
func (l *plainList[R]) Record(i int) any { return (*l)[i] }

// line looks for the field that every record has by its name: few ask, and an interface
// would need a method of each kind.
func (l *plainList[R]) line(i int) int {
	return int(reflect.ValueOf(&(*l)[i]).Elem().FieldByName("Line").Int())
}

func (l *plainList[R]) adder() func(*R) { return func(r *R) { *l = append(*l, *r) } }
func (l *plainList[R]) grow(rows int)   { *l = slices.Grow(*l, rows) }
func (l *plainList[R]) clear()          { *l = nil }
func (l *plainList[R]) clip()           { *l = slices.Clip(*l) }
func (l *plainList[R]) packs() bool     { return false }

func (l *plainList[R]) is(other RecordList) bool { return sameRows(*l, *other.(*plainList[R])) }

func (l *plainList[R]) goesOn(other RecordList) bool {
	o := *other.(*plainList[R])
	return len(*l) >= len(o) && reflect.DeepEqual((*l)[:len(o)], o)
}

// A RecordList is the records of any kind.
type RecordList interface {
	Len() int
	// Record is the record at a position, a value of its type.
	Record(i int) any
	line(i int) int
	grow(rows int)      // makes room for so many more
	clear()             // takes all out; who shares the list keeps them
	clip()              // takes the room for more away, so that what is added is no part of a shared list
	is(RecordList) bool // whether it is the very list that another, of the same records, is
	// goesOn reports whether it begins with all that another, of the same records, holds.
	goesOn(RecordList) bool
}

// A lister is either sort of list, being read into.
type lister[R any] interface {
	RecordList
	adder() func(*R)
	packs() bool
}
