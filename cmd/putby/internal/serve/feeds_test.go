package serve

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Prices by the hour come by a form as by the command, and what cannot be right is told
// at the field of the file or at that which would say.
func TestHoursForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	const day = "time,CAD/MWh\n2025-11-16T00:00-04:00,61.20\n2025-11-16T01:00-04:00,58.00"
	refuses(t, dir, link, "hours",
		slip{[]string{"prices", ""}, "the file has no rows"},
		slip{[]string{"prices", "time,CAD/kWh\n2025-11-16T00:00-04:00,85.40"}, "85.4 CAD is hardly what a kWh costs"},
		slip{[]string{"prices", "time,SEK/MWh\n2025-11-16T00:00-04:00,85.40"}, "its prices are in SEK"},
		slip{[]string{"prices", day, "rate", "0.12"}, "harbour has an hourly band already"},
		slip{[]string{"prices", day, "tariff", "standard"}, "the bands of standard are not by the hour"},
		slip{[]string{"prices", day, "zone", "Mars/Base"}, `"Mars/Base" is not a time zone`},
	)
	saves(t, link, "hours", []string{"prices", day, "tariff", "market", "rate", "0.11", "tax", "5"},
		"Tariff market: the price of the hour and 0.11 CAD a kWh", "rates/market.csv: 2 prices added")
	saves(t, link, "hours", []string{"prices", strings.ReplaceAll(day, "58.00", "59.00") + "\n2025-11-16T02:00-04:00,50", "tariff", "market"},
		"1 price added", "The ledger has other prices for 1 price of the file, and keeps its own (a tick for that takes the file's)")
	saves(t, link, "hours", []string{"prices", strings.ReplaceAll(day, "58.00", "59.00"), "tariff", "market", "replace", "yes"}, "1 price in the place of other ones")
	if text := read(t, dir, "rates/market.csv"); !strings.HasSuffix(text, "T00:00:00-04:00,0.0612\n2025-11-16T01:00:00-04:00,0.059\n2025-11-16T02:00:00-04:00,0.05\n2025-11-16T03:00:00-04:00,\n") {
		t.Errorf("the prices are\n%s", text)
	}
	shows(t, link, "add/tariff", `href="/hours">Prices by the hour`)
}

// A log comes to a run by a form: in place of another one only where that is said. Of a
// long one the page shows the beginning.
func TestMeterForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	const short = "time,W\n2025-11-13 21:15,420\n2025-11-14 22:00,900"
	var long strings.Builder
	long.WriteString("time,W\n")
	for i := range 600 {
		fmt.Fprintf(&long, "2025-11-14 %02d:%02d,%d\n", i/60, i%60, 400+i%7*i)
	}
	refuses(t, dir, link, "meter",
		slip{[]string{"run", "c47", "log", ""}, "the file is empty"},
		slip{[]string{"run", "c47", "log", "time,W\n2025-11-14 09:00,12x"}, "12x"},
		slip{[]string{"run", "c43", "log", short}, "meter/c43.csv is there already"},
		slip{[]string{"run", "c99", "log", short}, `no run is called "c99"`},
		slip{[]string{"run", "c47", "log", short, "max-gap", "soon"}, `"soon"`},
	)
	saves(t, link, "meter", []string{"run", "c47", "log", short, "max-gap", "30h"}, "2 samples kept", "kWh within run c47", "metered total of 17.17 kWh")
	saves(t, link, "meter", []string{"run", "c47", "log", long.String(), "replace", "yes"}, "600 rows", "... and ")
	shows(t, link, "finish", `href="/meter">A meter`)
}

// A phone chooses the file, and the field then holds what is in it.
func TestFileIsChosen(t *testing.T) {
	tab, link := opened(t, sample(t))
	tab.Go(link + "hours")
	tab.Eval(`{
		const chosen = new DataTransfer(), file = document.querySelector("input[type=file]");
		chosen.items.add(new File(["time,CAD/MWh\n2025-11-16T00:00-04:00,61.20\n"], "tomorrow.csv"));
		file.files = chosen.files;
		file.dispatchEvent(new Event("change"));
		file.hidden
	}`, nil)
	tab.Eval(`new Promise(done => { const look = () => document.getElementById("prices").value ? done() : setTimeout(look, 10); look(); })`, nil)
	fill(tab, "save", "tariff", "market")
	says(t, tab, "rates/market.csv: 1 price added")
}

// read is a file of a ledger.
func read(t *testing.T, dir, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A file of receipts comes by a form as by the command: it says how it is read, tells bad
// rows and what is spending only, adds what is new once, and keeps how the next is read.
func TestImportForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	const till = "Datum;Bon;Artikel;Menge;Betrag\n2025-11-14;7001;KAROTTEN LOSE;1,5 kg;2,99\n2025-11-14;7001;SEIFE;1 ea;1,99"
	by := []string{"target", "receipts", "file", till, "values", "shop=Oat Quay", "names", "KAROTTEN*=carrots", "columns", "date=Datum\nreceipt=Bon\nitem=Artikel\nsize=Menge\ncount=\nprice=Betrag"}
	refuses(t, dir, link, "import",
		slip{[]string{"target", "receipts", "file", ""}, "file"},
		slip{[]string{"target", "receipts", "file", "a;b\n1;2"}, "file"},
		slip{append(by[:3:3], append([]string{till + "\n2025-11-31;7002;MILCH;1 L;1,29"}, by[4:]...)...), "2025-11-31"},
		slip{append(by[:7:7], "KAROTTEN*", "columns", by[9]), "KAROTTEN*"},
		slip{append(by[:9:9], "nonsense=Datum"), "nonsense"},
	)
	saves(t, link, "import", by, "Receipt 7001, Oat Quay, 2025-11-14: 2 lines, 4.98 CAD.", "2 rows to add", "price: from Betrag, where 2,99 is read as 2.99", `"SEIFE" is nothing that the ledger knows`)
	refuses(t, dir, link, "import", slip{[]string{"target", "receipts", "file", till}, "nothing of it differs"})
	saves(t, link, "import", []string{"target", "receipts", "file", till + "\n2025-11-15;7002;KAROTTEN JUNG;1 kg;1,99"}, "Receipt 7002, Oat Quay, 2025-11-15: 1 line, 1.99 CAD.", "1 row to add, 2 there already")
	saves(t, link, "import", []string{"target", "receipts", "skip-bad", "yes", "file", till + "\n2025-11-15;7003;KAROTTEN JUNG;1 kg;2,99\n2025-11-31;7004;MILCH;1 L;1,29"}, "Receipt 7003")
	saves(t, link, "import", []string{"target", "runs", "file", "run,machine,start,end,kwh,item,quantity\nr7,rimewell,2025-11-16 10:00,2025-11-16 20:00,9.5,carrots,1 kg"}, "Run r7: 1 kg Carrots, 10h, 9.5 kWh")
}
