package page_test

import (
	"bytes"
	"regexp"
	"testing"

	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// The card of a whole household is small enough for any phone, asks no network for
// anything, and says that it does not say that food is safe.
func TestCardIsSmallAndAlone(t *testing.T) {
	day := exact.MustDate("2025-11-16")
	g, faults, err := folder.Load("../../../../testdata/sample", ledger.Options{Through: day, PricesThrough: day})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	d, err := question.Card(g, figures.CardQuery{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := page.WriteCard(&b, d, false); err != nil {
		t.Fatal(err)
	}
	foods := bytes.Count(b.Bytes(), []byte("<li>\n<h2>"))
	if foods < 10 || b.Len() >= 40_000 {
		t.Errorf("%d foods in %d bytes", foods, b.Len())
	}
	if what := regexp.MustCompile(`<script|<img|<link[^>]*href="[^d]|url\(`).Find(b.Bytes()); what != nil {
		t.Errorf("it asks for something: %s", what)
	}
	if !bytes.Contains(b.Bytes(), []byte(report.SafetyLine[:40])) {
		t.Error("it does not say that it does not say that food is safe")
	}
}
