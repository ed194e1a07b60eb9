package main

import (
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// floors say what each package may import of ours, ground floor first
// (DEVELOPERS.md has them). A package that is not here does not belong.
var floors = map[string][]string{
	"pricing/exact":     {},
	"pricing/locale":    {"pricing/exact"},
	"pricing":           {"pricing/exact"},
	"energy":            {"pricing/exact"},
	"ledger/advice":     {},
	"ledger":            {"ledger/advice", "pricing/exact", "pricing/locale", "pricing", "energy"},
	"ledger/ledgertest": {"pricing/exact", "energy", "ledger"},
	"ledger/nutrients":  {"pricing/exact"},
	"ledger/folder":     {"pricing/exact", "energy", "ledger", "ledger/advice"},
	"ledger/intake":     {"pricing/exact", "pricing", "energy", "ledger"},
	"ledger/figures":    {"pricing/exact", "pricing", "energy", "ledger"},
	"ledger/report":     {"pricing/exact", "pricing/locale", "pricing", "energy", "ledger", "ledger/advice", "ledger/figures", "ledger/intake", "ledger/nutrients"},
	"ledger/question":   {"pricing/exact", "pricing/locale", "pricing", "energy", "ledger", "ledger/advice", "ledger/figures", "ledger/intake", "ledger/report"},
	"ledger/tables":     {"pricing/exact", "pricing", "energy", "ledger", "ledger/figures"},

	"cmd/putby/internal/ask":     {},
	"cmd/putby/internal/browser": {},
	"cmd/putby/internal/manual":  {"cmd/putby/internal/render"},
	"cmd/putby/internal/parquet": {"pricing/exact"},
	"cmd/putby/internal/export":  {"pricing/exact", "ledger/tables", "cmd/putby/internal/parquet"},
	"cmd/putby/internal/entry":   {"pricing/exact", "pricing/locale", "pricing", "energy", "ledger", "ledger/advice", "ledger/nutrients", "ledger/folder", "ledger/figures", "ledger/intake", "ledger/report"},
	"cmd/putby/internal/render":  {"pricing/exact", "pricing/locale", "ledger/report"},
	"cmd/putby/internal/page":    {"pricing/exact", "pricing/locale", "pricing", "ledger", "ledger/advice", "ledger/figures", "ledger/question", "ledger/report", "cmd/putby/internal/render"},
	"cmd/putby/internal/serve": {"pricing/exact", "ledger", "ledger/advice", "ledger/nutrients", "ledger/folder", "ledger/figures", "ledger/intake", "ledger/question", "ledger/report",
		"cmd/putby/internal/entry", "cmd/putby/internal/page"},

	"testdata":            {},
	"testdata/mutate":     {},
	"testdata/sidebyside": {},
	"cmd/putby": {"pricing/exact", "pricing/locale", "pricing", "energy", "ledger", "ledger/advice", "ledger/nutrients", "ledger/folder", "ledger/figures", "ledger/intake", "ledger/question", "ledger/report", "ledger/tables",
		"cmd/putby/internal/ask", "cmd/putby/internal/entry", "cmd/putby/internal/export", "cmd/putby/internal/manual", "cmd/putby/internal/page",
		"cmd/putby/internal/render", "cmd/putby/internal/serve", "testdata"},
}

// fences say which packages may import a third party, by the beginning of its
// path. What is not here may be imported by tests alone.
var fences = map[string][]string{
	"github.com/shopspring/decimal":        {"pricing/exact"},
	"github.com/olekukonko/":               {"cmd/putby/internal/render"},
	"github.com/clipperhouse/displaywidth": {"cmd/putby/internal/render", "cmd/putby/internal/page"},
	"github.com/spf13/":                    {"cmd/putby"},
	"golang.org/x/term":                    {"cmd/putby", "cmd/putby/internal/ask"},
	"github.com/gofrs/flock":               {"ledger/folder"},
	"golang.org/x/sys/":                    {"ledger/folder"},
	"golang.org/x/text/":                   {"ledger", "ledger/intake", "cmd/putby/internal/entry"},
	"github.com/mdp/qrterminal/":           {"cmd/putby/internal/serve"},
}

// helpersOfTests may be imported by tests alone.
var helpersOfTests = []string{"ledger/ledgertest", "cmd/putby/internal/browser"}

// estimating files say so at their top: statistics that estimate, never a
// figure of the books.
var estimating = []string{
	"energy/estimate.go", "energy/line.go", "energy/series.go", "energy/split.go", "energy/student.go",
	"ledger/figures/estimate.go", "ledger/figures/offer_pace.go",
}

// panicking functions, beside those named Must: what nobody can bring about
// from outside, each with why.
var panicking = map[string]string{
	"pricing/exact/ratio.go newRatio":          "division by zero, as its callers document",
	"pricing/exact/ratio.go Quo":               "division by zero, as it documents",
	"ledger/nutrients/table.go uint":           "part of mustUnpack",
	"ledger/power.go check":                    "hands a panic of another goroutine on",
	"ledger/packer.go addPage":                 "more text than the file of a ledger may have",
	"ledger/table.go Table":                    "a file of which nothing picks records",
	"ledger/inorder.go InOrder":                "hands a panic of another goroutine on",
	"ledger/together.go Parallel":              "hands a panic of another goroutine on",
	"ledger/ledgertest/cycle.go meter":         "a helper of tests",
	"cmd/putby/internal/page/style.go look":    "an embedded file that is not there",
	"cmd/putby/internal/render/json.go string": "a string always encodes",
}

// topLevel is all that may lie in the repository's root besides dot-files.
var topLevel = []string{"cmd", "ledger", "pricing", "energy", "testdata", "README.md", "DEVELOPERS.md", "go.mod", "go.sum"}

const repository = "../.."

// A source is one file of the repository.
type source struct {
	dir, name string // slashed, from the root
	test      bool
	file      *ast.File
}

func (s source) path() string { return path.Join(s.dir, s.name) }

// sources are all Go files that are built.
func sources(t *testing.T) []source {
	t.Helper()
	list, err := parsed()
	if err != nil {
		t.Fatal(err)
	}
	if len(list) < 100 {
		t.Fatalf("only %d files were found", len(list))
	}
	return list
}

// parsed parses them once for all tests.
var parsed = sync.OnceValues(func() (list []source, err error) {
	files := token.NewFileSet()
	err = filepath.WalkDir(repository, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name != repository && strings.HasPrefix(d.Name(), ".") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") {
			return nil
		}
		if built, err := build.Default.MatchFile(filepath.Dir(name), d.Name()); err != nil || !built {
			return err
		}
		rel, err := filepath.Rel(repository, filepath.Dir(name))
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(files, name, nil, parser.ParseComments|parser.SkipObjectResolution)
		list = append(list, source{filepath.ToSlash(rel), d.Name(), strings.HasSuffix(name, "_test.go"), file})
		return err
	})
	return list, err
})

