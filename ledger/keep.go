package ledger

import (
	"hash/maphash"
	"strings"
)

// kept are texts that records of one file hold, of those read last. Records
// share them, and none keeps the text of its whole file in memory.
type kept struct {
	seed  maphash.Seed
	texts *[512]string // by hash; a text that comes later takes the place of an earlier
}

// keep returns a text that outlives the file that it is read from.
func (k *kept) keep(text string) string {
	if text == "" {
		return ""
	}
	if k.texts == nil {
		k.seed, k.texts = maphash.MakeSeed(), new([512]string)
	}
	slot := &k.texts[maphash.String(k.seed, text)%uint64(len(k.texts))]
	if *slot != text {
		*slot = strings.Clone(text)
	}
	return *slot
}
