package intake

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"testing"

	"putby/ledger"
)

// bank makes a statement of n payments.
func bank(n int) []byte {
	var out bytes.Buffer
	out.WriteString("Buchungstag;Empfänger;Verwendungszweck;Betrag\n")
	for i := range n {
		fmt.Fprintf(&out, "%02d.%02d.20%02d;Laden %d;Einkauf %d;-%d,%02d €\n", 1+i%28, 1+i/28%12, 10+i/336%15, i%40, i%500, 1+i%90, i%100)
	}
	return out.Bytes()
}

func BenchmarkImport(b *testing.B) {
	data := bank(100_000)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		importAll(b, data, &ledger.Records{})
	}
}

// BenchmarkImportTwice imports what is there already.
func BenchmarkImportTwice(b *testing.B) {
	data := bank(100_000)
	rec := foods()
	p := importAll(b, data, rec)
	carryOut(b, rec, p)
	for b.Loop() {
		if p := importAll(b, data, rec); p.Rows() != 0 {
			b.Fatalf("%d rows", p.Rows())
		}
	}
}

func BenchmarkRead(b *testing.B) {
	data := bank(100_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Read(bytes.NewReader(data), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStandardRead(b *testing.B) {
	data := bank(100_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		r := csv.NewReader(bytes.NewReader(data))
		r.Comma = ';'
		if _, err := r.ReadAll(); err != nil {
			b.Fatal(err)
		}
	}
}

func importAll(b *testing.B, data []byte, rec *ledger.Records) *Plan {
	table, err := Read(bytes.NewReader(data), Options{})
	if err != nil {
		b.Fatal(err)
	}
	m, err := Propose(table, Receipts, "bank", rec)
	if err != nil {
		b.Fatal(err)
	}
	p, err := m.Plan(table, PlanOptions{Records: rec})
	if err != nil || len(p.Bad) > 0 {
		b.Fatal(err, p.Bad[:min(3, len(p.Bad))])
	}
	return p
}
