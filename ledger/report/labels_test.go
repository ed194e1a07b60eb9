package report_test

import (
	"errors"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// labelTable makes the labels of a ledger.
func labelTable(t *testing.T, dir string, q figures.LabelQuery) *report.Table {
	t.Helper()
	d, err := report.Labels(whole(t, dir, exact.NoDate), q)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	return d.Fields[0].Node.(*report.Table)
}

func labelCell(t *report.Table, row int, key string) string {
	for i, c := range t.ValueColumns() {
		if c.Key == key {
			return t.Rows[row].Cells[i].Exact(exact.Currency{})
		}
	}
	return "no column " + key
}

const labelled = `-- foods.csv --
food,name,basis,density,piece_kg,keep_months
egg,Beaten egg,mass,,,24
broth,Broth,volume,1.0144,,24
soup,Soup,volume,,,12
lemon,Lemons,count,,0.05,
plum,Plums,count,,,
-- packs.csv --
pack,item,date,count,each,dry,cost
e1,egg,2025-01-31,2,1 kg,245.8763 g,10
b1,broth,2025-02-01,1,1 L,0.084 kg,3
s1,soup,2025-02-01,1,700 mL,90 g,3
l1,lemon,2025-02-01,3,6 ea,40 g,3
p1,plum,2025-02-01,1,10 ea,50 g,3
n1,broth,2025-02-02,1,1 L,,3
h1,egg,2025-02-02,1,200 g,0.3 kg,3
-- draws.csv --
date,pack,quantity,reason
2025-02-03,l1,2,used
`

// The water to add is the mass of what a container gives less its dry weight.
// Egg at 3 % residual moisture: 245.8763 g dry per kg wet (USDA
// SR28 01123: 76.15 % water), so 754.1237 g of water bring a kilogram back.
func TestLabelsSayHowMuchWater(t *testing.T) {
	all := figures.LabelQuery{Packs: []string{"e1", "b1", "s1", "l1", "p1", "n1", "h1"}}
	got := labelTable(t, write(t, labelled), all)
	for _, want := range []struct {
		row                  int
		pack, n, water, lack string
		volume, bestBy       string
	}{
		{0, "e1", "1", "0.7541237", "", "0.7541237", "2027-01-31"},
		{1, "e1", "2", "0.7541237", "", "0.7541237", "2027-01-31"},
		{2, "b1", "1", "0.9304", "", "0.9304", "2027-02-01"},
		{3, "s1", "1", "", "cover with water: how much is not known, since the density of Soup is not known", "", "2026-02-01"},
		{4, "l1", "1", "0.26", "", "0.26", ""},
		{7, "p1", "1", "", "cover with water: how much is not known, since what a piece of Plums weighs is not known", "", ""},
		{8, "n1", "1", "", "cover with water: how much is not known, since pack n1 has no dry weight", "", "2027-02-02"},
		{9, "h1", "1", "", "cover with water: how much is not known, since the dry weight of pack h1 is above the weight of what it gives", "", "2027-02-02"},
	} {
		for key, figure := range map[string]string{
			"pack": want.pack, "container": want.n, "water": want.water, "water_volume": want.volume, "best_by": want.bestBy,
		} {
			if have := labelCell(got, want.row, key); have != figure {
				t.Errorf("row %d, %s: %q, want %q", want.row, key, have, figure)
			}
		}
		if notes := got.Rows[want.row].Notes; want.lack == "" && notes != nil || want.lack != "" && (len(notes) != 1 || notes[0] != want.lack) {
			t.Errorf("row %d says %q, want %q", want.row, notes, want.lack)
		}
	}
	if len(got.Rows) != 10 {
		t.Errorf("%d labels, want one for each of 10 containers", len(got.Rows))
	}
}

func TestLabelsAreForTheLastPackingDay(t *testing.T) {
	dir := write(t, labelled)
	for _, c := range []struct {
		q     figures.LabelQuery
		first string
		rows  int
	}{
		{figures.LabelQuery{}, "n1", 2},
		{figures.LabelQuery{Query: figures.Query{From: exact.MustDate("2025-02-01"), To: exact.MustDate("2025-02-01")}}, "b1", 6},
		{figures.LabelQuery{Query: figures.Query{Item: "egg"}}, "h1", 1},
		{figures.LabelQuery{Packs: []string{"l1"}, Left: true}, "l1", 1},
	} {
		got := labelTable(t, dir, c.q)
		if len(got.Rows) != c.rows || labelCell(got, 0, "pack") != c.first {
			t.Errorf("%+v: %d labels from %s, want %d from %s", c.q, len(got.Rows), labelCell(got, 0, "pack"), c.rows, c.first)
		}
	}
	_, err := report.Labels(whole(t, dir, exact.NoDate), figures.LabelQuery{Packs: []string{"nope"}})
	if unknown := (*figures.UnknownError)(nil); !errors.As(err, &unknown) {
		t.Errorf("an unknown pack is %v", err)
	}
}
