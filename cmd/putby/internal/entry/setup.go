package entry

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A SetupStep is a part of what a household tells before its first cost.
type SetupStep struct {
	Name string // machine, tariff, supplies or foods
	What string // for people
	Has  string // what is there already; "": nothing
}

// SetupSteps are the steps to the first cost, in order, with what the ledger has
// of each.
func SetupSteps(rec *ledger.Records) []SetupStep {
	return []SetupStep{
		{"machine", "the freeze-dryer", listed(ledger.Machines.In(rec))},
		{"tariff", "what a kWh costs", listed(ledger.Tariffs.In(rec))},
		{"supplies", "jars, bags, lids and absorbers in the house", listed(ledger.Supplies.In(rec))},
		{"foods", "the first foods", listed(ledger.Foods.In(rec))},
	}
}

// listed names a few things.
func listed(ids []string) string {
	const most = 6
	if n := len(ids) - most; n > 0 {
		return strings.Join(ids[:most], ", ") + fmt.Sprintf(" and %d more", n)
	}
	return strings.Join(ids, ", ")
}

// AfterSetup are the commands that a household wants once it is set up, as far
// as it is.
func AfterSetup(rec *ledger.Records) []string {
	var next []string
	say := func(act advice.Act, of ...string) string { return rec.Settings.Say(advice.Do(act, of...)) }
	for _, s := range SetupSteps(rec) {
		if s.Has == "" {
			next = append(next, say(advice.SetUp)+", for "+s.What)
			break
		}
	}
	food := "strawberries"
	if ids := ledger.Foods.In(rec); len(ids) > 0 {
		food = ids[0]
	}
	amount := "1 " + rec.Settings.ShowMass.String()
	return append(next,
		say(advice.AddReceipt)+", when you have been shopping",
		fmt.Sprintf("%s, when the machine is switched on, and %s when it is done", say(advice.Start, amount+" "+food), say(advice.Finish)),
		say(advice.AddPack)+", when the jars are full; then "+say(advice.Cost)+" says what a jar cost")
}

// A MachineIn is a freeze-dryer with what was paid for it, as a person types it.
type MachineIn struct {
	Cells map[string]string // of machines.csv
	Paid  string            // "": not said
	On    string            // the day on which it was bought
	Watts string            // as [ParseWatts] reads them; "": not known
}

// AddMachine makes a machine known, with its receipt and its usual watts.
func AddMachine(b *Base, in MachineIn) (*Draft, error) {
	id := in.Cells["machine"]
	d := NewRecord(b, ledger.MustKind("machine"), in.Cells)
	if in.Paid != "" {
		d.Rows = append(d.Rows, b.before("machine", id, "", in.Paid, b.At.Day(in.On), 0))
	} else {
		d.After = append(d.After, report.Remark{Words: "No wear is counted until its price is: " + b.Records.Settings.Say(advice.Do(advice.AddReceipt).With("machine", "1 "+id+" at PRICE").With("shop", "SHOP"))})
	}
	watts, err := ParseWatts(id, in.Watts)
	d.Rows = append(d.Rows, watts...)
	return d, err
}

// ParseWatts reads the usual watts of a machine's phases, such as "freezing 450,
// primary 700 W", into rows of wattage.csv.
func ParseWatts(machine, text string) ([]Row, error) {
	k := ledger.MustKind("wattage")
	var rows []Row
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ';' }) {
		words := strings.Fields(strings.ToLower(part))
		if n := len(words); n == 3 && (words[2] == "w" || words[2] == "watts") {
			words = words[:2]
		}
		if len(words) != 2 {
			return nil, typed(text, "write a phase and its watts, such as freezing 450, primary 700")
		}
		phase, ok := begunAlone(words[0], k.Column("phase").Words)
		if !ok {
			return nil, typed(text, quote(words[0])+" is no phase: "+strings.Join(k.Column("phase").Words, ", "))
		}
		n, err := exact.ParseNumber(strings.TrimSuffix(words[1], "w"))
		if err != nil || n.Sign() < 0 {
			return nil, typed(text, quote(words[1])+" is no number of watts")
		}
		rows = append(rows, Row{k, map[string]string{"machine": machine, "phase": phase, "watts": n.String()}})
	}
	return rows, nil
}
