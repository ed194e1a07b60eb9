package main

import (
	"strings"

	"putby/ledger/advice"
)

// commands words what is advised as commands that can be typed, and their parts as
// flags.
type commands struct{}

// flagsOf are parts that an act's command calls otherwise.
var flagsOf = map[advice.Act]map[string]string{
	advice.ImportTariff: {"tariff": "as"},
}

// Say is the command of an act; of none, its flags alone.
func (commands) Say(d advice.Doing) string {
	var words []string
	if d.Act != "" {
		words = append(words, "putby", string(d.Act))
	}
	for _, of := range d.Of {
		words = append(words, shellWord(of))
	}
	for _, p := range d.Parts {
		switch name := strings.ReplaceAll(p.Name, "_", "-"); {
		case d.Act == advice.Edit:
			words = append(words, shellWord(p.Name+"="+p.Value))
		case d.Act == advice.Take && name == "reason":
			words = append(words, "--"+p.Value)
		case flagsOf[d.Act][name] != "":
			words = append(words, "--"+flagsOf[d.Act][name], shellWord(p.Value))
		case p.Value == "":
			words = append(words, "--"+name)
		default:
			words = append(words, "--"+name, shellWord(p.Value))
		}
	}
	if d.Act == advice.Labels { // a sheet is printed from a file
		words = append(words, "--format html -o labels.html")
	}
	return strings.Join(words, " ")
}

// shellWord is a text as one word of a command line: as it is, else in double quotes,
// which all shells know, else in single ones.
func shellWord(text string) string {
	switch {
	case text != "" && !strings.ContainsAny(text, shellMarks):
		return text
	case !strings.ContainsAny(text, "\"\\$`!\n"):
		return `"` + text + `"`
	}
	return singleQuoted(text)
}

// shellMarks are characters that mean something to a shell.
const shellMarks = " \t\n\"'\\$&|;<>()*?#`~!{}[]"

func singleQuoted(text string) string { return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'" }
