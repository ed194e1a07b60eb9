package intake

import (
	"testing"
	"time"

	"putby/pricing/exact"
)

var t0 = time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)

func num(s string) exact.Opt[exact.Number] { return exact.Some(exact.MustNumber(s)) }

func kwh(s string) exact.Ratio { return exact.RatioOf(exact.MustNumber(s)) }

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// changing are zones with a date near which their clocks change in an odd way.
var changing = []struct{ name, near string }{
	{"UTC", "2025-02-28"},
	{"Europe/Berlin", "2025-03-29"},
	{"Europe/Berlin", "2025-10-25"},
	{"America/St_Johns", "2008-03-08"},
	{"America/Santiago", "2024-09-07"},
	{"Australia/Lord_Howe", "2025-04-05"},
	{"Australia/Lord_Howe", "2025-10-04"},
	{"Africa/Casablanca", "2025-02-22"},
	{"Pacific/Apia", "2011-12-28"},
}
