package energy

import (
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// Zones with and without clock changes, north and south, with offsets of half
// an hour, changes of half an hour, changes at midnight, and a skipped day;
// each with a date near which something happens.
var testZones = []struct{ name, near string }{
	{"UTC", "2025-02-28"},
	{"Europe/Berlin", "2025-03-29"},
	{"Europe/Berlin", "2025-10-25"},
	{"America/Toronto", "2017-11-04"},
	{"America/St_Johns", "2008-03-08"},
	{"America/Santiago", "2024-09-07"},
	{"Australia/Sydney", "2025-04-05"},
	{"Australia/Lord_Howe", "2025-04-05"},
	{"Australia/Lord_Howe", "2025-10-04"},
	{"Asia/Kolkata", "2024-12-30"},
	{"Asia/Tehran", "2021-09-21"},
	{"Africa/Casablanca", "2025-02-22"},
	{"Pacific/Apia", "2011-12-28"},
}

type world struct {
	zone     *time.Location
	near     exact.Date
	bands    []Band
	holidays []exact.Date
	prices   []Price // of hourly bands
	export   *world  // nil: none
}

func (w world) tariff(t *rapid.T) *Tariff {
	tariff, err := NewTariff("test", w.zone, w.bands, w.holidays)
	if err != nil {
		t.Fatal(err)
	}
	prices, err := NewPrices(w.prices)
	if err != nil {
		t.Fatal(err)
	}
	if tariff = tariff.WithPrices(prices); w.export != nil {
		tariff = tariff.WithExport(w.export.tariff(t))
	}
	return tariff
}

// drawPrices draws hourly bands and their prices, from well before a world's
// date to well after it; with gaps some are missing.
func drawPrices(t *rapid.T, w *world, gaps bool) {
	for i := range w.bands {
		w.bands[i].Hourly = rapid.Bool().Draw(t, "hourly")
	}
	step := rapid.SampledFrom([]int{15, 60, 180}).Draw(t, "minutes")
	seed := rapid.Uint32().Draw(t, "prices")
	at, end := w.near.AddDays(-4).Midnight(time.UTC), w.near.AddDays(12).Midnight(time.UTC)
	for ; at.Before(end); at = at.Add(time.Duration(step) * time.Minute) {
		seed = seed*1664525 + 1013904223 // Numerical Recipes' generator (memory)
		row := Price{At: at, Rate: exact.Some(exact.New(int64(seed>>16%4000)-500, 4))}
		if gaps && seed>>28 == 0 {
			row.Rate = exact.Opt[exact.Number]{}
		}
		if !gaps || seed>>24%16 != 1 {
			w.prices = append(w.prices, row)
		}
	}
}

func drawWorld(t *rapid.T, blocks, gaps bool) world {
	pick := rapid.SampledFrom(testZones).Draw(t, "zone")
	z, err := time.LoadLocation(pick.name)
	if err != nil {
		t.Fatal(err)
	}
	w := world{zone: z, near: exact.MustDate(pick.near)}
	w.fill(t, blocks, gaps)
	return w
}

// fill draws the tariff of a world.
func (w *world) fill(t *rapid.T, blocks, gaps bool) {
	for range rapid.IntRange(0, 6).Draw(t, "bands") {
		w.bands = append(w.bands, drawBand(t, w.near, blocks))
	}
	if !gaps || len(w.bands) == 0 {
		w.bands = append(w.bands, coverAll(t, w.bands)...)
	}
	for range rapid.IntRange(0, 2).Draw(t, "holidays") {
		w.holidays = append(w.holidays, w.near.AddDays(rapid.IntRange(-1, 4).Draw(t, "holiday")))
	}
	if rapid.Bool().Draw(t, "by the hour") {
		drawPrices(t, w, gaps)
	}
}

// drawSolar has the roof give a part of each span, and says what it would have
// earned.
func drawSolar(t *rapid.T, w *world, spans []Span) {
	if w.export == nil {
		w.export = &world{zone: w.zone, near: w.near}
		w.export.fill(t, false, false)
	}
	for i := range spans {
		s := &spans[i]
		if s.Curve == nil {
			s.Solar = s.Energy.Mul(exact.Int(rapid.Int64Range(0, 5).Draw(t, "fifths")).Over(exact.Int(5)))
		} else if all := s.Curve.Energy(s.Start, s.Start.Add(s.Length)); all.Sign() > 0 && s.Curve.HasSolar() {
			s.Solar = s.Energy.Mul(s.Curve.solar.Energy(s.Start, s.Start.Add(s.Length))).Quo(all)
		}
	}
}

// coverAll returns a band without limits for each date of change.
func coverAll(t *rapid.T, bands []Band) []Band {
	cover := []Band{{From: exact.NoDate, Rate: drawRate(t), Tax: exact.Int(19)}}
	for _, b := range bands {
		if b.From != exact.NoDate {
			cover = append(cover, Band{From: b.From, Rate: drawRate(t)})
		}
	}
	return cover
}

func drawRate(t *rapid.T) exact.Number {
	return exact.New(rapid.Int64Range(-500, 50000).Draw(t, "rate"), rapid.IntRange(2, 5).Draw(t, "places"))
}

func drawBand(t *rapid.T, near exact.Date, blocks bool) Band {
	b := Band{From: exact.NoDate, Rate: drawRate(t)}
	if rapid.Bool().Draw(t, "dated") {
		b.From = near.AddDays(rapid.IntRange(-1, 3).Draw(t, "from"))
	}
	b.Months = MonthSet(rapid.Uint16Range(0, 1<<12-1).Draw(t, "months") << 1)
	if rapid.Bool().Draw(t, "all year") {
		b.Months = 0
	}
	b.Days = DaySet(rapid.Uint8().Draw(t, "days"))
	step := rapid.SampledFrom([]int{1, 30, 60, 360}).Draw(t, "step")
	b.Start = Clock(rapid.IntRange(0, int(DayEnd)/step).Draw(t, "start") * step)
	b.End = Clock(rapid.IntRange(0, int(DayEnd)/step).Draw(t, "end") * step)
	b.Tax = exact.New(rapid.Int64Range(0, 250).Draw(t, "tax"), 1)
	if blocks && rapid.Bool().Draw(t, "block") {
		b.Above = exact.New(rapid.Int64Range(0, 400).Draw(t, "above"), 1)
	}
	return b
}

// drawSpans returns the phases of a run, back to back, in whole minutes.
func drawSpans(t *rapid.T, w world, curves bool) []Span {
	start := w.near.Midnight(time.UTC).Add(time.Duration(rapid.IntRange(-12*60, 48*60).Draw(t, "start")) * time.Minute)
	at := start
	var spans []Span
	for range rapid.IntRange(1, 4).Draw(t, "phases") {
		s := Span{Start: at, Length: time.Duration(rapid.IntRange(0, 30*60).Draw(t, "length")) * time.Minute}
		s.Energy = exact.New(rapid.Int64Range(0, 2_000_000).Draw(t, "kwh"), 5).Over(exact.Int(rapid.Int64Range(1, 9).Draw(t, "over")))
		at = at.Add(s.Length)
		spans = append(spans, s)
	}
	if curves {
		log := drawLog(t, start, at)
		for i := range spans {
			if rapid.Bool().Draw(t, "curved") {
				spans[i].Curve = log
			}
		}
	}
	return spans
}

func drawLog(t *rapid.T, from, to time.Time) *Log {
	at := from.Add(time.Duration(rapid.IntRange(-3600, 3600).Draw(t, "log start")) * time.Second)
	var samples []Sample
	for len(samples) < 1 || at.Before(to) && len(samples) < 12 {
		power := rapid.Int64Range(0, 20000).Draw(t, "power")
		samples = append(samples, Sample{At: at, Watts: exact.New(power, 1), Solar: exact.New(power*rapid.Int64Range(-3, 4).Draw(t, "quarters")/4, 1).Max(exact.Int(0))})
		at = at.Add(time.Duration(rapid.IntRange(1, 6*3600).Draw(t, "step")) * time.Second)
	}
	log, err := NewLog(samples)
	if err != nil {
		t.Fatal(err)
	}
	return log
}

func drawHousehold(t *rapid.T) (h [12]exact.Number) {
	for i := range h {
		h[i] = exact.New(rapid.Int64Range(0, 300).Draw(t, "household"), 1)
	}
	return h
}