// Every package imports from lower floors alone, and third parties stay behind
// their fences.
func TestImportOrder(t *testing.T) {
	for _, s := range sources(t) {
		allowed, known := floors[s.dir]
		if !known {
			t.Errorf("%s: the package has no floor", s.path())
		}
		for _, spec := range s.file.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			of, ours := strings.CutPrefix(name, "putby/")
			switch {
			case ours && !s.test && !slices.Contains(allowed, of):
				t.Errorf("%s imports %s, which is not below it", s.path(), of)
			case ours && !s.test && slices.Contains(helpersOfTests, of):
				t.Errorf("%s imports %s, which is for tests", s.path(), of)
			case !ours && !s.test && strings.Contains(strings.Split(name, "/")[0], ".") && !fenced(name, s.dir):
				t.Errorf("%s imports %s, which stays behind its fence", s.path(), name)
			}
		}
	}
}

// fenced reports whether a package is inside the fence of a third party.
func fenced(name, dir string) bool {
	for prefix, dirs := range fences {
		if strings.HasPrefix(name, prefix) {
			return slices.Contains(dirs, dir)
		}
	}
	return false
}

// The root of the repository stays small.
func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(repository)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(topLevel, e.Name()) {
			t.Errorf("%s lies in the root", e.Name())
		}
	}
}

