package entry

import (
	"errors"
	"time"

	"putby/ledger"
)

// Wrongs are all that is wrong with what was typed, each with its part. They are no
// [ledger.Fault]s, since what is wrong with a part may be of any type: a refusal too.
type Wrongs []Wrong

// A Wrong says in which part of what was typed something is wrong.
type Wrong struct {
	Part   string // "date", "dry": the field of the act's In, or the column; "": none, or nobody knows
	Number int    // of a part with several things the one, from 1; 0: the part as a whole
	Err    error
}

// Error lists them, one a line, without the parts: their words name what was typed.
func (ws Wrongs) Error() string { return errors.Join(ws.Unwrap()...).Error() }

// Unwrap returns them.
func (ws Wrongs) Unwrap() []error {
	list := make([]error, len(ws))
	for i, w := range ws {
		list[i] = w.Err
	}
	return list
}

// Err returns them as an error, or nil when there are none.
func (ws Wrongs) Err() error {
	if len(ws) == 0 {
		return nil
	}
	return ws
}

// WrongsOf takes an error apart: what is wrong, each with its part.
func WrongsOf(err error) (ws Wrongs) {
	if err != nil && !errors.As(err, &ws) {
		ws = Wrongs{{Err: err}}
	}
	return ws
}

// add notes an error of a part; nil is none. One that names its part keeps it.
func (ws *Wrongs) add(part string, number int, err error) {
	for _, w := range WrongsOf(err) {
		if w.Part == "" {
			w.Part, w.Number = part, number
		}
		*ws = append(*ws, w)
	}
}

// wrong is an error of a part; nil where there is none.
func wrong(part string, number int, err error) error {
	var ws Wrongs
	ws.add(part, number, err)
	return ws.Err()
}

// mistake is a fault of a part that was typed.
func mistake(part string, f ledger.Fault) error {
	f.Kind = ErrTyped
	return Wrongs{{Part: part, Err: &f}}
}

// read notes that a part could not be read, and how to write it; nil is none.
func (ws *Wrongs) read(part string, err error, hint string) {
	if err != nil {
		ws.add(part, 0, mistake(part, ledger.Fault{What: err.Error(), Hint: hint}))
	}
}

// zone reads the zone of a file's clock, by default the one given.
func (ws *Wrongs) zone(name string, zone *time.Location) *time.Location {
	if name == "" {
		return zone
	}
	err := ledger.CheckZone(name)
	ws.read("zone", err, "write an IANA name, such as UTC or Europe/Vienna")
	if err == nil {
		zone, _ = time.LoadLocation(name)
	}
	return zone
}
