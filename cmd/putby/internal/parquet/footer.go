package parquet

// Numbers of fields, types and encodings are those of the format's definition
// (github.com/apache/parquet-format, src/main/thrift/parquet.thrift).

// Physical types.
const (
	int32Type      = 1
	int64Type      = 2
	byteArrayType  = 6
	fixedArrayType = 7
)

// What the bytes stand for, as readers of older versions know it.
const (
	utf8Converted    = 0
	decimalConverted = 5
	dateConverted    = 6
)

// Encodings, the way of compressing, and whether there are blanks.
const (
	plainEncoding = 0
	runsEncoding  = 3
	gzipCodec     = 2
	required      = 0
	optional      = 1
)

// physical is how the values of a type are kept.
func (t Type) physical() int {
	return [...]int{Text: byteArrayType, Whole: int64Type, Decimal: fixedArrayType, Date: int32Type, Moment: int64Type}[t]
}

// pageHeader says how long a page is, and how it is encoded.
func pageHeader(plain, packed, values int) []byte {
	t := &thrift{}
	t.begin()
	t.i32(1, 0) // a page of data
	t.i32(2, plain)
	t.i32(3, packed)
	t.open(5)
	t.i32(1, values)
	t.i32(2, plainEncoding)
	t.i32(3, runsEncoding)
	t.i32(4, runsEncoding)
	t.end()
	t.end()
	return t.buf
}

// footer says what the file holds, and where.
func (w *Writer) footer() []byte {
	t := &thrift{}
	rows := int64(0)
	for _, g := range w.groups {
		rows += int64(g.rows)
	}
	t.begin()
	t.i32(1, 2) // version of the format
	t.list(2, typeStruct, 1+len(w.chunks))
	t.begin()
	t.text(4, "row")
	t.i32(5, len(w.chunks))
	t.end()
	for i := range w.chunks {
		w.chunks[i].describe(t)
	}
	t.i64(3, rows)
	t.list(4, typeStruct, len(w.groups))
	for i := range w.groups {
		w.group(t, &w.groups[i])
	}
	t.text(6, "putby")
	t.end()
	return t.buf
}

// describe says what a column is.
func (c *Column) describe(t *thrift) {
	t.begin()
	t.i32(1, c.Type.physical())
	if c.Type == Decimal {
		t.i32(2, c.width())
	}
	repetition := optional
	if c.Need {
		repetition = required
	}
	t.i32(3, repetition)
	t.text(4, c.Name)
	switch c.Type {
	case Text:
		t.i32(6, utf8Converted)
	case Decimal:
		t.i32(6, decimalConverted)
		t.i32(7, c.Places)
		t.i32(8, c.Digits)
	case Date:
		t.i32(6, dateConverted)
	}
	if c.Type != Whole {
		t.open(10)
		c.logical(t)
		t.end()
	}
	t.end()
}

// logical says what the bytes of a column stand for.
func (c *Column) logical(t *thrift) {
	switch c.Type {
	case Text:
		t.open(1)
	case Decimal:
		t.open(5)
		t.i32(1, c.Places)
		t.i32(2, c.Digits)
	case Date:
		t.open(6)
	case Moment:
		t.open(8)
		t.bool(1, false) // of a clock without a zone
		t.open(2)
		t.open(2) // in microseconds
		t.end()
		t.end()
	}
	t.end()
}

// group says where the columns of a group are.
func (w *Writer) group(t *thrift, g *group) {
	total := int64(0)
	t.begin()
	t.list(1, typeStruct, len(g.pages))
	for i, p := range g.pages {
		total += int64(p.plain)
		t.begin()
		t.i64(2, p.at)
		t.open(3)
		t.i32(1, w.chunks[i].Type.physical())
		t.list(2, typeI32, 2)
		t.buf = append(t.buf, plainEncoding<<1, runsEncoding<<1)
		t.list(3, typeBinary, 1)
		t.item(w.chunks[i].Name)
		t.i32(4, gzipCodec)
		t.i64(5, int64(g.rows))
		t.i64(6, int64(p.plain))
		t.i64(7, int64(p.bytes))
		t.i64(9, p.at)
		t.end()
		t.end()
	}
	t.i64(2, total)
	t.i64(3, int64(g.rows))
	t.end()
}
