package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/ledger"
)

// Where a ledger keeps what is not a record, within its folder.
const (
	stateFolder = ".putby"
	lockFile    = stateFolder + "/lock"    // held by whoever may save
	journalFile = stateFolder + "/journal" // the change that is being saved
	damagedFile = stateFolder + "/journal.damaged"
	lastFile    = stateFolder + "/last"    // number of the last change
	pastFolder  = stateFolder + "/changes" // every saved change, NUMBER.json
	newSuffix   = ".putby-new"             // of a file that is being written
)

// What a [Change] was.
const (
	Created = "create"
	Edited  = "edit"
	Undone  = "undo"
	Redone  = "redo"

	Damaged = "damaged" // its record cannot be read: only its number is known, and it cannot be undone
)

// A Change is one saved change of a ledger: all files that one command changed
// together.
type Change struct {
	// Number and mark stay in front, where [bears] looks.
	Number  int          `json:"change"`         // from 1; 0: not saved
	Mark    string       `json:"mark,omitempty"` // by which [Book.Marked] finds it again
	Time    time.Time    `json:"time"`           // when it was made, in UTC
	Command string       `json:"command"`
	Kind    string       `json:"kind"`         // Created, Edited, Undone, Redone or Damaged
	Of      int          `json:"of,omitempty"` // the change that was undone or redone
	Files   []FileChange `json:"files"`
	// Merged names the files that something else had changed since, in which
	// an undo found the lines to take back all the same.
	Merged []string `json:"merged,omitempty"`
	chain
}

// A chain ties the changes into what can be undone and redone.
type chain struct {
	Top    int `json:"top"`              // the change that an undo would take back next; 0: none
	Below  int `json:"below"`            // what Top is once this change is undone
	Back   int `json:"back,omitempty"`   // the undo that a redo would take back next; 0: none
	Beyond int `json:"beyond,omitempty"` // what Back is once this undo is taken back
	// Gone are the changes at or below Top that were undone out of their order.
	Gone []int `json:"gone,omitempty"`
}

// A FileChange is what a change did to one file.
type FileChange struct {
	Name   string `json:"name"`
	Before string `json:"before,omitempty"` // SHA-256 of the file before; empty: it did not exist
	After  string `json:"after,omitempty"`  // and after; empty: it was taken away
	Header string `json:"header,omitempty"` // first line of a file of records before
	Hunks  []Hunk `json:"hunks"`
}

// merge makes the change in a text of the file that was edited since, as
// [merge] does. It reports false where the columns are no longer the same.
func (f FileChange) merge(text string, hunks []Hunk) ([]Hunk, bool) {
	if f.Header != "" && f.Header != headerLine(text) {
		return nil, false
	}
	return merge(text, hunks)
}

// headerLine is the first line of a text.
func headerLine(text string) string {
	line, _, _ := strings.Cut(strings.TrimPrefix(text, mark), "\n")
	return bare(line)
}

// Lines returns the lines that the change took out of the file and put in,
// without line ends.
func (f FileChange) Lines() (removed, added []string) {
	for _, h := range f.Hunks {
		removed = append(removed, lines(string(h.Removed))...)
		added = append(added, lines(string(h.Added))...)
	}
	return removed, added
}

func lines(text string) []string {
	var list []string
	for line := range strings.Lines(text) {
		if line = strings.TrimRight(line, "\r\n"); line != "" {
			list = append(list, line)
		}
	}
	return list
}

// sum names a text in the history. It goes through it piece by piece, since a hash takes
// bytes, and a copy of a large file as such would be one more in memory.
func sum(text string) string {
	s := sha256.New()
	var room []byte
	for piece := range pieces(text) {
		room = append(room[:0], piece...)
		s.Write(room)
	}
	return hex.EncodeToString(s.Sum(nil))
}

// sumOf is sum for a file that may not exist.
func sumOf(text string, found bool) string {
	if !found {
		return ""
	}
	return sum(text)
}

func changeFile(number int) string { return fmt.Sprintf("%s/%06d.json", pastFolder, number) }

