package entry

import (
	"fmt"
	"io"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/folder"
	"putby/ledger/intake"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A MeterIn is a plug meter's log of a run, and how it is read, as a person types it.
// What is "" is found, or is as the ledger has it.
type MeterIn struct {
	Run      string
	Path     string // the log's name
	Log      io.Reader
	Progress func(rows, bytes int64) // may be nil

	Time, Value, Solar            string // headers
	Unit, Zone, MaxGap, RestartAt string
	Bridge                        bool // a straight line is drawn across gaps
	Replace                       bool // it takes the place of a log that is there
}

// TakeMeter is the act that takes a log over. Its error is a [Wrong] with the part
// that was mistyped, named "unit", "zone", "max-gap" ...; or a fault of the log.
func TakeMeter(b *Base, in *MeterIn) (*Draft, *report.MeterRead, error) {
	run, log, err := RunLog(b.Records, in.Run)
	if err != nil {
		return nil, nil, err
	}
	name := ledger.MeterFolder + "/" + run.ID + ".csv"
	there := mistake("replace", ledger.Fault{What: name + " is there already", Choice: ledger.PutInPlace})
	if log != nil && !in.Replace {
		return nil, nil, there
	}
	options, err := in.options(b.Records.Settings.Zone)
	if err != nil {
		return nil, nil, err
	}
	r := &report.MeterRead{File: in.Path, Run: run, Bridged: in.Bridge, Settings: &b.Records.Settings}
	end, ended := ledger.EndOf(b.Records, run)
	options.From = exact.Some(run.Start)
	if r.Ended = ended; ended {
		options.To = exact.Some(end)
	}
	if r.Log, r.About, err = intake.ReadLog(in.Log, options); err != nil {
		return nil, nil, err
	}
	// The join takes a log to its last sample, too, where nothing says when the run ended.
	if !ended {
		end = r.Log.Last()
	}
	r.KWh, r.Solar = r.Log.Energy(run.Start, end), r.Log.SolarEnergy(run.Start, end)
	// Have is what the file holds under the lock, which may be more than was seen above.
	text := func(have []byte) ([]byte, error) {
		if have != nil && !in.Replace {
			return nil, there // nobody could read it
		}
		return folder.PrintLog(r.Log, b.Records.Settings.Zone), nil
	}
	return &Draft{File: &File{name, text}, After: report.Remarks(r.Words()...), Odd: oddLog(b.Records, r, end)}, r, nil
}

// oddLog says which figures of a run are likely to be slips by its log. A run with a
// metered total goes by that.
func oddLog(rec *ledger.Records, r *report.MeterRead, end time.Time) []string {
	if r.Run.KWh.Given() {
		return nil
	}
	logged := *r.Run
	logged.KWh, logged.End = exact.Some(r.KWh.Round(energy.KWhPlaces, exact.HalfAway)), exact.Some(end)
	return report.ImplausibleChanges(rec, &ledger.Records{Runs: []ledger.Run{*r.Run}}, &ledger.Records{Runs: []ledger.Run{logged}})
}

// options say how the log is read.
func (in *MeterIn) options(zone *time.Location) (o intake.LogOptions, err error) {
	o = intake.LogOptions{Bridge: in.Bridge, TimeColumn: in.Time, ValueColumn: in.Value, SolarColumn: in.Solar, Progress: in.Progress}
	var bad Wrongs
	o.Zone = bad.zone(in.Zone, zone)
	if in.Unit != "" {
		o.Unit, err = exact.ParseUnit(in.Unit)
		bad.read("unit", err, "W, kW, Wh or kWh")
	}
	if in.MaxGap != "" {
		o.MaxGap, err = exact.ParseDuration(in.MaxGap)
		bad.read("max-gap", err, "write it as 10m or 1h30m")
	}
	if in.RestartAt != "" {
		n, err := exact.ParseNumber(in.RestartAt)
		if err != nil || n.Sign() <= 0 {
			err = fmt.Errorf("%s is not a reading above 0", quote(in.RestartAt))
		}
		bad.read("restarts-at", err, "write it in the column's unit, such as 1000")
		o.Modulus = exact.Some(n)
	}
	return o, bad.Err()
}

// RunLog finds a run by its name, and the log that it has, or nil.
func RunLog(rec *ledger.Records, name string) (*ledger.Run, *energy.Log, error) {
	i := slices.IndexFunc(rec.Runs, func(r ledger.Run) bool { return r.ID == name })
	if i < 0 {
		return nil, nil, notListed("there is no run called "+quote(name), "", advice.List("run"))
	}
	return &rec.Runs[i], rec.Meters[name], nil
}
