package advice

import (
	"slices"
	"strconv"
	"strings"
)

// An Act is something that a person may do, by a command or by what does the same on a
// form or page.
type Act string

// The acts that are advised; those of every kind of record are [List] and [Show] too.
const (
	Start        Act = "start"
	Finish       Act = "finish"
	AddRun       Act = "run add"
	AddPhase     Act = "phase add"
	AddPack      Act = "pack add"
	Take         Act = "take"
	Freeze       Act = "freeze"
	AddDraw      Act = "draw add"
	AddReceipt   Act = "receipt add"
	AddPrice     Act = "price add"
	AddFood      Act = "food add"
	AddSupply    Act = "supply add"
	AddMachine   Act = "machine add"
	AddWattage   Act = "wattage add"
	AddTariff    Act = "tariff add"
	CheckTariff  Act = "tariff check"
	ImportTariff Act = "tariff import"
	Import       Act = "import"
	Stocktake    Act = "stocktake"
	Labels       Act = "labels"
	SetUp        Act = "setup"
	Begin        Act = "init"
	Edit         Act = "edit"
	Remove       Act = "remove"
	Undo         Act = "undo"
	Redo         Act = "redo"
	Changes      Act = "changes"

	OnHand  Act = "onhand"
	Cost    Act = "cost"
	Worth   Act = "worth"
	When    Act = "when"
	Month   Act = "month"
	Payback Act = "payback"
	Explain Act = "explain"
	Prove   Act = "prove"
	Help    Act = "help"
)

// List lists the records of a kind, which is named as in the ledger: "food".
func List(kind string) Act { return Act(kind + " list") }

// Show shows one record of a kind.
func Show(kind string) Act { return Act(kind + " show") }

// A Doing is an act that is advised: of what, and with which of its parts given. One
// without an act is its parts alone, where a sentence is about how a thing is said.
type Doing struct {
	Act   Act
	Of    []string // what it is of, each as it is typed: a run; a kind of record and its name; an amount and a food
	Parts []Part
}

// A Part of an act is one of its columns, or what else may be said of it.
type Part struct {
	Name    string
	Value   string // as it is typed; "": it is only named
	Example bool   // the value shows how it is typed, and is not advised
}

// Do is an act, of something.
func Do(act Act, of ...string) Doing { return Doing{Act: act, Of: of} }

// Only is a part alone.
func Only(name string, value ...string) Doing { return Doing{}.With(name, value...) }

// With is d with a part given, or only named.
func (d Doing) With(name string, value ...string) Doing {
	d.Parts = append(slices.Clip(d.Parts), Part{Name: name, Value: strings.Join(value, " ")})
	return d
}

// Such is d with an example of what a part may be.
func (d Doing) Such(name, example string) Doing {
	d.Parts = append(slices.Clip(d.Parts), Part{name, example, true})
	return d
}

// A Wording says how something is done. It is compared with others, so it is no
// function.
type Wording interface{ Say(Doing) string }

// Plain is a Wording by the names of acts and parts alone.
type Plain struct{}

// Say names the act, what it is of, and its parts.
func (Plain) Say(d Doing) string {
	words := strings.Fields(string(d.Act))
	add := func(text string) {
		if strings.Contains(text, " ") {
			text = strconv.Quote(text)
		}
		if text != "" {
			words = append(words, text)
		}
	}
	for _, of := range d.Of {
		add(of)
	}
	for _, p := range d.Parts {
		add(p.Name)
		add(p.Value)
	}
	return strings.Join(words, " ")
}

// After says what to try, each line of it one way: a line of the hint, and after it how
// that is done. Where there is more to do than the hint has lines, the rest are steps
// after its last, each in a line that begins with [Then]; without a hint each is a way.
func After(w Wording, hint string, ways []Doing) string {
	var lines []string
	if hint != "" {
		lines = strings.Split(hint, "\n")
	}
	hints := len(lines)
	for i, d := range ways {
		switch {
		case i < hints:
			lines[i] += ": " + w.Say(d)
		case hints > 0:
			lines = append(lines, Then+w.Say(d))
		default:
			lines = append(lines, w.Say(d))
		}
	}
	return strings.Join(lines, "\n")
}

// Then begins a line of [After] that is to be done after the one before, not in place of it.
const Then = "then "
