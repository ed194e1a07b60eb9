package energy

import (
	"time"

	"putby/pricing/exact"
)

// A DayPrice is what a kWh costs in a part of a day, by the lowest block.
type DayPrice struct {
	From, Until time.Time // in the tariff's zone
	Band        Band
	Hour        exact.Opt[exact.Number] // the hour's own price, under an hourly band
	Price       exact.Opt[exact.Number] // with tax; not given where no band holds or no price is known
}

// Day returns what a kWh costs from one local midnight to the next, part by
// part. A day on which the clocks change has an hour less or more.
func (t *Tariff) Day(date exact.Date) (list []DayPrice) {
	w := newWalker(t)
	b := &biller{t: t}
	for at, end := date.Midnight(t.zone).Unix(), date.AddDays(1).Midnight(t.zone).Unix(); at < end; {
		part, until := w.at(at)
		until = min(until, end)
		p := DayPrice{From: time.Unix(at, 0).In(t.zone), Until: time.Unix(until, 0).In(t.zone)}
		if len(part.seg.steps) > 0 {
			band := part.seg.steps[0].band
			p.Band = t.bands[band]
			if b.knows(part, band) {
				p.Price = exact.Some(b.price(part, band))
				if p.Band.Hourly {
					p.Hour = exact.Some(t.hourly.hours[part.hour].rate)
				}
			}
		}
		list = append(list, p)
		at = until
	}
	return list
}
