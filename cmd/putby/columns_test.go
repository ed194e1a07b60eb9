package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"putby/ledger"
)

// TestColumnsAreThere holds the names of columns that stand as texts in the code to the
// definitions of the kinds, so that one which is renamed there is found wherever it is
// asked for by name.
func TestColumnsAreThere(t *testing.T) {
	known := map[string]bool{}
	for _, k := range append(ledger.Kinds(), ledger.SettingsKind()) {
		for _, c := range k.Header() {
			known[c] = true
		}
	}
	named := 0
	files := token.NewFileSet()
	check := func(at ast.Expr, kind string) {
		lit, ok := at.(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return
		}
		name, _ := strconv.Unquote(lit.Value)
		named++
		if k, ok := ledger.KindOf(kind); ok && !k.Has(name) || !known[name] {
			t.Errorf("%s: no column is called %[3]q (of kind %[2]q)", files.Position(at.Pos()), kind, name)
		}
	}
	for _, root := range []string{".", "../../ledger"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.IndexExpr:
					if slices.Contains([]string{"cells", "Cells", "Was"}, nameOf(n.X)) {
						check(n.Index, "")
					}
				case *ast.CallExpr:
					switch name := nameOf(n.Fun); {
					case (name == "Column" || name == "Cells") && len(n.Args) == 1:
						check(n.Args[0], kindOf(n.Fun))
					case name == "column" && len(n.Args) == 3: // of a form
						if kind, ok := n.Args[0].(*ast.BasicLit); ok {
							of, _ := strconv.Unquote(kind.Value)
							check(n.Args[1], of)
						}
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if named < 200 {
		t.Errorf("only %d names of columns were found", named)
	}
}

// nameOf is the last name of an expression.
func nameOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}

// kindOf is the kind that a call asks for its column, as ledger.MustKind("run").Column
// does; "" where it is not told there.
func kindOf(call ast.Expr) string {
	if of, ok := call.(*ast.SelectorExpr); ok {
		if must, ok := of.X.(*ast.CallExpr); ok && nameOf(must.Fun) == "MustKind" {
			if kind, ok := must.Args[0].(*ast.BasicLit); ok {
				name, _ := strconv.Unquote(kind.Value)
				return name
			}
		}
	}
	return ""
}
