package manual

import "strings"

// widthOfPage is of lines that stay as they are: man sets a page of 80 columns in
// by 7.
const widthOfPage = 71

// Roff writes a page in the language of man(7). Source names the program and its
// version.
func Roff(p Page, source string) string {
	w := &roff{}
	w.macro("TH", strings.ToUpper(pageName(p.Name)), p.section(), "", source, "Manual of putby")
	w.heading("Name")
	w.text(pageName(p.Name) + " - " + p.Short)
	if len(p.Usage) > 0 {
		w.synopsis(p.Usage)
	}
	w.heading("Description")
	w.body(p.Text)
	for _, s := range p.sections()[1:] { // the first is the synopsis
		if !s.empty() {
			w.section(s)
		}
	}
	if len(p.See) > 0 {
		w.heading("See also")
		names := make([]string, len(p.See))
		for i, name := range p.See {
			names[i] = pageName(name) + "(1)"
		}
		w.text(strings.Join(names, ", "))
	}
	return w.String()
}

// FileName is the name of the page's file: that of "putby receipt add" is
// putby-receipt-add.1.
func (p *Page) FileName() string { return pageName(p.Name) + "." + p.section() }

func pageName(name string) string { return strings.ReplaceAll(name, " ", "-") }

// roff writes macros and text.
type roff struct{ strings.Builder }

func (w *roff) macro(name string, args ...string) {
	w.WriteString("." + name)
	for _, arg := range args {
		w.WriteString(` "` + strings.ReplaceAll(escape(arg), `"`, `\(dq`) + `"`)
	}
	w.WriteByte('\n')
}

func (w *roff) heading(title string) { w.macro("SH", strings.ToUpper(title)) }

// text writes a line of text, which may begin with what would be a macro.
func (w *roff) text(line string) {
	if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
		w.WriteString(`\&`)
	}
	w.WriteString(escape(line) + "\n")
}

// escape writes text so that it is printed as it is.
func escape(s string) string {
	return strings.NewReplacer(`\`, `\(rs`, "-", `\-`, "~", `\(ti`, "^", `\(ha`, "`", `\(ga`, "'", `\(aq`).Replace(s)
}

func (w *roff) synopsis(usage []string) {
	w.heading("Synopsis")
	for i, line := range usage {
		if i > 0 {
			w.macro("br")
		}
		w.text(line)
	}
}

func (w *roff) body(text string) {
	for i, p := range paragraphs(text) {
		switch p.kind {
		case verbatim:
			w.verbatim(p.at(widthOfPage))
			continue
		case heading:
			w.heading(p.prose())
			continue
		case item:
			w.macro("IP", "-", "2")
			w.text(p.prose())
			continue
		}
		if i > 0 {
			w.macro("PP")
		}
		for _, line := range p.lines {
			w.text(line)
		}
	}
}

// verbatim writes lines as they are.
func (w *roff) verbatim(lines []string) {
	w.macro("PP")
	w.macro("nf")
	for _, line := range lines {
		w.text(line)
	}
	w.macro("fi")
}

func (w *roff) section(s section) {
	w.heading(s.title)
	if len(s.lines) > 0 {
		w.verbatim(s.lines)
	}
	for _, e := range s.entries {
		w.macro("TP")
		w.text(strings.TrimSpace(e.Term))
		w.text(e.Text)
	}
}
