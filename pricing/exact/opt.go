package exact

// An Opt is a value that a record may leave out. Its zero value is left out.
type Opt[T any] struct {
	value T
	given bool
}

// Some returns a value that is given.
func Some[T any](v T) Opt[T] { return Opt[T]{v, true} }

// An OptNumber is a number that a record may leave out, which takes no more
// memory than the number. Its zero value is left out.
type OptNumber struct{ n Number } // of one that is given the form is never nil

// whole is the form of a whole number that is given.
var whole = &forms[NoUnit][0]

// SomeNumber returns a number that is given.
func SomeNumber(n Number) OptNumber {
	if n.form == nil {
		n.form = whole
	}
	return OptNumber{n}
}

// Given reports whether there is a number.
func (o OptNumber) Given() bool { return o.n.form != nil }

// Get returns the number and whether there is one.
func (o OptNumber) Get() (Number, bool) { return o.Opt().Get() }

// Opt returns the number as any other optional value.
func (o OptNumber) Opt() Opt[Number] {
	n := o.n
	if n.form == whole {
		n.form = nil
	}
	return Opt[Number]{n, o.Given()}
}

// Given reports whether there is a value.
func (o Opt[T]) Given() bool { return o.given }

// Get returns the value and whether there is one.
func (o Opt[T]) Get() (T, bool) { return o.value, o.given }

// Or returns the value, or other where there is none.
func (o Opt[T]) Or(other T) T {
	if o.given {
		return o.value
	}
	return other
}
