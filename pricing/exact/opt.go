package exact

// An Opt is a value that a record may leave out. Its zero value is left out.
type Opt[T any] struct {
	value T
	given bool
}

// Some returns a value that is given.
func Some[T any](v T) Opt[T] { return Opt[T]{v, true} }

// OptOf returns what a look-up found: its value, where ok says that there is one.
func OptOf[T any](v T, ok bool) (o Opt[T]) {
	if ok {
		o = Some(v)
	}
	return o
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

// Map returns what f makes of a value, where there is one.
func Map[T, U any](o Opt[T], f func(T) U) Opt[U] {
	if !o.given {
		return Opt[U]{}
	}
	return Some(f(o.value))
}
