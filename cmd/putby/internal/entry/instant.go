package entry

import (
	"fmt"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// instant reads when something happened: 21:40, of today; yesterday 21:40; a date
// and a time; "" is now. A time that is still to come is [ErrAhead].
func (b *Base) instant(text string) (time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" || strings.EqualFold(text, "now") {
		return b.At.Now.Truncate(time.Minute), nil
	}
	dated := b.At.Dated(text)
	if !strings.Contains(dated, "-") && strings.Contains(dated, ":") {
		dated = b.At.Dated(b.At.Today.String() + " " + text)
	}
	t, err := exact.ParseMoment(dated, b.Records.Settings.Zone)
	if err != nil {
		return t, typed("", quote(text)+" is not a time that can be read: write 21:40, "+b.At.howToTime())
	}
	return t, b.past(t)
}

// past refuses a time that is still to come.
func (b *Base) past(t time.Time) error {
	now := b.At.Now
	if b.At.Clock > b.At.Today { // an example may go on from its day to the clock's
		now = b.At.On(b.At.Clock).Now
	}
	if b.At.AnyDay || !t.After(now) {
		return nil
	}
	return &ledger.Fault{Kind: ErrAhead, What: fmt.Sprintf("%s is still to come: it is %s", b.moment(t), b.moment(now))}
}

// moment writes a time in a sentence.
func (b *Base) moment(t time.Time) string { return b.Records.Settings.Show().Moment(t) }

// cell writes an instant as records have it: as local time, or with its offset
// where that would be read as another one, on the night when the clocks go back.
func (b *Base) cell(t time.Time) string {
	zone := b.Records.Settings.Zone
	text := t.In(zone).Format("2006-01-02 15:04")
	if t.Second() != 0 {
		text = t.In(zone).Format("2006-01-02 15:04:05")
	}
	if read, err := exact.ParseMoment(text, zone); err != nil || !read.Equal(t) {
		return t.In(zone).Format("2006-01-02T15:04:05Z07:00")
	}
	return text
}
