package exact

import "fmt"

// Distance says in words how far apart two dates are: "1 day", "7 months", "10
// years". Up to 60 days it is exact; months and years are rounded to the nearest,
// by the mean year of the Gregorian calendar, 365.2425 days.
func (d Date) Distance(e Date) string {
	const daysPer10000Years = 3652425
	n := int64(max(d, e)) - int64(min(d, e))
	if n <= 60 {
		return countOf(n, "day")
	}
	months := (n*10_000*12 + daysPer10000Years/2) / daysPer10000Years
	if months < 24 && months%12 != 0 {
		return countOf(months, "month")
	}
	return countOf((n*10_000+daysPer10000Years/2)/daysPer10000Years, "year")
}

func countOf(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
