package manual

// A Page is what is known of one command, or of a topic.
type Page struct {
	Topic    bool     // a topic, which no command is: section 7 of the manual
	Name     string   // such as "putby receipt add"
	Short    string   // what it does in a few words
	Text     string   // what it does
	Usage    []string // how it is written
	Examples string   // lines of a shell
	Commands []Group  // commands below it
	Flags    []Entry  // its own
	Global   []Entry  // of every command
	Statuses []Entry  // exit statuses
	See      []string // pages to read too, by their names
}

// A Group is a list of things under a title.
type Group struct {
	Title   string
	Entries []Entry
}

// An Entry is a thing and what it means.
type Entry struct{ Term, Text string }

// section is that of the manual.
func (p *Page) section() string {
	if p.Topic {
		return "7"
	}
	return "1"
}

// sections are the parts of a page after its text, in order.
func (p *Page) sections() []section {
	list := []section{{title: "Usage", lines: p.Usage}, {title: "Examples", lines: splitLines(p.Examples)}}
	for _, g := range p.Commands {
		list = append(list, section{title: g.Title, entries: g.Entries})
	}
	return append(list, section{title: "Flags", entries: p.Flags}, section{title: "Flags of every command", entries: p.Global},
		section{title: "Exit status", entries: p.Statuses})
}

// A section is a titled part: lines as they are, or entries.
type section struct {
	title   string
	lines   []string
	entries []Entry
}

func (s section) empty() bool { return len(s.lines) == 0 && len(s.entries) == 0 }
