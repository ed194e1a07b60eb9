package page

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func answerOf(t *testing.T, dir, item, price, size string) report.Told[report.Verdict] {
	t.Helper()
	r := reportsOf(t, dir)
	q := question.NewWorthQuery(item)
	q.AsOf = exact.MustDate("2025-11-16")
	for name, text := range map[string]string{"price": price, "size": size, "limit": "12"} {
		if err := q.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	d, err := question.Worth(r.Ledger, q)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// The answer is one verdict to be read at arm's length, its figures those of the
// report; all else is folded, but for what to heed.
func TestVerdictComesFirst(t *testing.T) {
	yes := answerOf(t, sampleDir, "strawberries", "2.50", "454g")
	var b strings.Builder
	if err := WriteForm(&b, Form{Title: "Worth it?", Answer: &yes}); err != nil {
		t.Fatal(err)
	}
	figure := func(key string) string { return nodeOf(yes.Fields, key).(report.Value).Shown(yes.Currency, yes.Show) }
	before, folded, ok := strings.Cut(b.String(), "<details class=\"figures\">")
	if !ok {
		t.Fatal("nothing is folded")
	}
	for _, want := range []string{">Buy " + figure("buy") + ".</h2>", "Saves " + figure("saving") + ". Worth it below " + figure("break_even_price") + " a package."} {
		if !strings.Contains(before, want) {
			t.Errorf("the answer does not begin with %q: %s", want, before[strings.Index(before, "<main>"):])
		}
	}
	if strings.Contains(before, "<table") || !strings.Contains(folded, "<table") || !strings.Contains(folded, "Is it a real offer?") {
		t.Error("the figures and reasons are not folded")
	}
	no := answerOf(t, sampleDir, "carrots", "9.99", "10kg")
	b.Reset()
	if err := WriteForm(&b, Form{Title: "Worth it?", Answer: &no}); err != nil {
		t.Fatal(err)
	}
	before, _, _ = strings.Cut(b.String(), "<details class=\"figures\">")
	for _, want := range []string{">Buy none.</h2>", "<p>What is in store already covers", "Caution, Carrots: "} {
		if !strings.Contains(before, want) {
			t.Errorf("the answer does not say %q", want)
		}
	}
}

// Where there are several machines the answer names the one that it is for, and the
// page still says why not, once.
func TestVerdictOfSeveralMachines(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(sampleDir)); err != nil {
		t.Fatal(err)
	}
	f, err := os.OpenFile(filepath.Join(dir, ledger.MachinesFile), os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.WriteString("kiln,Cellar dryer,3,4 L,4 kg,900,,\n"); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	no := answerOf(t, dir, "carrots", "9.99", "10kg")
	if !strings.HasPrefix(no.Words[0], "Buy none for Rimewell five-tray: what is in store already covers") {
		t.Fatal(no.Words[0])
	}
	var b strings.Builder
	if err := WriteForm(&b, Form{Title: "Worth it?", Answer: &no}); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "<p>What is in store already covers") || strings.Contains(b.String(), "Buy none for") {
		t.Error("the page does not say why not as it does of one machine")
	}
}
