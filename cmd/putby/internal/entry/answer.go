package entry

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
)

// Answer reads a cell as a person says it, of a record that has some cells
// already, and returns it as records have it. Its error says what is wrong with
// it: that it cannot be read, names nothing, is of a day ahead, or cannot stand
// beside the other records. What is only likely to be a slip is an [ErrOdd],
// beside the cell.
func (b *Base) Answer(k ledger.Kind, cells map[string]string, c *ledger.Column, text string) (string, error) {
	text = b.At.Typed(b.Records, c, text)
	names, closed := Names(b.Records, c)
	if name, ok := begunAlone(text, names); ok && closed { // elsewhere it may be a new name
		text = name
	}
	// From what the cell alone tells to what takes a join of all records.
	if err := b.cellAlone(k, c, text); err != nil {
		return "", err
	}
	if near, unknown := Unknown(b.Records, c, text); unknown {
		return "", UnknownName(text, near)
	}
	if c.Own && slices.Contains(Own(b.Records, k.Name), text) {
		return "", fmt.Errorf("the ledger has %s %s already", k.Name, text)
	}
	if text == "" {
		return "", nil
	}
	whole := map[string]string{}
	maps.Copy(whole, cells)
	whole[c.Name] = text
	if err := b.among(k, whole, c); err != nil {
		return "", err
	}
	return text, b.odd(k, c, text)
}

// cellAlone says what is wrong with a cell, as records have it, whatever the others hold.
func (b *Base) cellAlone(k ledger.Kind, c *ledger.Column, text string) error {
	switch f := b.CellFault(k, c, text); {
	case f != nil && text == "":
		return errors.New("this cannot be left blank")
	case f != nil:
		return FaultText(f)
	}
	return b.At.AheadCell(c, text)
}

// begunAlone finds the name of a list that an answer begins alone.
func begunAlone(answer string, names []string) (string, bool) {
	var found []string
	for _, name := range names {
		if name == answer {
			return name, true
		}
		if answer != "" && strings.HasPrefix(name, strings.ToLower(answer)) {
			found = append(found, name)
		}
	}
	if len(found) != 1 {
		return "", false
	}
	return found[0], true
}

// among holds a record that has some cells against the others. What it still
// needs is as the ledger suggests; a fault of a cell that nobody gave is none yet.
func (b *Base) among(k ledger.Kind, cells map[string]string, c *ledger.Column) error {
	whole := maps.Clone(cells)
	for range k.Columns { // what is suggested may be the ground for more
		offers, _ := b.Suggest(k, whole)
		for i := range k.Columns {
			need := &k.Columns[i]
			text := offers[need.Name]
			if text == "" && need.Cell == ledger.WholeCell {
				text = strconv.Itoa(max(need.Least, 1))
			}
			if need.Need && whole[need.Name] == "" && text != "" {
				whole[need.Name] = text
				break
			}
		}
	}
	for _, f := range b.Trial(Row{k, whole}) {
		if k.Name == "run" && f.Field == "run" {
			continue // its loads are still to come
		}
		if f.Field == c.Name || f.File == k.File && cells[f.Field] != "" {
			return FaultText(&f)
		}
	}
	return nil
}

// With is the base with other records.
func (b *Base) With(rec *ledger.Records) *Base { return NewBase(rec, b.At) }

// Trial returns the faults that the records would have with some more.
func (b *Base) Trial(rows ...Row) ledger.Faults {
	rec, faults := withRows(b.Records, rows)
	if len(faults) > 0 {
		return faults
	}
	_, faults = ledger.Join(rec, ledger.Options{Bare: true})
	return faults
}

// odd says what is likely to be a slip in a cell.
func (b *Base) odd(k ledger.Kind, c *ledger.Column, text string) error {
	if k.Name != "pack" || c.Name != "run" {
		return nil
	}
	g, err := b.Ledger()
	if err != nil {
		return nil // the saving says what is wrong
	}
	run, ok := g.FindRun(text)
	packs := b.Records.Packs.Distinct(func(p *ledger.Pack) string {
		if p.Run != text {
			return ""
		}
		return p.ID
	})
	if ok && packs != nil && figures.AllPacked(g, run) {
		return &ledger.Fault{Kind: ErrOdd, What: fmt.Sprintf("all food of run %s is packed (%s)", text, strings.Join(packs, ", "))}
	}
	return nil
}

// UnknownName says that the ledger has no such thing, and what may be meant.
func UnknownName(text, near string) error {
	if near != "" {
		return fmt.Errorf("the ledger has no %s; did you mean %s?", text, near)
	}
	return fmt.Errorf("the ledger has no %s", text)
}

// CellFault is what is wrong with the text of a cell, as records have it, and how to
// type it; nil where nothing is.
func (b *Base) CellFault(k ledger.Kind, c *ledger.Column, text string) *ledger.Fault {
	f := k.CellFault(b.Records.Settings.Zone, c.Name, text)
	if f == nil || text == "" {
		return f
	}
	switch what, _, plain := strings.Cut(f.What, ": write it as "); {
	case plain && c.Cell == ledger.DateCell:
		f.What, f.Hint = what, b.At.howToDate()
	case plain && c.Cell == ledger.MomentCell:
		f.What, f.Hint = what, "write "+b.At.howToTime()
	}
	return f
}

// Unreadable is what is wrong with the texts of cells that flags gave, each by its flag:
// their record has no place in a file yet. A blank one may be filled in later.
func (b *Base) Unreadable(k ledger.Kind, cells map[string]string) error {
	var bad Wrongs
	for i := range k.Columns {
		c := &k.Columns[i]
		if f := b.CellFault(k, c, cells[c.Name]); f != nil && cells[c.Name] != "" {
			flag := b.part(strings.ReplaceAll(c.Name, "_", "-"))
			bad.add(c.Name, 0, &ledger.Fault{Kind: ErrTyped, What: flag + ": " + strings.TrimPrefix(f.What, c.Name+": "), Hint: f.Hint})
		}
	}
	return bad.Err()
}

// FaultText says what is wrong with a cell, without a place in a file.
func FaultText(f *ledger.Fault) error {
	if f.Hint != "" {
		return fmt.Errorf("%s (%s)", f.What, f.Hint)
	}
	return errors.New(f.What)
}
