package figures_test

import (
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// By hand. Two runs froze for 6 and 4 h at 500 W, 5 kWh, and dried for 24 h at 400 W and 16 h
// at 300 W, 14.4 kWh: a fifth and four fifths of their 50 h. A cycle of 40 h has 8 and 32 h, and of
// 9.7 kWh, half of theirs, 2.5 and 7.2. Of a run without phases nothing is known; without any the draw is even.
func TestUsualPhases(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"runs.csv": "run,machine,start,end,kwh\nr1,box,2025-06-01 08:00,,\nr2,box,2025-06-03 08:00,,\nr3,box,2025-06-05 08:00,2025-06-06 08:00,7\n",
		"phases.csv": "run,step,phase,duration,watts\nr1,1,freezing,6h,500\nr1,2,primary,24h,400\n" +
			"r2,1,freezing,4h,500\nr2,2,primary,16h,300\n",
		"loads.csv": "run,item,quantity\nr1,plums,2 kg\nr2,plums,1 kg\nr3,plums,1 kg\n",
	})
	phases := figures.UsualPhases(g, []int{0, 1, 2}, 40*time.Hour)
	want := []figures.Phase{
		{Name: ledger.Freezing, Length: 8 * time.Hour, Part: num("5").Over(num("19.4"))},
		{Name: ledger.Primary, Length: 32 * time.Hour, Part: num("14.4").Over(num("19.4"))},
	}
	if len(phases) != len(want) {
		t.Fatalf("%+v", phases)
	}
	legs := figures.LegsOf(phases, 40*time.Hour, ratioOf("9.7"))
	for i, p := range phases {
		if p.Name != want[i].Name || p.Length != want[i].Length || !p.Part.Equal(want[i].Part) {
			t.Errorf("phase %d is %+v, want %+v", i, p, want[i])
		}
		if half := exact.New(int64([]int{25, 72}[i]), 1); legs[i].Length != p.Length || !legs[i].Energy.Equal(exact.RatioOf(half)) {
			t.Errorf("leg %d is %+v, want %v kWh", i, legs[i], half)
		}
	}
	// To the second, and in all as long as the cycle: 28,800.2 and 115,200.8 s.
	if odd := figures.UsualPhases(g, []int{0, 1}, 40*time.Hour+time.Second); odd[0].Length != 8*time.Hour || odd[1].Length != 32*time.Hour+time.Second {
		t.Errorf("of a second more: %+v", odd)
	}
	if none := figures.UsualPhases(g, []int{2}, 40*time.Hour); none != nil {
		t.Errorf("of a run without phases: %+v", none)
	}
	if legs := figures.LegsOf(nil, 40*time.Hour, ratioOf("9.7")); len(legs) != 1 || legs[0].Length != 40*time.Hour || !legs[0].Energy.Equal(ratioOf("9.7")) {
		t.Errorf("without phases: %+v", legs)
	}
}
