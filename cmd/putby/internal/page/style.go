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

// A sheet is the styles of a page: they stand in the page, and its content
// policy lets nothing else style it.
type sheet struct {
	CSS   template.CSS
	Hash  string // of the CSS, as the policy names it
	fonts string // where the typeface may come from
}

// newSheet puts styles together, behind the typeface if there is one.
func newSheet(face string, styles ...string) sheet {
	css := face + strings.Join(styles, "")
	sum := sha256.Sum256([]byte(css))
	return sheet{template.CSS(css), "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'", "data:"}
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
	sum := sha256.Sum256(font)
	return FontPath + file + "-" + hex.EncodeToString(sum[:8]) + ".woff2"
}

// FontPath is where a server has the typeface.
const FontPath = "/font/"

// Fonts are the files of the typeface by the path that served pages ask for.
var Fonts = sync.OnceValue(func() map[string][]byte {
	fonts := map[string][]byte{}
	for _, cut := range cuts {
		font := look("font/Vollkorn-" + cut.file + ".woff2")
		fonts[served(cut.file, font)] = font
	}
	return fonts
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
			var all []string
			for _, name := range styles {
				all = append(all, string(look(name)))
			}
			s := newSheet(faces[is](), all...)
			if is {
				s.fonts = "'self'"
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

// policy is the content policy of a page: no script, no network, no styles but
// its own. Forms may be sent only where form says.
func (s sheet) policy(form string) string {
	return "default-src 'none'; style-src " + s.Hash + "; font-src " + s.fonts + "; img-src data:; base-uri 'none'; form-action " + form
}
