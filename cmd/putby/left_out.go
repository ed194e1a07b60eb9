package main

import (
	"errors"
	"fmt"
	"io"

	"putby/ledger"
	"putby/ledger/folder"
)

// A leftOutError names the households that are in no figure. All else was printed.
type leftOutError struct {
	of   int // households there are
	list []leftOut
}

// A leftOut is a household that is in no figure, and why.
type leftOut struct {
	name   string
	why    string // the first fault, where it has faults
	faults int
	hint   string
}

// errLeftOut is the kind of a [leftOutError].
var errLeftOut = errors.New("households are left out")

func (e *leftOutError) Unwrap() error { return errLeftOut }

func (e *leftOutError) Error() string {
	if len(e.list) == 1 {
		return fmt.Sprintf("1 household of %d is left out", e.of)
	}
	return fmt.Sprintf("%d households of %d are left out", len(e.list), e.of)
}

func leaveOut(one folder.Household, err error) *leftOut {
	var faults ledger.Faults
	if !errors.As(err, &faults) {
		return &leftOut{name: one.Name, why: err.Error(), hint: hintOf(err)}
	}
	return &leftOut{one.Name, faults[0].Error(), len(faults), "putby " + commandLine([]string{"prove", "--ledger", one.Dir})}
}

// sayLeftOut names each with what is wrong with it.
func sayLeftOut(w io.Writer, e *leftOutError) {
	fmt.Fprintln(w, "putby: "+e.Error())
	for _, one := range e.list {
		why := one.why
		if one.faults > 1 {
			why = fmt.Sprintf("%d faults, the first is %s", one.faults, why)
		}
		fmt.Fprintln(w, "  "+printable(one.name+": "+why))
		if one.hint != "" {
			fmt.Fprintln(w, "    try: "+printable(one.hint))
		}
	}
}
