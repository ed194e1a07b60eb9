package parquet

import "encoding/binary"

// The types of the Thrift compact protocol, in which Parquet keeps what it says of
// its columns (github.com/apache/thrift, doc/specs/thrift-compact-protocol.md).
const (
	typeTrue   = 1
	typeFalse  = 2
	typeI32    = 5
	typeI64    = 6
	typeBinary = 8
	typeList   = 9
	typeStruct = 12
)

// thrift writes structures in the compact protocol.
type thrift struct {
	buf  []byte
	last []int16 // number of the field before, of each structure that is open
}

func (t *thrift) begin() { t.last = append(t.last, 0) }

func (t *thrift) end() {
	t.buf = append(t.buf, 0)
	t.last = t.last[:len(t.last)-1]
}

// field begins a field. Numbers rise within a structure, by less than 16 here.
func (t *thrift) field(number int16, kind byte) {
	last := &t.last[len(t.last)-1]
	t.buf = append(t.buf, byte(number-*last)<<4|kind)
	*last = number
}

func (t *thrift) i32(number int16, n int) {
	t.field(number, typeI32)
	t.buf = binary.AppendVarint(t.buf, int64(n))
}

func (t *thrift) i64(number int16, n int64) {
	t.field(number, typeI64)
	t.buf = binary.AppendVarint(t.buf, n)
}

func (t *thrift) bool(number int16, is bool) {
	kind := byte(typeFalse)
	if is {
		kind = typeTrue
	}
	t.field(number, kind)
}

func (t *thrift) text(number int16, s string) {
	t.field(number, typeBinary)
	t.item(s)
}

// item is a text in a list.
func (t *thrift) item(s string) {
	t.buf = binary.AppendUvarint(t.buf, uint64(len(s)))
	t.buf = append(t.buf, s...)
}

// list begins a list of n items of a kind.
func (t *thrift) list(number int16, kind byte, n int) {
	t.field(number, typeList)
	if n < 15 {
		t.buf = append(t.buf, byte(n)<<4|kind)
		return
	}
	t.buf = append(t.buf, 0xf0|kind)
	t.buf = binary.AppendUvarint(t.buf, uint64(n))
}

// open begins a structure that is a field; end ends it.
func (t *thrift) open(number int16) {
	t.field(number, typeStruct)
	t.begin()
}
