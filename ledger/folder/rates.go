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

// ratesReader reads the prices of hourly bands.
type ratesReader struct {
	seriesReader
	rate   int // column
	prices []energy.Price
}

// parseRates reads the prices of a tariff's hourly bands. Without a fault it
// returns them, or nil when there are none.
func parseRates(name, data string, zone *time.Location) (*energy.Prices, ledger.Faults) {
	r := &ratesReader{seriesReader: seriesReader{zone: zone}}
	faults := parseRows(name, data, "a tariff's", "hourly prices are called TARIFF.csv", r.begin)
	if len(faults) > 0 || len(r.prices) == 0 {
		return nil, faults
	}
	prices, err := energy.NewPrices(r.prices)
	if bad := new(energy.RowError); errors.As(err, &bad) {
		return nil, r.misfit(name, data, bad.Index, "time", "", bad.Err)
	}
	return prices, nil
}

func (r *ratesReader) begin(header []string) (rowReader, ledger.Faults) {
	if faults := r.open(header, "a file of hourly prices", "price", "time", "rate"); faults != nil {
		return nil, faults
	}
	r.rate = slices.Index(header, "rate")
	return r.row, nil
}

// row reads a price; where the cell is blank none is known from then on.
func (r *ratesReader) row(line int, cells []string) ledger.Faults {
	at, ok := r.moment(cells)
	if !ok {
		return r.faults
	}
	p := energy.Price{Line: line, At: at}
	if text := strings.Trim(cells[r.rate], " \t"); text != "" {
		rate, err := exact.ParseNumber(text)
		if err != nil {
			r.fail("rate", "write money per kWh with a point, such as 0.0854 or -0.002; leave it blank where none is known from then on", "%v", err)
		}
		p.Rate = exact.Some(rate)
	}
	if len(r.faults) == 0 {
		r.prices = append(r.prices, p)
		r.keep(line, at)
	}
	return r.faults
}

// PrintRates writes prices as a ledger keeps them, their times local to zone
// with their offset. Reading them gives the same prices. Have is the file that
// they take the place of, nil where there is none: its separator, its line ends
// and what its other columns say of a time stay.
func PrintRates(have []byte, list []energy.Price, zone *time.Location) ([]byte, error) {
	const name = ledger.RatesFolder + "/.csv" // for what is wrong with it, which has been read already
	s, err := openSheet(name, string(have), []string{"time", "rate"})
	if err != nil {
		return nil, err
	}
	old := &ratesReader{seriesReader: seriesReader{zone: zone}}
	parseFile(name, string(have), old.begin)
	lines := map[int64]int{}
	for _, p := range old.prices {
		lines[p.At.UnixNano()] = p.Line
	}
	var out strings.Builder
	if len(s.rows) > 0 { // the header as it is; else the one that an empty file was given
		out.WriteString(strings.TrimRight(s.text[:s.rows[0].end], "\r\n") + s.eol)
	} else {
		out.WriteString(s.text + s.added.String())
	}
	for _, p := range list {
		cells := map[string]string{"time": string(appendMoment(nil, p.At, zone)), "rate": ""}
		if rate, known := p.Rate.Get(); known {
			cells["rate"] = rate.String()
		}
		line, there := lines[p.At.UnixNano()]
		if !there {
			s.writeRow(&out, s.lay(cells))
			continue
		}
		i, err := s.find(line)
		if err == nil {
			err = s.set(i, cells)
		}
		if err != nil {
			return nil, err
		}
		raw, _ := s.raw(i)
		out.WriteString(strings.TrimRight(raw, "\r\n") + s.eol)
	}
	return []byte(out.String()), nil
}
