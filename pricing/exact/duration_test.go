package exact

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseDuration(t *testing.T) {
	for in, want := range map[string]time.Duration{
		"8h24m":         8*time.Hour + 24*time.Minute,
		"8:24":          8*time.Hour + 24*time.Minute,
		"8:24:07":       8*time.Hour + 24*time.Minute + 7*time.Second,
		"504m":          8*time.Hour + 24*time.Minute,
		"90s":           90 * time.Second,
		"0m":            0,
		"0:00":          0,
		"00:00:00":      0,
		"1h90m":         2*time.Hour + 30*time.Minute,
		"1h1m1s":        time.Hour + time.Minute + time.Second,
		"1h1s":          time.Hour + time.Second,
		"0008h":         8 * time.Hour,
		"744h":          MaxDuration,
		"44640m":        MaxDuration,
		"2678400s":      MaxDuration,
		"744:00:00":     MaxDuration,
		"743:59:59":     MaxDuration - time.Second,
		"743h59m60s":    MaxDuration,
		"0000000000:00": -1,
	} {
		got, err := ParseDuration(in)
		if want < 0 {
			if err == nil {
				t.Errorf("%q was read as %v", in, got)
			}
			continue
		}
		if err != nil || got != want {
			t.Errorf("%q = %v (%v), want %v", in, got, err, want)
		}
	}
}

func TestParseDurationRefuses(t *testing.T) {
	const form, long = "write it as 8h24m", "longer than 31 days"
	for _, c := range []struct{ in, why string }{
		{"", form}, {"8", form}, {"h", form}, {"m30", form}, {"8h 24m", form}, {" 8h", form}, {"8h ", form},
		{"-8h", form}, {"+8h", form}, {"8.5h", form}, {"8,5h", form}, {"8H", form}, {"8d", form}, {"1e3s", form},
		{"24m8h", form}, {"8h8h", form}, {"8m8m", form}, {"7s8m", form}, {"8h24", form}, {"8hh", form},
		{":24", form}, {"8:", form}, {"8:2", form}, {"8:244", form}, {"8:60", form}, {"8:24:60", form},
		{"8:24:7", form}, {"8:24:07:00", form}, {"8:24:", form}, {"8::24", form}, {"8:24m", form}, {"8:-4", form},
		{"12345:00", form}, {"12345678s", form}, {"\u0668h", form}, {"8\x00h", form},
		{"745h", long}, {"744h1s", long}, {"44641m", long}, {"2678401s", long}, {"744:00:01", long}, {"9999:59", long},
		// Hours that wrap an int64 of nanoseconds, some of them into range.
		{"2562048h", long}, {"5124095h", long}, {"5124096h", long}, {"9999999h", long}, {"9999999h9999999m9999999s", long},
		{strings.Repeat("1", 1<<20) + "h", form}, {strings.Repeat(":", 1<<20), form}, {strings.Repeat("1h", 1<<20), form},
	} {
		got, err := ParseDuration(c.in)
		if got != 0 || !errors.Is(err, ErrDuration) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s = %v (%v), want %q", Quote(c.in), got, err, c.why)
		}
	}
}

func TestFormatDuration(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0:                              "0m",
		time.Second:                    "1s",
		time.Minute:                    "1m",
		time.Hour:                      "1h",
		504 * time.Minute:              "8h24m",
		time.Hour + time.Second:        "1h1s",
		MaxDuration:                    "744h",
		1500 * time.Millisecond:        "1s",
		999 * time.Millisecond:         "0m",
		-90 * time.Minute:              "-1h30m",
		-time.Millisecond:              "0m",
		time.Duration(math.MinInt64):   "-2562047h47m16s",
		time.Duration(math.MaxInt64):   "2562047h47m16s",
		31*24*time.Hour + 59*time.Hour: "803h",
	} {
		if got := FormatDuration(d); got != want {
			t.Errorf("%d ns = %s, want %s", d, got, want)
		}
	}
	if MustDuration("1h30m") != 90*time.Minute {
		t.Error("a constant is not what it says")
	}
}

// parse(print(d)) = d, in every form.
func TestParsePrintedDuration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seconds := rapid.IntRange(0, int(MaxDuration/time.Second)).Draw(t, "seconds")
		d := time.Duration(seconds) * time.Second
		clock := Int(int64(seconds/3600)).String() + time.Unix(int64(seconds%3600), 0).UTC().Format(":04:05")
		for _, s := range []string{FormatDuration(d), clock, Int(int64(seconds)).String() + "s"} {
			if got, err := ParseDuration(s); err != nil || got != d {
				t.Fatalf("%q reads as %v (%v), want %v", s, got, err, d)
			}
		}
	})
}
