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
)

// An About finds what an act is about in the foods and supplies of a ledger, as
// [folder.Book.Excerpt] asks it; false is for anything.
type About func(*ledger.Records) (folder.Concern, bool)

// AboutThings is for an act whose things are named as a person names them: yogurt,
// "2 rice", pack c46-a. How many empty jars there are takes all packs to tell. It is
// nil, for anything, where things is.
func AboutThings(things []string) About {
	if things == nil {
		return nil
	}
	return func(rec *ledger.Records) (c folder.Concern, ok bool) {
		b := &Base{Records: rec}
		for _, text := range things {
			switch t, err := b.parseThing(text); {
			case err != nil:
			case t.food >= 0:
				c.Foods = append(c.Foods, rec.Foods[t.food].ID)
			case t.supply >= 0 && rec.Supplies[t.supply].ServesAgain():
				return c, false
			}
			c.Packs = append(c.Packs, strings.Fields(text)...)
		}
		return c, true
	}
}

// AboutReceipt is for a receipt, by the moments at which a ledger is looked at. A
// machine that is bought wears runs that were free before.
func AboutReceipt(in ReceiptIn, at func(*ledger.Records) Moment) About {
	return func(rec *ledger.Records) (c folder.Concern, ok bool) {
		x := NewLexicon(rec, slices.Concat(in.New, in.Names))
		for _, s := range in.Lines {
			l, _, err := x.spoken(s)
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

// Recent reports whether rows are of the last year: of older ones it takes all
// records to say whether they are likely.
func (b *Base) Recent(rows []Row) bool {
	year := b.At.Today.AddMonths(-12)
	for _, day := range days(rows) {
		if day <= year {
			return false
		}
	}
	return longPast(b.Records, rows, b.At) == nil
}

// Judge names the check of [Check.Faults], and the program that it is of: another
// one may know of more that is wrong. What the program says of itself is the same for
// any two that are built of a changed tree, so its file counts too.
var Judge = sync.OnceValue(func() string {
	info, ok := debug.ReadBuildInfo()
	path, err := os.Executable()
	if !ok || err != nil {
		return ""
	}
	file, err := os.Stat(path)
	if err != nil {
		return ""
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%v\n%d %d", info, file.Size(), file.ModTime().UnixNano()))
	return "joins without fault: " + hex.EncodeToString(sum[:])
})
