package folder

import (
	"context"
	"errors"

	"putby/pricing/exact"
)

// mostAside is how large a file beside the records may be.
const mostAside = 1 << 20

// ReadAside reads a file that a program keeps with a ledger, beside its records:
// no part of them, so that undo leaves it alone. One that is not there is empty.
func ReadAside(dir, name string) ([]byte, error) {
	return readIn(dir, func(root *tree) ([]byte, error) {
		text, _, err := root.read(stateFolder+"/"+name, mostAside)
		if err != nil {
			return nil, cannot(stateFolder+"/"+name+" cannot be read", err)
		}
		return []byte(text), nil
	})
}

// EditAside changes a file that [ReadAside] reads, under the ledger's lock. It is
// there whole or, on any error, as it was.
func EditAside(ctx context.Context, dir, name string, edit func([]byte) ([]byte, error)) (err error) {
	root, err := openRoot(dir)
	if err != nil {
		return err
	}
	defer root.Close()
	l, err := Opening{Wait: DefaultWait, For: "keeping " + name}.take(ctx, root, dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.close()) }()
	path := stateFolder + "/" + name
	was, _, err := root.read(path, mostAside)
	if err != nil {
		return cannot(path+" cannot be read", err)
	}
	now, err := edit([]byte(was))
	if err != nil {
		return err
	}
	d := rootDisk{root, new(lacking)}
	if err = writeNew(d, path, string(now)); err == nil {
		err = publish(d, path)
	}
	if err != nil {
		return cannot(exact.Quote(path)+" cannot be written", errors.Join(err, d.remove(newName(path))))
	}
	return nil
}
