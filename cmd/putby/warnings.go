package main

import (
	"fmt"

	"putby/ledger/advice"
	"putby/ledger/folder"
)

// sayWarnings says what is to be known about the ledger's folder.
func (a *app) sayWarnings(list []folder.Warning) {
	for _, w := range list {
		fmt.Fprintln(a.stderr, printable("Note: "+w.What+"."))
		sayHint(a.stderr, advice.After(commands{}, w.Hint, w.Do))
	}
}
