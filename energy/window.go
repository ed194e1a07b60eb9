package energy

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"putby/pricing/exact"
)

// A Window is a stretch of the local clock, both ends included, that may run
// past midnight. Equal ends are all day.
type Window struct{ From, To Clock }

// ErrWindow is what every error of [ParseWindow] is.
var ErrWindow = errors.New("not a stretch of the clock")

// ParseWindow reads a window such as 07:00-22:00.
func ParseWindow(s string) (Window, error) {
	a, b, ok := strings.Cut(s, "-")
	if !ok {
		return Window{}, fmt.Errorf("%s is %w: write it as 07:00-22:00", exact.Quote(s), ErrWindow)
	}
	from, err := ParseClock(strings.TrimSpace(a))
	if err == nil {
		var to Clock
		if to, err = ParseClock(strings.TrimSpace(b)); err == nil {
			return Window{from, to}, nil
		}
	}
	return Window{}, fmt.Errorf("%s is %w: %w", exact.Quote(s), ErrWindow, err)
}

// String writes the window as [ParseWindow] reads it.
func (w Window) String() string { return w.From.String() + "-" + w.To.String() }

// Has reports whether the clock of a zone shows a time in the window at an
// instant.
func (w Window) Has(at time.Time, zone *time.Location) bool {
	from, to := w.From%DayEnd, w.To%DayEnd
	if from == to {
		return true
	}
	local := at.In(zone)
	h, m, s := local.Clock()
	clock := time.Duration(h*3600+m*60+s)*time.Second + time.Duration(local.Nanosecond())
	after := clock >= time.Duration(from)*time.Minute
	before := clock <= time.Duration(to)*time.Minute
	if from < to {
		return after && before
	}
	return after || before
}