// Every package says what it is in doc.go; the program and the sample in
// their only natural place.
func TestPackagesAreDocumented(t *testing.T) {
	told := map[string]string{}
	for _, s := range sources(t) {
		if !s.test && s.file.Doc != nil && strings.TrimSpace(s.file.Doc.Text()) != "" {
			told[s.dir] = s.name
		}
	}
	for dir := range floors {
		want := map[string]string{"testdata": "embed.go"}[dir]
		if want == "" {
			want = "doc.go"
		}
		if told[dir] != want {
			t.Errorf("%s is told of in %q, want %s", dir, told[dir], want)
		}
	}
}

// No float stands between a record and a figure: the type is named only in
// files that estimate, and those say so.
func TestNoFloats(t *testing.T) {
	left := slices.Clone(estimating)
	for _, s := range sources(t) {
		if s.test || slices.Contains(helpersOfTests, s.dir) {
			continue
		}
		if at := slices.Index(left, s.path()); at >= 0 {
			left = slices.Delete(left, at, at+1)
			if !saysItEstimates(s.file) {
				t.Errorf("%s holds floats and does not say that it estimates", s.path())
			}
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok && slices.Contains([]string{"float64", "float32", "ParseFloat", "Float64", "complex128"}, id.Name) {
				t.Errorf("%s has a %s", s.path(), id.Name)
			}
			return true
		})
	}
	if len(left) > 0 {
		t.Errorf("no such files: %v", left)
	}
}

// saysItEstimates reports whether a comment of the file speaks of estimates.
func saysItEstimates(f *ast.File) bool {
	return slices.ContainsFunc(f.Comments, func(c *ast.CommentGroup) bool {
		return strings.Contains(strings.ToLower(c.Text()), "estimate")
	})
}

// Nothing beneath the commands knows the command line: no text names a command or a
// flag. Questions are asked by options, and say so.
func TestNoFlags(t *testing.T) {
	typed := regexp.MustCompile(`(^|[^-\w])--([a-z]|$)|\bputby [a-z]`)
	other := map[string]bool{
		`"-- Written by putby export.\n"`:                            true, // a comment in SQL
		`"move it away; putby makes it anew"`:                        true, // the program, not a command
		`"another putby is saving to it; try again when it is done"`: true,
		`"putby help, or the command with --help"`:                   true, // of what can only be typed
	}
	for _, s := range sources(t) {
		if s.test || s.dir == "ledger/question" || s.dir != "cmd/putby/internal/entry" && !slices.Contains([]string{"ledger", "energy", "pricing"}, strings.Split(s.dir, "/")[0]) {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			text, ok := n.(*ast.BasicLit)
			if ok && text.Kind == token.STRING && typed.MatchString(strings.Trim(text.Value, "\"`")) && !other[text.Value] {
				t.Errorf("%s tells of a command: %s", s.path(), text.Value)
			}
			return true
		})
	}
}

// Nothing panics but functions named Must and the few that are listed.
func TestPanics(t *testing.T) {
	unused := map[string]bool{}
	for name := range panicking {
		unused[name] = true
	}
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		for _, d := range s.file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || strings.HasPrefix(strings.ToLower(f.Name.Name), "must") || !panics(f) {
				continue
			}
			name := s.path() + " " + f.Name.Name
			if _, ok := panicking[name]; !ok {
				t.Errorf("%s panics", name)
			}
			delete(unused, name)
		}
	}
	for name := range unused {
		t.Errorf("%s no longer panics: take it off the list", name)
	}
}

func panics(f *ast.FuncDecl) (found bool) {
	ast.Inspect(f, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			if id, ok := call.Fun.(*ast.Ident); ok && id.Name == "panic" {
				found = true
			}
		}
		return true
	})
	return found
}

// There is no init: what a package needs it makes when it is asked.
func TestNoInit(t *testing.T) {
	for _, s := range sources(t) {
		for _, d := range s.file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.Name == "init" {
				t.Errorf("%s has an init", s.path())
			}
		}
	}
}
