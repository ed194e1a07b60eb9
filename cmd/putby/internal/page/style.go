package page

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
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
	CSS  template.CSS
	Hash string // of the CSS, as the policy names it
}

// newSheet puts styles together, behind the typeface.
func newSheet(styles ...string) sheet {
	css := typeface() + strings.Join(styles, "")
	sum := sha256.Sum256([]byte(css))
	return sheet{template.CSS(css), "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"}
}

// typeface declares the typeface, which the page holds itself: it is to look
// the same wherever it is opened, and to ask nobody for anything.
var typeface = sync.OnceValue(func() string {
	var b strings.Builder
	for _, cut := range []struct{ file, weight string }{{"Regular", "400"}, {"SemiBold", "600"}} {
		fmt.Fprintf(&b, "@font-face{font-family:Vollkorn;font-weight:%s;src:url(data:font/woff2;base64,%s) format(\"woff2\")}\n",
			cut.weight, base64.StdEncoding.EncodeToString(look("font/Vollkorn-"+cut.file+".woff2")))
	}
	return b.String()
})

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
	return "default-src 'none'; style-src " + s.Hash + "; font-src data:; img-src data:; base-uri 'none'; form-action " + form
}
