package entry

import (
	"errors"
	"strings"
	"time"

	"putby/ledger"
)

// A WrongError says in which part of what was typed something is wrong.
type WrongError struct {
	Part   string // "date", "dry": the field of the act's In, or the column
	Number int    // of a part with several things the one, from 1; 0: the part as a whole
	Err    error
}

// Error says what is wrong, without the part: its words name what was typed.
func (e *WrongError) Error() string { return e.Err.Error() }

// Unwrap returns what is wrong.
func (e *WrongError) Unwrap() error { return e.Err }

// A WrongsError is all that is wrong with what was typed, where that is several
// things.
type WrongsError struct{ List []*WrongError }

// Error lists them, one a line.
func (e *WrongsError) Error() string {
	lines := make([]string, len(e.List))
	for i, w := range e.List {
		lines[i] = w.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns them.
func (e *WrongsError) Unwrap() []error {
	list := make([]error, len(e.List))
	for i, w := range e.List {
		list[i] = w
	}
	return list
}

// Wrongs takes an error apart: what is wrong, each with its part, which is "" for
// what concerns no part or where nobody knows which.
func Wrongs(err error) []*WrongError {
	var several *WrongsError
	var one *WrongError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &several):
		return several.List
	case errors.As(err, &one):
		return []*WrongError{one}
	}
	return []*WrongError{{Err: err}}
}

// wrongs gathers what is wrong while something typed is read, so that all of it
// is told at once.
type wrongs struct{ list []*WrongError }

// add notes an error of a part; nil is none. One that names its part keeps it.
func (w *wrongs) add(part string, number int, err error) {
	for _, e := range Wrongs(err) {
		if e.Part == "" {
			e = &WrongError{part, number, e.Err}
		}
		w.list = append(w.list, e)
	}
}

// err is all that was gathered.
func (w *wrongs) err() error {
	switch len(w.list) {
	case 0:
		return nil
	case 1:
		return w.list[0]
	}
	return &WrongsError{w.list}
}

// wrong is an error of a part; nil where there is none.
func wrong(part string, number int, err error) error {
	var w wrongs
	w.add(part, number, err)
	return w.err()
}

// mistake is a fault of a part that was typed.
func mistake(part string, f ledger.Fault) error {
	f.Kind = ErrTyped
	return &WrongError{Part: part, Err: &f}
}

// read notes that a part could not be read, and how to write it; nil is none.
func (w *wrongs) read(part string, err error, hint string) {
	if err != nil {
		w.add(part, 0, mistake(part, ledger.Fault{What: err.Error(), Hint: hint}))
	}
}

// zone reads the zone of a file's clock, by default the one given.
func (w *wrongs) zone(name string, zone *time.Location) *time.Location {
	if name == "" {
		return zone
	}
	err := ledger.CheckZone(name)
	w.read("zone", err, "write an IANA name, such as UTC or Europe/Vienna")
	if err == nil {
		zone, _ = time.LoadLocation(name)
	}
	return zone
}
