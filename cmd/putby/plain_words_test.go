package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/manual"
	"putby/ledger/ledgertest"
)

// otherWords are words that a person does not meet here, since another word is
// used for the same thing everywhere, or a plainer one.
var otherWords = []struct{ pattern, say string }{
	{`reckon\w*`, "work out, estimate, expect"},
	{`doubt\w*`, "note, or say what is not known"},
	{`power`, "electricity (watts, where a log is meant)"},
	{`cycles?`, "run (cycle is for the machine's life)"},
	{`items?`, "food, or what it is"},
	{`reconstitut\w*`, "makes"},
	{`forecast\w*|predict\w*|guess\w*|project(ed|ion)s?`, "estimate"},
	{`wear off|stays? away|pack by pack|lasts? (one )?adds?`, "wear left, not returned, agrees with the count of packs"},
	{`(hold|lack)s? (it at|-?\d+ containers)`, "say why not more"},
	{`due`, "to be used by, best-by"},
	{`store price|shop price`, "shelf price"},
}

// allowedWords are where such a word stays, and why.
var allowedWords = []struct{ file, text, why string }{
	{"", `\bif in doubt\b|\bin doubt\b`, "the usual wording of food safety: in doubt throw it out"},
	{"", `\b(power cut|power meter|reactive power|purchasing power)\b`, "no other word is usual"},
	{"", `--[\w-]*(cycle|item)[\w-]*( ITEM| CYCLES)?|\bTEXT=ITEM\b|\b(item|cycles)=`, "names of flags, and of columns where they are typed"},
	{"", `column item\b|item,price|item,as,price|columns (are )?item|columns pack or item`, "the column of the files"},
	{"", `(life|expected life|expected to run|lasts?|likely to last) (of )?(%d |1 |\d+ )?cycles?|expected (life, )?cycles?|cycles? (done|left|of .*life)|no (expected )?cycle of|supplies and cycles left|the cycles left on|how many cycles it is|\bcycles. that it is expected|\bcycles that it is expected|as many cycles as it is expected to last`, "the machine's life is counted in cycles"},
	{"ledger/intake/", `.*`, "words that other programs' files are headed with"},
	{"ledger/nutrients/", `.*`, "words of the open table of foods"},
	{"energy/log.go", `power`, "what a meter's log holds, in watts"},
	{"help of putby run meter", `power`, "what a meter's log holds, in watts"},
	{"cmd/putby/run_meter.go", `power`, "what a meter's log holds, in watts"},
	{"ledger/report/explain.go", `a cycle of`, "the machine's life is counted in cycles"},
	{"cmd/putby/testdata/golden/", `cycles? o|\d  cycles\b|^ +cycles +cycles +wear$`, "the machine's life, where its wear is traced"},
	{"cmd/putby/internal/page/", `\{\{.*?\}\}|class="[^"]*"`, "not seen"},
	{"cmd/putby/internal/manual/topics/", `\(JSON: \w+\)|map,name,kind,item`, "names of columns"},
	{"cmd/putby/internal/entry/pack_asks.go", `^ run item .*`, "columns"},
	{"pricing/breakeven.go", `^Cycles$`, "a field"},
}

// TestPlainWords finds no word in what people read, for which another is used:
// in what the program may say, in its pages, in its help, in README and in the
// reports on the ledgers of testdata. Keys of JSON and CSV are no such texts.
func TestPlainWords(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("it reads all that the program may say")
	}
	words, allowed := make([]*regexp.Regexp, len(otherWords)), make([]*regexp.Regexp, len(allowedWords))
	for i, w := range otherWords {
		words[i] = regexp.MustCompile(`(?i)\b(` + w.pattern + `)\b`)
	}
	for i, a := range allowedWords {
		allowed[i] = regexp.MustCompile(`(?i)` + a.text)
	}
	used := make([]bool, len(allowed))
	for _, s := range saidTexts(t) {
		for i, w := range words {
			if !w.MatchString(s.text) {
				continue
			}
			rest := s.text
			for j, a := range allowed {
				if strings.HasPrefix(s.file, allowedWords[j].file) && a.MatchString(rest) {
					rest, used[j] = a.ReplaceAllString(rest, ""), true
				}
			}
			if found := w.FindString(rest); found != "" {
				t.Errorf("%s:%d: %q in %q: say %s", s.file, s.line, found, s.text, otherWords[i].say)
			}
		}
	}
	for j, a := range allowedWords {
		if !used[j] {
			t.Errorf("no text needs this leave: %q in %q", a.text, a.file)
		}
	}
}

