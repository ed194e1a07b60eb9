package page

import (
	"html/template"
	"net/url"
	"strings"
)

// A sentence may have links in it: where it is worded a link is written between marks
// that Unicode has for notes within a text, and that nobody types; where a page shows it
// it is one.
const (
	linkBegins = "\uFFF9"
	linkLeads  = "\uFFFA"
	linkEnds   = "\uFFFB"
)

// Linked is a link in a sentence, to a page of the server.
func Linked(label string, to *url.URL) string {
	return linkBegins + label + linkLeads + to.String() + linkEnds
}

// cutLink cuts a text at its first link. What is not whole, or leads elsewhere, is none.
func cutLink(text string) (before, label, to, after string, found bool) {
	before, rest, begins := strings.Cut(text, linkBegins)
	link, after, ends := strings.Cut(rest, linkEnds)
	label, to, leads := strings.Cut(link, linkLeads)
	local := strings.HasPrefix(to, "/") && !strings.HasPrefix(to, "//") && !strings.Contains(to, `\`)
	return before, label, to, after, begins && ends && leads && local
}

// linked is a sentence with its links.
func linked(text string) template.HTML {
	var b strings.Builder
	for {
		before, label, to, after, found := cutLink(text)
		if !found {
			b.WriteString(template.HTMLEscapeString(text))
			return template.HTML(b.String())
		}
		b.WriteString(template.HTMLEscapeString(before) + `<a href="` + template.HTMLEscapeString(to) + `">` + template.HTMLEscapeString(label) + "</a>")
		text = after
	}
}

// Unlinked is a sentence without its links.
func Unlinked(text string) string {
	before, label, _, after, found := cutLink(text)
	if !found {
		return text
	}
	return before + label + Unlinked(after)
}
