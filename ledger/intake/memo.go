package intake

import "hash/maphash"

// A memo remembers what became of the texts read last: most columns of a long
// file say the same few things over and over.
type memo[V any] struct {
	seed  maphash.Seed
	slots []remembered[V] // by hash; a text that comes later takes the place of an earlier
}

type remembered[V any] struct {
	text  string
	known bool
	value V
}

// of returns what work makes of a text.
func (m *memo[V]) of(text string, work func() V) V {
	if m.slots == nil {
		m.seed, m.slots = maphash.MakeSeed(), make([]remembered[V], 1024)
	}
	slot := &m.slots[maphash.String(m.seed, text)%uint64(len(m.slots))]
	if !slot.known || slot.text != text {
		*slot = remembered[V]{text, true, work()}
	}
	return slot.value
}
