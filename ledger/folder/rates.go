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
	if ledger.CheckID(runOf(name)) != nil {
		return nil, ledger.Faults{{File: name, What: "the file's name is not a tariff's identifier", Hint: "hourly prices are called TARIFF.csv"}}
	}
	r := &ratesReader{seriesReader: seriesReader{zone: zone}}
	faults, _ := parseFile(name, data, r.begin)
	if len(faults) > 0 || len(r.prices) == 0 {
		return nil, faults
	}
	prices, err := energy.NewPrices(r.prices)
	if err == nil {
		return prices, nil
	}
	f := ledger.Fault{File: name, What: err.Error()}
	if bad := new(energy.PriceError); errors.As(err, &bad) {
		f.Line, f.Field, f.What = r.lines[bad.Index], "time", "time: "+bad.Err.Error()
		locate(data, map[int][]*ledger.Fault{f.Line: {&f}})
	}
	return nil, ledger.Faults{f}
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
// with their offset. Reading them gives the same prices.
func PrintRates(list []energy.Price, zone *time.Location) []byte {
	out := []byte("time,rate\n")
	for _, p := range list {
		out = append(appendMoment(out, p.At, zone), ',')
		if rate, known := p.Rate.Get(); known {
			out = rate.AppendTo(out)
		}
		out = append(out, '\n')
	}
	return out
}
