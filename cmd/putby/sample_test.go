package main

import (
	"testing"
	"time"

	"putby/ledger/folder"
)

// The sample's household buys electricity by the hour in its last two months,
// and knows the prices of a week to come. They are invented; each hour has one,
// the 25 of the day on which the clocks go back too, and some are below 0.
func TestSampleHours(t *testing.T) {
	rec, faults, err := folder.Read(sampleDir)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	zone := rec.Settings.Zone
	at := time.Date(2025, 9, 15, 0, 0, 0, 0, zone)
	end := time.Date(2025, 11, 24, 0, 0, 0, 0, zone)
	below, thatDay := 0, 0
	for hour := range rec.Rates["harbour"].Between(at, end) {
		if !hour.From.Equal(at) || !hour.Until.Equal(at.Add(time.Hour)) {
			t.Fatalf("after %v comes %v until %v", at, hour.From, hour.Until)
		}
		if hour.Rate.Sign() < 0 {
			below++
		}
		if local := at.In(zone); local.Month() == 11 && local.Day() == 2 {
			thatDay++
		}
		at = hour.Until
	}
	if !at.Equal(end) || thatDay != 25 || below == 0 {
		t.Errorf("prices until %v, %d hours on 2 November, %d below 0", at, thatDay, below)
	}
	if first, last, _ := rec.Rates["harbour"].Span(); !last.Equal(end) || !first.Equal(time.Date(2025, 9, 15, 0, 0, 0, 0, zone)) {
		t.Errorf("prices from %v until %v", first, last)
	}
}
