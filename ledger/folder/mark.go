package folder

import (
	"encoding/json"
	"errors"
	"io/fs"
	"slices"
	"strings"
)

// Marked returns the saved change that [Tx.Mark] gave a mark to, or nil. As the
// Book holds the ledger's lock, the answer stays true until it saves or is
// closed.
func (b *Book) Marked(mark string) (*Change, error) { return marked(b.root, mark) }

// Marked is [Book.Marked] for the ledger in dir, as it is at this moment. It
// needs neither a lock nor permission to write.
func Marked(dir, mark string) (*Change, error) {
	return readIn(dir, func(root *tree) (*Change, error) { return marked(root, mark) })
}

// marked looks through the history from its end, where what is asked for
// mostly is. A record that is damaged is passed over.
func marked(root *tree, mark string) (*Change, error) {
	if mark == "" {
		return nil, nil
	}
	// The journal first: it goes into the history, and is not missed on its way.
	if c, err := readChange(root, journalFile); err == nil && c.Mark == mark {
		return c, nil
	}
	numbers, err := numbersIn(root)
	if err != nil {
		return nil, cannot("the history of changes cannot be read", err)
	}
	for _, n := range slices.Backward(numbers) {
		switch yes, err := bears(root, changeFile(n), mark); {
		case err != nil:
			return nil, cannot("the history of changes cannot be read", err)
		case !yes:
			continue
		}
		c, err := readChange(root, changeFile(n))
		if err == nil && c.Mark == mark {
			return c, nil
		}
		if err != nil && !errors.Is(err, ErrDamaged) {
			return nil, err
		}
	}
	return nil, nil
}

// bears reports whether a change may have a mark, by the first lines of its
// record alone: those of a large one are many.
func bears(root *tree, name, mark string) (bool, error) {
	f, _, err := root.openRegular(name, MaxFile)
	if f == nil {
		if bad := new(fileError); errors.As(err, &bad) && bad.err == nil || errors.Is(err, fs.ErrNotExist) {
			return false, nil
		}
		return false, err
	}
	defer f.Close()
	text, _ := json.Marshal(mark)       // a string can always be written
	head := make([]byte, len(text)+100) // the mark is second in a record: see [Change]
	n, _ := root.reader(name, f).Read(head)
	return strings.Contains(string(head[:n]), `"mark": `+string(text)), nil
}