// codeWords are in no name and no comment, since plainer ones say the same.
var codeWords = regexp.MustCompile(`(?i)\b(reckon\w*|doubt\w*|comes? about|in vain|(for|by|of) who)\b`)

// TestPlainCode finds none of them in what is not a test.
func TestPlainCode(t *testing.T) {
	hump := regexp.MustCompile(`([a-z0-9])([A-Z])`)
	sourceFiles(t, func(file, path string) {
		files := token.NewFileSet()
		f, err := parser.ParseFile(files, path, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		look := func(at token.Pos, text string) {
			if found := codeWords.FindString(text); found != "" {
				t.Errorf("%s:%d: %q: use a plainer word", file, files.Position(at).Line, found)
			}
		}
		look(f.Pos(), strings.ReplaceAll(strings.TrimSuffix(filepath.Base(path), ".go"), "_", " "))
		for _, c := range f.Comments {
			look(c.Pos(), strings.Join(strings.Fields(c.Text()), " "))
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				look(id.Pos(), hump.ReplaceAllString(id.Name, "$1 $2"))
			}
			return true
		})
	})
}

// sourceFiles calls give for each Go file of the program and its libraries, tests
// left out.
func sourceFiles(t *testing.T, give func(file, path string)) {
	t.Helper()
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
			give(strings.TrimPrefix(filepath.ToSlash(path), "../../"), path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A saidText is a line that a person may see.
type saidText struct {
	file string
	line int
	text string
}

func saidTexts(t *testing.T) (list []saidText) {
	t.Helper()
	add := func(file string, line int, text string) {
		for i, one := range strings.Split(text, "\n") {
			list = append(list, saidText{file, line + i, one})
		}
	}
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		file := filepath.ToSlash(strings.TrimPrefix(path, filepath.Join("..", "..")+string(filepath.Separator)))
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == ".git" || d.Name() == "ledgertest" || file == "testdata"):
			return fs.SkipDir
		case strings.HasSuffix(file, ".go") && !strings.HasSuffix(file, "_test.go"):
			return literals(path, func(line int, text string) { add(file, line, text) })
		case strings.HasSuffix(file, ".html") && strings.Contains(file, "/page/"), strings.Contains(file, "/topics/"), strings.Contains(file, "/golden/") && strings.HasSuffix(file, ".txt"), file == "README.md":
			text, err := os.ReadFile(path)
			add(file, 1, string(text))
			return err
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	everyCommand(newRootCommand(&app{environment: environment{getenv: func(string) string { return "" }}}), func(cmd *cobra.Command) {
		add("help of "+cmd.CommandPath(), 1, manual.Help(pageOf(cmd), 100))
	})
	return list
}

// literals gives the texts in a Go file that may be sentences: not what tags and
// imports have, nor single words in small letters, which are keys and names.
func literals(path string, give func(line int, text string)) error {
	files := token.NewFileSet()
	f, err := parser.ParseFile(files, path, nil, 0)
	if err != nil {
		return err
	}
	key := regexp.MustCompile(`^[a-z0-9_.-]*$`)
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.KeyValueExpr: // a title, though one word, is read
			name, _ := n.Key.(*ast.Ident)
			if lit, ok := n.Value.(*ast.BasicLit); ok && name != nil && (name.Name == "Title" || name.Name == "Short" || name.Name == "Help") {
				text, _ := strconv.Unquote(lit.Value)
				give(files.Position(lit.Pos()).Line, text)
			}
		case *ast.BasicLit:
			if text, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING && !key.MatchString(text) {
				give(files.Position(n.Pos()).Line, text)
			}
		}
		return true
	})
	return nil
}
