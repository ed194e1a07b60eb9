package exact

import "testing"

func TestDistance(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"2026-11-28", "2026-11-28", "0 days"},
		{"2026-11-28", "2026-11-29", "1 day"},
		{"2026-11-29", "2026-11-28", "1 day"},
		{"2026-01-01", "2026-03-02", "60 days"},
		{"2026-01-01", "2026-03-03", "2 months"},
		{"2026-11-28", "2027-05-28", "6 months"},
		{"2026-11-28", "2027-11-28", "1 year"},
		{"2023-11-28", "2024-11-28", "1 year"}, // over a leap day
		{"2026-11-28", "2028-03-28", "16 months"},
		{"2026-11-28", "2028-11-28", "2 years"},
		{"2026-11-29", "2036-11-28", "10 years"},
		{"2026-11-28", "2206-11-28", "180 years"},
	} {
		if have := MustDate(c.to).Distance(MustDate(c.from)); have != c.want {
			t.Errorf("from %s to %s are %s, want %s", c.from, c.to, have, c.want)
		}
	}
	if have := NoDate.Distance(LastDate); have != "5879611 years" { // 2^31 - 1 days
		t.Errorf("all dates span %s", have)
	}
}
