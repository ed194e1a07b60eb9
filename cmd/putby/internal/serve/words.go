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

// commands are the commands that have a form, and what a message calls it.
var commands = strings.NewReplacer(
	`putby start "`, `write "`, `putby pack add "`, `write "`,
	"putby pack add ", "write ", "putby start", "Start", "putby finish", "Finish", "putby pack add", "Pack",
	"putby take", "Take out", "putby freeze", "Freeze", "putby receipt add", "Receipt", "putby run add", runForm.title,
)

// inForm says a message of a command in the words of the forms.
func inForm(text string) string {
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
func nextLinks(next []string) (list []page.Link) {
	for _, command := range next {
		words := strings.Fields(command)
		if len(words) < 2 {
			continue
		}
		switch words[1] {
		case finishForm.path:
			list = append(list, page.Link{To: "/" + finishForm.path, Name: finishForm.title})
		case packForm.path:
			list = append(list, page.Link{To: "/" + packForm.path, Name: "Pack it"})
		case "labels":
			for _, pack := range words[2:] {
				if strings.HasPrefix(pack, "--") {
					break
				}
				list = append(list, page.Link{To: "/labels/" + url.PathEscape(pack), Name: "Print the labels of " + pack})
			}
		}
	}
	return list
}
