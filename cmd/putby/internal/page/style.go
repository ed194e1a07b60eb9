package page

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"html/template"
	"strings"
	"sync"
)

//go:embed *.css font/*.woff2
var looks embed.FS

// A sheet is the styles of a page. Those of a file stand in it, and its content
// policy lets nothing else style it; those of a served page have a file of their own.
type sheet struct {
	CSS   template.CSS
	Path  string // where a server has it; empty: it stands in the page
	from  string // where styles may come from, as the policy says it
	fonts string // and the typeface
}

// newSheet makes a sheet of styles, behind the typeface if there is one.
func newSheet(face, styles string) sheet {
	css := face + compact(styles)
	return sheet{CSS: template.CSS(css), from: policyHash(css), fonts: "data:"}
}

// policyHash is what a content policy calls a script or styles that stand in a page.
func policyHash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// closer takes out the blanks that styles do without.
var closer = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer(" { ", "{", "; } ", "}", " } ", "}", "} ", "}", "; ", ";", ": ", ":", ", ", ",")
})

// compact writes styles without comments and with few blanks.
func compact(css string) string {
	var b strings.Builder
	for css != "" {
		kept, comment, _ := strings.Cut(css, "/*")
		b.WriteString(kept)
		_, css, _ = strings.Cut(comment, "*/")
	}
	return closer().Replace(strings.Join(strings.Fields(b.String()), " ") + " ")
}

// cuts are the cuts of the typeface, by weight.
var cuts = []struct{ file, weight string }{{"Regular", "400"}, {"SemiBold", "600"}}

// A face says where the typeface comes from.
type face func(file string, font []byte) string

// within has a page hold the typeface itself: it is to look the same wherever it
// is opened, and to ask nobody for anything.
func within(_ string, font []byte) string {
	return "data:font/woff2;base64," + base64.StdEncoding.EncodeToString(font)
}

// served has a browser fetch the typeface from the server, once: another font has
// another name.
func served(file string, font []byte) string {
	return "/font/" + file + "-" + mark(font) + ".woff2"
}

// mark is the part of a file's name that tells what is in it.
func mark(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:8])
}

// A File is what served pages ask for beside themselves. Its name never stands for
// anything else, so that a browser asks once.
type File struct {
	Type string
	Data []byte
}

// Files are those files by their path: the typeface, and the styles.
var Files = sync.OnceValue(func() map[string]File {
	files := map[string]File{}
	for _, cut := range cuts {
		font := look("font/Vollkorn-" + cut.file + ".woff2")
		files[served(cut.file, font)] = File{"font/woff2", font}
	}
	for _, s := range []sheet{pageSheet(true), formSheet(true)} {
		files[s.Path] = File{"text/css; charset=utf-8", []byte(s.CSS)}
	}
	return files
})

// typeface declares the typeface, from where f says.
func typeface(f face) string {
	var b strings.Builder
	for _, cut := range cuts {
		fmt.Fprintf(&b, "@font-face{font-family:Vollkorn;font-weight:%s;font-display:swap;src:url(%s) format(\"woff2\")}\n",
			cut.weight, f(cut.file, look("font/Vollkorn-"+cut.file+".woff2")))
	}
	return b.String()
}

// faces are the typeface for pages that are served, and for those that are files.
var faces = map[bool]func() string{
	true:  sync.OnceValue(func() string { return typeface(served) }),
	false: sync.OnceValue(func() string { return typeface(within) }),
}

// sheetOf are the looks of a kind of page, as a file and as it is served.
func sheetOf(styles ...string) func(served bool) sheet {
	made := map[bool]func() sheet{}
	for _, is := range []bool{true, false} {
		made[is] = sync.OnceValue(func() sheet {
			s := newSheet(faces[is](), looksOf(styles...))
			if is {
				// The path has a hash of what is in the file, so a browser may keep it for good.
				s.Path, s.from, s.fonts = "/style/"+mark([]byte(s.CSS))+".css", "'self'", "'self'"
			}
			return s
		})
	}
	return func(served bool) sheet { return made[served]() }
}

// look returns one of the embedded files.
func look(name string) []byte {
	data, err := looks.ReadFile(name)
	if err != nil {
		panic(err) // the file is part of the program
	}
	return data
}

// looksOf are embedded styles, one after the other.
func looksOf(names ...string) (styles string) {
	for _, name := range names {
		styles += string(look(name))
	}
	return styles
}

// policy is the content policy of a page: no script, no network, no styles but
// its own. Forms may be sent only where form says.
func (s sheet) policy(form string) string {
	return "default-src 'none'; style-src " + s.from + "; font-src " + s.fonts + "; img-src data:; base-uri 'none'; form-action " + form
}
