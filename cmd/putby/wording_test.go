package main

import (
	"go/ast"
	"go/token"
	"slices"
	"strconv"
	"strings"
	"testing"

	"putby/ledger/advice"
)

// acts are those that package advice has names for.
func acts(t *testing.T) (list []advice.Act) {
	for _, s := range sources(t) {
		if s.dir != "ledger/advice" || s.test {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			v, ok := n.(*ast.ValueSpec)
			if !ok || len(v.Values) != 1 || v.Type == nil {
				return true
			}
			if text, ok := v.Values[0].(*ast.BasicLit); ok && text.Kind == token.STRING {
				act, err := strconv.Unquote(text.Value)
				if err != nil {
					t.Fatal(err)
				}
				list = append(list, advice.Act(act))
			}
			return true
		})
	}
	return list
}

// Every act that is advised is a command that there is.
func TestActsAreCommands(t *testing.T) {
	list := acts(t)
	if len(list) < 30 {
		t.Fatalf("only %q are found", list)
	}
	root := newRootCommand(new(app))
	root.InitDefaultHelpCmd()
	for _, act := range append(list, advice.List("food"), advice.Show("run")) {
		words := strings.Fields(string(act))
		found, rest, err := root.Find(words)
		if err != nil || found == root || len(rest) > 0 {
			t.Errorf("%q is no command", act)
		}
	}
}

// A command can be typed as it is told: a shell takes it apart into what was meant.
func TestWordedCommands(t *testing.T) {
	for want, d := range map[string]advice.Doing{
		"putby finish r4 --kwh 17.4 --as-usual":                 advice.Do(advice.Finish, "r4").With("kwh", "17.4").With("as-usual"),
		`putby start "2 kg leeks" "1 kg peas"`:                  advice.Do(advice.Start, "2 kg leeks", "1 kg peas"),
		`putby edit load @3 "dry=610 g"`:                        advice.Do(advice.Edit, "load", "@3").With("dry", "610 g"),
		"putby tariff import FILE --as spot":                    advice.Do(advice.ImportTariff, "FILE").With("tariff", "spot"),
		`putby import receipts "old (2).csv"`:                   advice.Do(advice.Import, "receipts", "old (2).csv"),
		`putby price add --shop 'Joe'\''s "$1" shop'`:           advice.Do(advice.AddPrice).With("shop", `Joe's "$1" shop`),
		`putby labels c47-a c47-b --format html -o labels.html`: advice.Do(advice.Labels, "c47-a", "c47-b"),
		`--phase "primary 22h"`:                                 advice.Only("phase", "primary 22h"),
		"putby edit setting tariff grid":                        advice.Do(advice.Edit, "setting", "tariff", "grid"),
	} {
		got := commands{}.Say(d)
		if got != want {
			t.Errorf("%+v is %s, want %s", d, got, want)
		}
		typed := d.Of
		for _, p := range d.Parts {
			typed = append(slices.Clip(typed), strings.Fields(p.Value)...)
		}
		for _, text := range typed {
			if !strings.Contains(strings.Join(shellSplit(got), " "), text) {
				t.Errorf("a shell does not read %q in %s", text, got)
			}
		}
	}
}

// shellSplit takes a line apart as a POSIX shell does, which knows no escape within
// single quotes.
func shellSplit(line string) (words []string) {
	var word strings.Builder
	quote := rune(0)
	escaped, begun := false, false
	for _, r := range line {
		switch {
		case escaped:
			word.WriteRune(r)
			escaped = false
		case r == '\\' && quote != '\'':
			escaped, begun = true, true
		case quote != 0 && r == quote:
			quote = 0
		case quote == 0 && (r == '"' || r == '\''):
			quote, begun = r, true
		case quote == 0 && r == ' ':
			if begun {
				words = append(words, word.String())
			}
			word.Reset()
			begun = false
		default:
			word.WriteRune(r)
			begun = true
		}
	}
	return append(words, word.String())
}