// readChange reads a change from the journal or the history. Without one the
// error is [fs.ErrNotExist].
func readChange(root *tree, name string) (*Change, error) {
	text, found, err := root.read(name, MaxFile)
	if err == nil && !found {
		return nil, fs.ErrNotExist
	}
	if bad := new(fileError); errors.As(err, &bad) && bad.err != nil {
		return nil, &ledger.Fault{Kind: ErrFailed, What: bad.Error(), Hint: bad.hint, Err: nil}
	}
	c := new(Change)
	if err == nil {
		err = json.Unmarshal([]byte(text), c)
	}
	if err != nil {
		return nil, &ledger.Fault{
			Kind: ErrDamaged, What: "the record of a change in " + name + " is damaged",
			Hint: "the records themselves are not touched by this; restore " + name + " from a backup to undo that far",
		}
	}
	return c, nil
}

// lastSaid is what the file with the number of the last change holds. It may be
// behind, or not be there.
func lastSaid(root *tree) string {
	const most = 64
	text, _, _ := root.read(lastFile, most)
	return strings.TrimSpace(text)
}

// lastNumber returns the number of the last change in the history.
func lastNumber(root *tree) (int, error) {
	n, err := strconv.Atoi(lastSaid(root))
	if err != nil || !root.exists(changeFile(n)) {
		numbers, err := numbersIn(root)
		if err != nil {
			return 0, err
		}
		n = highest(numbers)
	}
	// What was written last may not have reached the disk when power failed.
	for root.exists(changeFile(n + 1)) {
		n++
	}
	return n, nil
}

// numbersIn returns the numbers of all changes in the history, in order.
func numbersIn(root *tree) ([]int, error) {
	numbers, err := root.numbers(pastFolder, changeFile)
	if isMissing(err) {
		return nil, nil
	}
	return numbers, err
}

// highest returns the last of numbers in order; 0 of none.
func highest(numbers []int) int {
	if len(numbers) == 0 {
		return 0
	}
	return numbers[len(numbers)-1]
}

// LastChanges returns the last so many saved changes of the ledger in dir, or
// with 0 all, oldest first; one whose record is damaged is [Damaged]. It needs neither a lock nor permission to write, and
// reads no more of the history than it returns.
func LastChanges(dir string, last int) ([]Change, error) {
	return readIn(dir, func(root *tree) ([]Change, error) { return changes(root, last) })
}

// LastNumber is the number of the last saved change of the ledger in dir; 0: there is
// none.
func LastNumber(dir string) (int, error) {
	return readIn(dir, func(root *tree) (int, error) {
		if c, err := readChange(root, journalFile); err == nil {
			return c.Number, nil
		}
		return lastNumber(root)
	})
}

// FileOf is the file of the history that has the record of a change.
func FileOf(c Change) string { return changeFile(c.Number) }

// ChangeOf returns one saved change of the ledger in dir, nil when there is none
// of that number.
func ChangeOf(dir string, number int) (*Change, error) {
	return readIn(dir, func(root *tree) (*Change, error) {
		// The journal first: it goes into the history, and is not missed on its way.
		if c, err := readChange(root, journalFile); err == nil && c.Number == number {
			return c, nil
		}
		c, err := readChange(root, changeFile(number))
		if isMissing(err) {
			return nil, nil
		}
		return c, err
	})
}

func changes(root *tree, last int) ([]Change, error) {
	pending, err := readChange(root, journalFile)
	if err != nil && !isMissing(err) && !errors.Is(err, ErrDamaged) {
		return nil, err
	}
	numbers, err := numbersIn(root)
	if err != nil {
		return nil, cannot("the history of changes cannot be read", err)
	}
	if pending != nil && !slices.Contains(numbers, pending.Number) {
		numbers = append(numbers, pending.Number)
		slices.Sort(numbers)
	}
	// What is saved meanwhile may be listed without what was saved just before.
	for i := len(numbers) - 1; i > 0; i-- {
		for n := numbers[i] - 1; n > numbers[i-1] && root.exists(changeFile(n)); n-- {
			numbers = slices.Insert(numbers, i, n)
		}
	}
	if last > 0 {
		numbers = numbers[max(0, len(numbers)-last):]
	}
	list := make([]Change, 0, len(numbers))
	for _, n := range numbers {
		c := pending
		if c == nil || c.Number != n {
			switch c, err = readChange(root, changeFile(n)); {
			case errors.Is(err, ErrDamaged): // and the others are told all the same
				c = &Change{Number: n, Kind: Damaged}
			case err != nil:
				return nil, err
			}
		}
		list = append(list, *c)
	}
	return list, nil
}
