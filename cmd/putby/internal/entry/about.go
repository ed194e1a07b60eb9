package entry

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// An About finds what an act is about in the foods and supplies of a ledger, as
// [folder.Book.Excerpt] asks it; false is for anything.
type About func(*ledger.Records) (folder.Scope, bool)

// AboutThings is for an act whose things are named as a person names them: yogurt,
// "2 rice", pack c46-a. It is nil, for anything, where things is.
func AboutThings(things []string) About {
	if things == nil {
		return nil
	}
	return func(rec *ledger.Records) (c folder.Scope, ok bool) {
		b := &Base{Records: rec}
		for _, text := range things {
			switch t, err := b.parseThing(text); {
			case err != nil:
			case t.food >= 0:
				c.Foods = append(c.Foods, rec.Foods[t.food].ID)
			case t.supply >= 0:
				c.Containers = c.Containers || rec.Supplies[t.supply].ServesAgain()
			}
			c.Packs = append(c.Packs, strings.Fields(text)...)
		}
		return c, true
	}
}

// AboutReceipt is for a receipt, by the moments at which a ledger is looked at. A
// machine that is bought wears runs that were free before.
func AboutReceipt(in ReceiptIn, at func(*ledger.Records) Moment) About {
	return func(rec *ledger.Records) (c folder.Scope, ok bool) {
		x := NewItemNames(rec, slices.Concat(in.New, in.Names))
		for _, s := range in.Lines {
			l, _, err := x.typedLine(s)
			// A repair reaches every run that follows it, as the machine's price does: all records count.
			if err != nil || l.Kind == ledger.MachineLine || l.Kind == ledger.ServiceLine {
				return c, false
			}
			if l.Kind == ledger.FoodLine || l.Kind == ledger.SupplyLine {
				c.Lots = append(c.Lots, l.Item)
			}
		}
		c.Bought = cmp.Or(at(rec).Dated(in.Date), at(rec).Today.String())
		return c, len(in.Things) == 0
	}
}

// AboutPacks is for packs. That a place is called so by others too takes all packs to
// tell.
func AboutPacks(in PackIn) About {
	return func(rec *ledger.Records) (c folder.Scope, ok bool) {
		run, said := in.Cells["run"]
		for _, text := range in.lines() {
			line, err := parsePackLine(Native(rec.Settings.Locale, text))
			if err != nil {
				return c, false
			}
			id := ""
			if food := cmp.Or(line.food, in.Cells["item"]); food != "" {
				if id, err = one("food", food, rec.NamedFoods()); err != nil {
					return c, false
				}
				c.Foods = append(c.Foods, id)
			}
			switch {
			case run != "":
				c.Runs = []string{run}
			case !said && in.Cells["cost"] == "": // no run is named, and it is no opening stock
				c.Packed = append(c.Packed, id)
			}
		}
		c.Containers = true // that packs take, and draws give back
		return c, in.Cells["place"] == ""
	}
}

// AboutRun is for a run that is recorded on a machine, "" being the only one, with
// what goes in.
func AboutRun(machine string, loads []string) About {
	return func(rec *ledger.Records) (c folder.Scope, ok bool) {
		b := &Base{Records: rec}
		id, err := b.machineOf(machine)
		if err != nil {
			return c, false
		}
		c.Machines = []string{id}
		for _, text := range loads {
			row, err := ParseLoad(rec, "", text)
			if err != nil {
				return c, false
			}
			c.Lots = append(c.Lots, row.Cells["item"])
		}
		return c, len(loads) > 0
	}
}

// AboutFinish is for a run that ends, "" being the one that is running.
func AboutFinish(run string) About {
	return func(*ledger.Records) (folder.Scope, bool) {
		return folder.Scope{Ends: []string{strings.TrimSpace(run)}, Containers: true}, true
	}
}

// Fits reports whether a draft may be judged by an excerpt: by what it is about, and by
// days of the last year. Of older ones it takes all records to say whether they are
// likely.
func (b *Base) Fits(d *Draft) bool {
	rows := slices.Concat(d.Rows, d.changed())
	year := b.At.Today.AddMonths(-12)
	old := slices.ContainsFunc(days(rows), func(day exact.Date) bool { return day <= year })
	more, faults := withRows(b.Records, d.Rows)
	if old || len(faults) > 0 || longPast(b.Records, rows, b.At) != nil {
		return false
	}
	// The draft may name more than its words did: a food that was filled in as usual.
	_, covered := b.Records.Covers(more)
	return covered
}

// Judge names the check of [Check.Faults], and the program that it is of: another
// one may know of more that is wrong. What the program says of itself is the same for
// any two that are built of a changed tree, so its file counts too.
var Judge = sync.OnceValue(func() string {
	info, ok := debug.ReadBuildInfo()
	path, _ := os.Executable()
	file, err := os.Stat(path)
	if !ok || err != nil {
		return ""
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%v\n%d %d", info, file.Size(), file.ModTime().UnixNano()))
	return "joins without fault: " + hex.EncodeToString(sum[:])
})
