package folder

import (
	"errors"
	"strings"

	"putby/ledger/advice"
)

// A Warning is what a person should know about a ledger's folder though nothing
// is wrong with the records.
type Warning struct {
	What string         // a sentence without full stop
	Hint string         // what to do
	Do   []advice.Doing // after the hint
}

// Warnings returns what is to be known about the folder of the ledger in dir. It
// takes no lock and writes nothing.
func Warnings(dir string) ([]Warning, error) {
	return readIn(dir, func(root *tree) ([]Warning, error) { return warnings(root), nil })
}

func warnings(root *tree) []Warning {
	list := strays(root)
	if _, err := readChange(root, journalFile); errors.Is(err, ErrDamaged) {
		list = append(list, damagedWarning(journalFile))
	}
	if root.exists(damagedFile) {
		list = append(list, damagedWarning(damagedFile))
	}
	return list
}

func damagedWarning(name string) Warning {
	return Warning{
		What: "a save was broken off, and its notes in " + name + " are damaged: the last thing entered before may be lacking, wholly or in part",
		Hint: "see whether the last thing that you entered is there, and enter what lacks; then move " + name + " away",
	}
}

// Warnings returns what is to be known about the folder of an opened ledger, and
// what a save in it cannot promise.
func (b *Book) Warnings() []Warning {
	list := warnings(b.root)
	var lacks []string
	if b.lock != nil && b.lock.none != nil {
		lacks = append(lacks, "keeps no locks, so two saves at the same moment may undo each other")
	}
	if b.lacks.sync {
		lacks = append(lacks, "does not say when a save is on the disk, so a power cut may take the last ones back")
	}
	if len(lacks) > 0 {
		list = append(list, Warning{
			What: "this folder's file system " + strings.Join(lacks, ", and "),
			Hint: "save from one device at a time, and keep the ledger on a disk of its own if you can",
		})
	}
	return list
}
