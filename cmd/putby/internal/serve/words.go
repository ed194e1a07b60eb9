package serve

import (
	"net/url"
	"regexp"
	"strings"

	"putby/cmd/putby/internal/page"
)

// flag is an option of a command, in a message.
var flag = regexp.MustCompile(`--([a-z]+(?:-[a-z]+)*)`)

// fieldNames are what forms call options that have another name there.
var fieldNames = map[string]string{"kwh": "kWh", "phase": "phases", "at": "time", "dry": "dry weights", "wet": "wet weights", "more": "more time", "with": "with"}

// listHint sends people to a list of the command line.
var listHint = regexp.MustCompile(`putby (\w+) list,? (?:which )?shows what there is`)

// commands are the commands that have a form, and what a message calls it.
var commands = strings.NewReplacer(
	`putby start "`, `write "`, `putby pack add "`, `write "`,
	"putby pack add ", "write ", "putby start", "Start", "putby finish", "Finish", "putby pack add", "Pack",
	"putby take", "Take out", "putby freeze", "Freeze", "putby receipt add", "Receipt", "putby run add", runForm.title,
)

// inForm says a message of a command in the words of the forms.
func inForm(text string) string {
	text = listHint.ReplaceAllString(text, "choose a $1 that is offered, or add it first")
	return flag.ReplaceAllStringFunc(commands.Replace(text), func(found string) string {
		name := strings.TrimPrefix(found, "--")
		if field := fieldNames[name]; field != "" {
			return field
		}
		return strings.ReplaceAll(name, "-", " ")
	})
}

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
			for _, pack := range words[2:] {
				if strings.HasPrefix(pack, "--") {
					break
				}
				list = append(list, page.Doing{To: "/labels/" + url.PathEscape(pack), Label: "Print the labels of " + pack})
			}
		}
	}
	return list
}
