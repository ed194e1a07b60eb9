package energy_test

import (
	"fmt"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// A cycle of ten hours at 450 W from nine in the evening, on a tariff that is
// cheaper at night. Tax of 19 % comes on top.
func Example() {
	night, _ := energy.ParseClock("22:00")
	morning, _ := energy.ParseClock("6:00")
	tariff, err := energy.NewTariff("day and night", time.UTC, []energy.Band{
		{Line: 2, From: exact.NoDate, Start: night, End: morning, Rate: exact.MustNumber("0.18"), Tax: exact.Int(19)},
		{Line: 3, From: exact.NoDate, Rate: exact.MustNumber("0.30"), Tax: exact.Int(19)},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	draw, err := energy.Cycle{
		Start:  time.Date(2025, 2, 3, 21, 0, 0, 0, time.UTC),
		Phases: []energy.Phase{{Name: "primary", Length: 10 * time.Hour, Watts: exact.Some(exact.Int(450))}},
	}.Resolve()
	if err != nil {
		fmt.Println(err)
		return
	}
	bills, err := energy.NewMeter([12]exact.Number{}).Itemize(tariff, draw.Spans, 6)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range bills[0].Pieces {
		fmt.Printf("%s-%s %v kWh at row %d\n", p.From.Format("15:04"), p.To.Format("15:04"), p.Energy.Round(3, exact.HalfEven), p.Band.Line)
	}
	fmt.Println("costs", bills[0].Cost)
	// Output:
	// 21:00-22:00 0.45 kWh at row 3
	// 22:00-00:00 0.9 kWh at row 2
	// 00:00-06:00 2.7 kWh at row 2
	// 06:00-07:00 0.45 kWh at row 3
	// costs 1.09242
}

// The same ten hours, started when they cost least, with somebody awake when
// they end.
func ExampleSearch() {
	night, _ := energy.ParseClock("22:00")
	morning, _ := energy.ParseClock("6:00")
	tariff, _ := energy.NewTariff("day and night", time.UTC, []energy.Band{
		{From: exact.NoDate, Start: night, End: morning, Rate: exact.MustNumber("0.18")},
		{From: exact.NoDate, Rate: exact.MustNumber("0.30")},
	}, nil)
	awake, _ := energy.ParseWindow("07:00-22:00")
	now := time.Date(2025, 2, 3, 15, 0, 0, 0, time.UTC)
	search := energy.Search{
		Tariff:  tariff,
		Profile: []energy.Leg{{Length: 10 * time.Hour, Energy: exact.RatioOf(exact.MustNumber("4.5"))}},
		From:    now, To: now.Add(24 * time.Hour), Step: time.Minute,
		Finish: exact.Some(awake), Places: 6,
	}
	best, _, err := search.Cheapest()
	if err != nil {
		fmt.Println(err)
		return
	}
	atOnce, err := search.Price(now)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(best.At.Format("Mon 15:04"), "to", best.Finish.Format("Mon 15:04"), "costs", best.Cost, "and saves", atOnce.Cost.Sub(best.Cost))
	// Output:
	// Mon 21:00 to Tue 07:00 costs 0.918 and saves 0.27
}

// Electricity against load, from five runs of one food.
func ExampleFitLine() {
	var points []energy.Point
	for _, run := range [][2]string{{"2.5", "11.9"}, {"3", "12.8"}, {"3.5", "13.6"}, {"4", "15.1"}, {"4", "14.7"}} {
		points = append(points, energy.Point{
			X: exact.RatioOf(exact.MustNumber(run[0])),
			Y: exact.RatioOf(exact.MustNumber(run[1])),
		})
	}
	line, err := energy.FitLine(points)
	if err != nil {
		fmt.Println(err)
		return
	}
	x := exact.RatioOf(exact.MustNumber("3.2"))
	kwh, _ := line.At(x).KWh()
	low, high := line.Prediction(x, 0.9)
	fmt.Printf("estimated %v kWh for 3.2 kg, 90 %% of runs between %.1f and %.1f\n", kwh, low, high)
	// Output:
	// estimated 13.219 kWh for 3.2 kg, 90 % of runs between 12.6 and 13.8
}
