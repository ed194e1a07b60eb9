package intake

import (
	"bytes"
	"io"
	"runtime"
	"strconv"
	"testing"
	"time"

	"putby/pricing/exact"
)

// A rowSource makes the rows of a log as they are read.
type rowSource struct {
	rows, made int
	row        func(dst []byte, i int) []byte
	buf        bytes.Buffer
}

func (s *rowSource) Read(p []byte) (int, error) {
	for s.buf.Len() < len(p) && s.made < s.rows {
		s.buf.Write(s.row(s.buf.AvailableBuffer(), s.made))
		s.made++
	}
	if s.buf.Len() == 0 {
		return 0, io.EOF
	}
	return s.buf.Read(p)
}

// noisyRow writes a row a second, its power seldom on a line with the last.
func noisyRow(dst []byte, i int) []byte {
	dst = t0.Add(time.Duration(i)*time.Second).AppendFormat(dst, time.RFC3339)
	dst = append(dst, ',')
	dst = strconv.AppendInt(dst, int64(400+(i*7919)%53), 10)
	return append(dst, ".5\n"...)
}

// Ten million rows, of which a run of 40 hours is kept. One op is one row;
// the heap is what is in use at the end.
func BenchmarkReadLogRow(b *testing.B) {
	const rows = 10_000_000
	for range b.N {
		b.StopTimer()
		source := &rowSource{rows: rows, row: noisyRow}
		from := t0.Add(500 * time.Hour)
		o := LogOptions{From: exact.Some(from), To: exact.Some(from.Add(40 * time.Hour))}
		b.StartTimer()
		log, _, err := ReadLog(io.MultiReader(bytes.NewReader([]byte("time,power (W)\n")), source), o)
		if err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		b.ReportMetric(float64(m.HeapInuse)/1e6, "MB-heap")
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/rows/float64(b.N), "ns/row")
		if log.Len() < 100_000 {
			b.Fatalf("%d samples", log.Len())
		}
	}
}
