package serve

import (
	"regexp"
	"strings"
	"sync"

	"putby/cmd/putby/internal/page"
	"putby/ledger/report"
)

// flag is an option of a command, in a message.
var flag = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`--([a-z]+(?:-[a-z]+)*)`) })

// A hint is what commands advise that forms say in another way.
type hint struct {
	command *regexp.Regexp
	form    string
}

// hints are compiled when a form first asks: no other command waits for them.
var hints = sync.OnceValue(func() []hint {
	return []hint{
		{regexp.MustCompile(`putby (\w+) list,? (?:which )?shows what there is`), "choose a $1 that is offered, or add it first"},
		{regexp.MustCompile(`add it \(putby food add, putby supply add\), which says`), "add it with the form New food, which says"},
		{regexp.MustCompile(`If it was the regular price: putby price add --date .*`), "If it was the regular price, note it with the form Price seen."},
		{regexp.MustCompile(`: putby (?:wattage add|tariff add|edit setting tariff \S+)`), ""},
		{regexp.MustCompile(`putby undo takes it back`), "Undo takes it back"},
		{regexp.MustCompile(`To record it: putby edit food \S+ frozen_days=DAYS`), "To record it, edit the food's frozen days."},
		{regexp.MustCompile(`putby phase add --run \S+ adds a phase to it`), "add a phase to it under Records"},
		{regexp.MustCompile(`putby remove price \S+ last takes one out`), "take one of them out under Records"},
		{regexp.MustCompile(`putby remove (\w+ \S+)`), "$1"},
		{regexp.MustCompile(`putby edit receipt (\S+) price=[^;\s]+`), "correct it"},
		{regexp.MustCompile(`putby run show \S+ lists them`), "the list of changes shows them"},
		{regexp.MustCompile(`putby changes lists them; one that is undone already can be had back with putby redo`), "the list shows them; one that is undone can be done again"},
		{regexp.MustCompile(`putby stocktake --sheet lists what is`), "the list shows what is"},
		{regexp.MustCompile(`putby onhand (?:shows|lists) (?:what there is|what else there is|the packs)`), "the larder shows what there is"},
	}
})

// commands are the commands that have a form, and what a message calls it.
var commands = strings.NewReplacer(
	`putby start "`, `write "`, `putby pack add "`, `write "`,
	"putby pack add ", "write ", "putby start", "Start", "putby finish", "Finish", "putby pack add", "Pack",
	"putby take", "Take out", "putby freeze", "Freeze", "putby receipt add", "Receipt", "putby run add", runForm.title,
	"putby price add", "Price seen", "putby batch add", "Kitchen", "putby food add", "New food", "putby stocktake", "Stocktake",
)

// quoted is what a message repeats as it was typed, or as a thing is called.
var quoted = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`"(?:[^"\\]|\\.)*"`) })

// inForm says a message of a command in the words of the forms. What it quotes stays as
// it is.
func inForm(text string) string {
	var kept []string
	text = quoted().ReplaceAllStringFunc(strings.TrimSpace(text), func(found string) string {
		kept = append(kept, found)
		return stands(len(kept))
	})
	for _, h := range hints() {
		text = h.command.ReplaceAllString(text, h.form)
	}
	text = strings.ReplaceAll(text, report.Tab, "; ")
	text = flag().ReplaceAllStringFunc(commands.Replace(text), func(found string) string {
		name := strings.TrimPrefix(found, "--")
		if field := fieldNames[name]; field != "" {
			return field
		}
		return strings.ReplaceAll(name, "-", " ")
	})
	for i, q := range kept {
		text = strings.Replace(text, stands(i+1), q, 1)
	}
	return text
}

// stands stands for the nth thing that a message quotes: a quote and a character that
// nobody types.
func stands(n int) string { return `"` + string(rune(0xF0000+n)) }

// nextLinks lead to the forms and sheets that commands stand for; a command
// without one is left out.
func nextLinks(next []string) (list []page.Doing) {
	for _, command := range next {
		words := strings.Fields(command)
		if len(words) < 2 {
			continue
		}
		switch words[1] {
		case finishForm.path:
			list = append(list, page.Doing{To: "/" + finishForm.path, Label: finishForm.title})
		case packForm.path:
			list = append(list, page.Doing{To: "/" + packForm.path, Label: "Pack it"})
		case "labels":
			packs, _, _ := strings.Cut(strings.Join(words[2:], " "), " --")
			list = append(list, page.Doing{To: "/labels/" + strings.ReplaceAll(packs, " ", ","), Label: "Print the labels"})
		}
	}
	return list
}
