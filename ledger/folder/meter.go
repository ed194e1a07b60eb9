package folder

import (
	"errors"
	"slices"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// logReader reads the rows of a meter log.
type logReader struct {
	seriesReader
	watts, solar int // columns; solar may be -1
	samples      []energy.Sample
}

// parseLog reads a meter log. Without a fault it returns the log, or nil when
// there is nothing in it.
func parseLog(name, data string, zone *time.Location) (*energy.Log, ledger.Faults) {
	r := &logReader{seriesReader: seriesReader{zone: zone}}
	faults := parseRows(name, data, "a run's", "a log is called RUN.csv", r.begin)
	if len(faults) > 0 || len(r.samples) == 0 {
		return nil, faults
	}
	log, err := energy.NewLog(r.samples)
	if bad := new(energy.RowError); errors.As(err, &bad) {
		field, hint := "watts", ""
		if errors.Is(err, energy.ErrSolar) {
			field, hint = "solar", "solar is a part of watts"
		}
		return nil, r.misfit(name, data, bad.Index, field, hint, bad.Err)
	}
	return log, nil
}

// PrintLog writes a meter log as a ledger keeps it, its times local to zone with
// their offset. Reading it gives the same samples.
func PrintLog(l *energy.Log, zone *time.Location) []byte {
	out := []byte("time,watts\n")
	if l.HasSolar() {
		out = []byte("time,watts,solar\n")
	}
	for s := range l.All() {
		out = appendMoment(out, s.At, zone)
		out = s.Watts.AppendTo(append(out, ','))
		if l.HasSolar() {
			out = s.Solar.AppendTo(append(out, ','))
		}
		out = append(out, '\n')
	}
	return out
}

func (r *logReader) begin(header []string) (rowReader, ledger.Faults) {
	if faults := r.open(header, "a meter log", "sample", "time", "watts"); faults != nil {
		return nil, faults
	}
	r.watts, r.solar = slices.Index(header, "watts"), slices.Index(header, "solar")
	return r.row, nil
}

func (r *logReader) row(line int, cells []string) ledger.Faults {
	at, ok := r.moment(cells)
	if !ok {
		return r.faults
	}
	s := energy.Sample{At: at}
	var err error
	s.Watts, err = exact.ParseNumber(strings.Trim(cells[r.watts], " \t"))
	switch {
	case err != nil:
		r.fail("watts", "write digits with a point, such as 812.5", "%v", err)
	case s.Watts.Sign() < 0:
		r.fail("watts", "a draw is 0 or more", "%v is below 0", s.Watts)
	case r.solar >= 0:
		s.Solar = r.fromRoof(strings.Trim(cells[r.solar], " \t"), s.Watts)
	}
	if len(r.faults) == 0 {
		r.samples = append(r.samples, s)
		r.keep(line, at)
	}
	return r.faults
}

// fromRoof reads what of a draw the household's own roof gave: W, or a part of
// the draw such as 40%. Blank is none.
func (r *logReader) fromRoof(text string, watts exact.Number) (solar exact.Number) {
	if text == "" {
		return solar
	}
	part, isPart := strings.CutSuffix(text, "%")
	solar, err := exact.ParseNumber(strings.TrimRight(part, " "))
	switch {
	case err != nil:
		r.fail("solar", "write W from the roof, such as 350, or its part of the draw, such as 40%", "%v", err)
	case solar.Sign() < 0:
		r.fail("solar", "what comes from the roof is 0 or more", "%v is below 0", solar)
	case isPart:
		solar = solar.Mul(watts).Mul(exact.New(1, 2)).Round(exact.MaxFraction, exact.HalfEven)
	}
	return solar
}

// cutFraction takes the fraction of a second out of a moment, up to nine digits
// behind its seconds: 2025-02-28T18:30:05.25+01:00. What it cannot read it
// leaves, for the moment's own fault.
func cutFraction(text string) (whole string, fraction time.Duration) {
	const point = len("2025-02-28T18:30:05")
	if len(text) <= point || text[point] != '.' {
		return text, 0
	}
	end, unit := point+1, time.Second
	for ; end < len(text) && '0' <= text[end] && text[end] <= '9' && unit > 1; end++ {
		unit /= 10
		fraction += time.Duration(text[end]-'0') * unit
	}
	if end == point+1 {
		return text, 0
	}
	return text[:point] + text[end:], fraction
}

// isLocal reports whether a moment that could be read has no offset.
func isLocal(text string) bool { return strings.LastIndexAny(text, "Z+-") <= len("2025-02-28") }
