package main

import (
	"go/ast"
	"go/build"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestLedgerIsNotWrittenTo: what [ledger.Join] returns is shared by any number of
// readers, so no package but ledger itself writes into it. A slice of it that is
// kept under another name escapes this test, as a pointer into it does not.
func TestLedgerIsNotWrittenTo(t *testing.T) {
	t.Parallel()
	fset := token.NewFileSet()
	from := exportData(t, fset)
	for _, c := range []struct {
		says   string
		writes int
	}{
		{"g.Lots[0] = ledger.Lot{}", 1},
		{"g.Runs[0].Notes = nil", 1},
		{"g.AsOf++", 1},
		{"r := &g.Runs[0]; r.Length = r.Length", 1},
		{"r := &g.Runs[0]; *r = ledger.RunCost{}", 1},
		{"g.Records.Foods[0].Name = s; g.Foods[0].Name = s", 2},
		{"slices.Reverse(g.Moves)", 1},
		{"_ = append(g.Lots[:0], g.Lots[1])", 1},
		{"for _, g.Packs[0] = range g.Packs {}", 1},
		{"r := g.Runs[0]; r.Notes = nil; l := slices.Clone(g.Lots); l = l[1:]; slices.Reverse(l); s = g.Foods[0].Name", 0},
	} {
		text := "package p\nimport (\"putby/ledger\"; \"slices\")\nvar _ = slices.Max[[]int]\nfunc f(g *ledger.Ledger, s string) { " + c.says + " }"
		file, err := parser.ParseFile(fset, "p.go", text, 0)
		if err != nil {
			t.Fatal(err)
		}
		if found := writesIn(t, fset, from, "p", file); len(found) != c.writes {
			t.Errorf("%s: %d writes are found, want %d", c.says, len(found), c.writes)
		}
	}
	for name, below := range floors {
		if !slices.Contains(below, "ledger") {
			continue
		}
		for _, at := range writesIn(t, fset, from, name, filesOf(t, fset, name)...) {
			t.Errorf("%v writes into a joined ledger", at)
		}
	}
}

// filesOf are the files of a package, parsed.
func filesOf(t *testing.T, fset *token.FileSet, name string) (files []*ast.File) {
	t.Helper()
	dir := filepath.Join("..", "..", filepath.FromSlash(name))
	about, err := build.ImportDir(dir, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range about.GoFiles {
		file, err := parser.ParseFile(fset, filepath.Join(dir, name), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

// TestLayoutsAddUpNothing: what a report comes to is worked out in package figures and
// below. Package report only turns values into what people are shown, in the files
// that do that.
func TestLayoutsAddUpNothing(t *testing.T) {
	t.Parallel()
	fset := token.NewFileSet()
	shows := []string{"value.go", "shown.go", "phrase.go"}
	sums := []string{"Add", "Sub", "Mul", "Quo", "Over", "Per"}
	uses := map[*ast.Ident]types.Object{}
	files, found := filesOf(t, fset, "ledger/report"), 0
	if _, err := (&types.Config{Importer: exportData(t, fset)}).Check("report", fset, files, &types.Info{Uses: uses}); err != nil {
		t.Fatal(err)
	}
	for at, of := range uses {
		if of.Pkg() == nil || of.Pkg().Path() != "putby/pricing/exact" || !slices.Contains(sums, of.Name()) {
			continue
		}
		found++
		if place := fset.Position(at.Pos()); !slices.Contains(shows, filepath.Base(place.Filename)) {
			t.Errorf("%v: %s is arithmetic in a layout: it belongs to package figures", place, of.Name())
		}
	}
	if found == 0 {
		t.Error("no arithmetic is found where values are shown: the test looks for the wrong thing")
	}
}

// exportData imports packages as they are built.
func exportData(t *testing.T, fset *token.FileSet) types.Importer {
	t.Helper()
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}} {{.Export}}", "putby/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for line := range strings.Lines(string(out)) {
		name, file, _ := strings.Cut(strings.TrimSpace(line), " ")
		files[name] = file
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(files[path]) })
}

// A writeFinder finds what writes into a joined ledger.
type writeFinder struct {
	types.Info
	found []token.Pos
}

func writesIn(t *testing.T, fset *token.FileSet, from types.Importer, name string, files ...*ast.File) (places []token.Position) {
	t.Helper()
	w := &writeFinder{Info: types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}}
	if _, err := (&types.Config{Importer: from}).Check(name, fset, files, &w.Info); err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		ast.Inspect(file, w.look)
	}
	for _, at := range w.found {
		places = append(places, fset.Position(at))
	}
	return places
}

// look notes an assignment into a ledger, and a call that changes a slice of it.
func (w *writeFinder) look(n ast.Node) bool {
	var to []ast.Expr
	switch n := n.(type) {
	case *ast.AssignStmt:
		to = n.Lhs
	case *ast.IncDecStmt:
		to = []ast.Expr{n.X}
	case *ast.RangeStmt:
		to = []ast.Expr{n.Key, n.Value}
	case *ast.CallExpr:
		if len(n.Args) > 0 && w.changes(n.Fun) {
			to = n.Args[:1]
		}
	}
	for _, e := range to {
		if e != nil && w.shared(e) {
			w.found = append(w.found, e.Pos())
		}
	}
	return true
}

// changes reports whether a function changes the slice that it is given first.
func (w *writeFinder) changes(f ast.Expr) bool {
	switch f := f.(type) {
	case *ast.Ident:
		_, builtin := w.Uses[f].(*types.Builtin)
		return builtin && slices.Contains([]string{"append", "copy", "clear", "delete"}, f.Name)
	case *ast.SelectorExpr:
		of, _ := f.X.(*ast.Ident)
		return of != nil && of.Name == "slices" && slices.ContainsFunc([]string{"Sort", "Reverse", "Delete", "Insert", "Compact", "Replace", "Grow"},
			func(name string) bool { return strings.HasPrefix(f.Sel.Name, name) })
	}
	return false
}

// shared reports whether what an expression stands for lies within a ledger.
func (w *writeFinder) shared(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.IndexExpr:
		return w.shared(e.X)
	case *ast.SliceExpr:
		return w.shared(e.X)
	case *ast.StarExpr:
		return w.points(e.X)
	case *ast.SelectorExpr:
		return w.points(e.X) || w.shared(e.X)
	}
	return false
}

// results are the types of package ledger that a joined ledger alone is made of.
var results = []string{"Ledger", "Lot", "Take", "BatchCost", "RunCost", "PackCost", "Move"}

// points reports whether an expression is a pointer to a part of a ledger.
func (w *writeFinder) points(e ast.Expr) bool {
	p, ok := w.Types[e].Type.(*types.Pointer)
	if !ok {
		return false
	}
	of, ok := p.Elem().(*types.Named)
	return ok && of.Obj().Pkg() != nil && of.Obj().Pkg().Path() == "putby/ledger" && slices.Contains(results, of.Obj().Name())
}
