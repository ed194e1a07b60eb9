package entry

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"runtime/debug"
	"strings"
	"sync"

	"putby/ledger"
	"putby/ledger/folder"
)

// Concern finds what an act is about whose things are named as a person names
// them: yogurt, "2 rice", pack c46-a. How many empty jars there are takes all packs
// to tell.
func Concern(things []string) func(*ledger.Records) (folder.Concern, bool) {
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
