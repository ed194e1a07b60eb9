package ledgertest

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// Read turns the files of a ledger, given by name, into records without going
// through a folder. Settings come first, as they must. The error is for text
// that is not CSV at all; what a ledger refuses are faults.
func Read[T string | []byte](files map[string]T) (*ledger.Records, ledger.Faults, error) {
	rec := &ledger.Records{}
	settings, faults := ledger.ReadSettings(rec, []string{"setting", "value"})
	found, err := rows(string(files[ledger.SettingsFile]), func([]string) (rowFunc, ledger.Faults) { return settings.Row, nil })
	faults = append(append(faults, found...), settings.Close()...)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", ledger.SettingsFile, err)
	}
	for name, text := range files {
		var found ledger.Faults
		switch {
		case name == ledger.SettingsFile:
		case path.Dir(name) == ledger.MeterFolder:
			err = readLog(rec, strings.TrimSuffix(path.Base(name), ".csv"), string(text))
		case path.Dir(name) == ledger.RatesFolder:
			err = readRates(rec, strings.TrimSuffix(path.Base(name), ".csv"), string(text))
		default:
			found, err = readKind(rec, name, string(text))
		}
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", name, err)
		}
		faults = append(faults, found...)
	}
	faults.Sort()
	return rec, faults, nil
}

func readKind(rec *ledger.Records, name, text string) (ledger.Faults, error) {
	k, ok := ledger.KindOf(name)
	if !ok {
		return nil, errors.New("no such file of a ledger")
	}
	k.Grow(rec, strings.Count(text, "\n"))
	return rows(text, func(header []string) (rowFunc, ledger.Faults) {
		r, faults := k.Read(rec, rec.Settings.Zone, header)
		if r == nil {
			return nil, faults
		}
		return r.Row, faults
	})
}

type rowFunc func(line int, cells []string) ledger.Faults

// rows reads a CSV text: the header, with which it begins, and each row.
func rows(text string, begin func(header []string) (rowFunc, ledger.Faults)) (ledger.Faults, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.ReuseRecord, r.FieldsPerRecord = true, -1
	header, err := r.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	row, faults := begin(append([]string(nil), header...))
	for row != nil {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		line, _ := r.FieldPos(0)
		faults = append(faults, row(line, cells)...)
	}
	return faults, nil
}

// readLog reads a meter log whose every row is good.
func readLog(rec *ledger.Records, run, text string) error {
	var samples []energy.Sample
	var bad error
	_, err := rows(text, func([]string) (rowFunc, ledger.Faults) {
		return func(_ int, cells []string) ledger.Faults {
			at, err1 := exact.ParseMoment(cells[0], rec.Settings.Zone)
			watts, err2 := exact.ParseNumber(cells[1])
			bad = errors.Join(bad, err1, err2)
			s := energy.Sample{At: at, Watts: watts}
			if len(cells) > 2 { // what the roof gave, in W
				s.Solar, err1 = exact.ParseNumber(cells[2])
				bad = errors.Join(bad, err1)
			}
			samples = append(samples, s)
			return nil
		}, nil
	})
	if err = errors.Join(err, bad); err != nil {
		return err
	}
	log, err := energy.NewLog(samples)
	if err != nil {
		return err
	}
	if rec.Meters == nil {
		rec.Meters = map[string]*energy.Log{}
	}
	rec.Meters[run] = log
	return nil
}

// readRates reads hourly prices whose every row is good.
func readRates(rec *ledger.Records, tariff, text string) error {
	var list []energy.Price
	var bad error
	_, err := rows(text, func([]string) (rowFunc, ledger.Faults) {
		return func(line int, cells []string) ledger.Faults {
			at, err1 := exact.ParseMoment(cells[0], rec.Settings.Zone)
			p := energy.Price{Line: line, At: at}
			if cells[1] != "" {
				rate, err2 := exact.ParseNumber(cells[1])
				bad, p.Rate = errors.Join(bad, err2), exact.Some(rate)
			}
			bad = errors.Join(bad, err1)
			list = append(list, p)
			return nil
		}, nil
	})
	if err = errors.Join(err, bad); err != nil {
		return err
	}
	prices, err := energy.NewPrices(list)
	if err != nil {
		return err
	}
	if rec.Rates == nil {
		rec.Rates = map[string]*energy.Prices{}
	}
	rec.Rates[tariff] = prices
	return nil
}
