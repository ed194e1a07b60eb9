package report_test

import (
	"slices"
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// weighedRun dried 6 L of broth of 1.0144 kg/L, weighed 6.0864 kg before and
// 0.504 kg after, of which one pack has a dry weight of its own.
const weighedRun = `-- foods.csv --
food,name,basis,density,water,keep_months
broth,Broth,volume,1.0144,92.15,24
-- supplies.csv --
supply,name,kind,uses,price
jar,Jar,jar,20,2
absorber,Absorber,absorber,1,0.2
label,Label,label,1,0.1
-- machines.csv --
machine,cycles
m,100
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,broth,1,6 L,6.00
r,2025-01-01,2,supply,jar,8,1 ea,2.00
r,2025-01-01,3,supply,absorber,4,1 ea,0.20
-- runs.csv --
run,machine,start,kwh
c,m,2025-01-02 08:00,10
-- loads.csv --
run,item,quantity,wet,dry
c,broth,6 L,6.0864 kg,504 g
-- packs.csv --
pack,run,item,date,count,each,dry,with
own,c,broth,2025-01-04,1,1 L,90 g,1 jar
part,c,broth,2025-01-04,5,1 L,,"1 jar, 2 absorber"
old,,broth,2025-01-04,1,1 L,,1 jar
`

// A container that was not weighed has its part of what its run's food weighed:
// 1.0144 kg x 504 g / 6086.4 g is 84 g of it dry, and 0.9304 kg of water.
func TestWaterByTheRunsWeights(t *testing.T) {
	got := labelTable(t, write(t, weighedRun), figures.LabelQuery{Packs: []string{"own", "part", "old"}})
	for row, want := range map[int][2]string{0: {"0.09", "0.9244"}, 1: {"0.084", "0.9304"}, 6: {"", ""}} {
		if dry, water := labelCell(got, row, "dry"), labelCell(got, row, "water"); dry != want[0] || water != want[1] {
			t.Errorf("label %d: %q dry, %q of water; want %v", row, dry, water, want)
		}
		if estimate := cell(t, got, row, "water").IsEstimate(); estimate != (row == 1) {
			t.Errorf("label %d is an estimate: %t", row, estimate)
		}
	}
	g := whole(t, write(t, weighedRun), exact.NoDate)
	// Of the 90 g of own 10.4 g are water, more than 10 %: it is not to be labelled as food
	// that water is added to. Of 88 g 8.4 g are.
	want := []string{"On the label of part: add ~0.93 L of water, best by 2027-01-04, 2 absorbers inside.",
		"On the label of old: cover with water (how much is not known, since pack old has no dry weight), best by 2027-01-04."}
	if have := report.PackLabels(g, "own", "part", "old"); !slices.Equal(have, want) {
		t.Errorf("labels say %q", have)
	}
	g = whole(t, write(t, strings.Replace(weighedRun, ",90 g,", ",88 g,", 1)), exact.NoDate)
	want = slices.Insert(want, 0, "On the label of own: add 0.926 L of water, best by 2027-01-04.")
	if have := report.PackLabels(g, "own", "part", "old"); !slices.Equal(have, want) {
		t.Errorf("labels of dry packs say %q", have)
	}
}

// Of 8 jars 7 stand full, and of 4 absorbers 10 were taken: of both it is said
// what there is; labels are no containers.
func TestPackPieces(t *testing.T) {
	g := whole(t, write(t, weighedRun), exact.NoDate)
	for _, c := range []struct {
		need        map[string]int64
		said, short string
	}{
		{map[string]int64{"jar": 1}, "Jar: 1 free before, 0 after.", ""},
		{map[string]int64{"jar": 2, "label": 2}, "", "Jar: 2 needed, and only 1 free; is a receipt of them missing, or a draw of what was eaten?"},
		{map[string]int64{"absorber": 1}, "", "Absorber: 1 needed, and none free; is a receipt of them missing, or a draw of what was eaten?"},
		{nil, "", ""},
	} {
		need := map[int]exact.Number{}
		for id, n := range c.need {
			i, _ := g.FindSupply(id)
			need[i] = exact.Int(n)
		}
		said, short := report.PackPieces(g, need)
		if strings.Join(said, "|") != c.said || strings.Join(short, "|") != c.short {
			t.Errorf("%v: %q, short %q", c.need, said, short)
		}
	}
}

// Broth is 92.15 % water, so of 6.0864 kg 477.78 g are solids: of 504 g 5 % is
// water, of 600 g more than 20 %, and 400 g is less than the solids.
func TestRunDryness(t *testing.T) {
	for dry, want := range map[string]string{
		"504 g": "Water left in Broth: about 5 %, by its weights; 10 % is the most.",
		"600 g": "Caution, Broth: Not dry. By its weights 21 % of it is still water (10 % is the most). Moist food sealed without oxygen can grow botulism",
		"400 g": "Water left in Broth: none. By its weights it holds less than its solids should",
		"":      "",
	} {
		g := whole(t, write(t, strings.Replace(weighedRun, "504 g", dry, 1)), exact.NoDate)
		if have := strings.Join(report.Lines(report.RunDryness(g, 0)), "|"); want == "" && have != "" || !strings.HasPrefix(have, want) {
			t.Errorf("of %q: %q", dry, have)
		}
	}
}

// Time on top of the usual phases puts the usual end off; phases that begin as the
// usual ones do take their place.
func TestUsualEnd(t *testing.T) {
	phases := "-- phases.csv --\nrun,step,phase,duration\n1,1,freezing,8h\n1,2,primary,20h\n1,3,secondary,4h\n2,1,freezing,8h\n2,2,primary,20h\n2,3,secondary,4h\n"
	for sofar, want := range map[string]string{
		"": "21 20:00", "4,1,freezing,9h\n": "21 20:00", "4,1,secondary,2h\n": "21 22:00", "4,1,freezing,9h\n4,2,secondary,2h\n": "21 22:00",
		"4,1,freezing,9h\n4,2,primary,30h\n": "22 03:00",
	} {
		text := strings.Replace(runningLedger, "-- phases.csv --\nrun,step,phase,duration\n1,1,primary,30h\n2,1,primary,32h\n", phases, 1)
		text = strings.Replace(text, "3,1,primary,10h\n", "3,1,primary,10h\n"+sofar, 1) + "-- wattage.csv --\nmachine,phase,watts\nm,primary,300\nm,freezing,300\nm,secondary,300\n"
		g := join(t, write(t, text), exact.NoDate)
		i, _ := g.FindRun("4")
		end, ok := figures.UsualEnd(g, i).Get()
		if have := end.Format("02 15:04"); !ok || have != want {
			t.Errorf("with %q so far it ends on %s, want %s", sofar, have, want)
		}
	}
}
