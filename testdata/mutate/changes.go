package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// A change is a part of a file that is written otherwise.
type change struct {
	number    int
	pkg, file string
	line      int
	column    int
	from, to  int    // offsets
	text      string // in place of what is there
	what      string // both, for people
	body, end int    // offsets of the function's body
	results   string // of the function, as it is written
}

// swaps are tokens that a slip may take for each other.
var swaps = map[token.Token][]token.Token{
	token.LSS: {token.LEQ}, token.LEQ: {token.LSS}, token.GTR: {token.GEQ}, token.GEQ: {token.GTR},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL}, token.LAND: {token.LOR}, token.LOR: {token.LAND},
	token.ADD: {token.SUB}, token.SUB: {token.ADD}, token.MUL: {token.QUO}, token.QUO: {token.MUL},
	token.INC: {token.DEC}, token.DEC: {token.INC}, token.ADD_ASSIGN: {token.SUB_ASSIGN}, token.SUB_ASSIGN: {token.ADD_ASSIGN},
}

// names are methods, functions and constants that a slip may take for each other.
var names = map[string]string{
	"Add": "Sub", "Sub": "Add", "Min": "Max", "Max": "Min", "min": "max", "max": "min",
	"HalfEven": "HalfAway", "HalfAway": "HalfEven", "Up": "Down", "Down": "Up", "Floor": "Ceil", "Ceil": "Floor",
	"Before": "After", "After": "Before", "First": "Last", "true": "false", "false": "true",
}

// finder collects the changes of a file.
type finder struct {
	set    *token.FileSet
	path   string
	source string
	pkg    string
	fn     *ast.FuncDecl // the one being looked at
	list   []change
}

// changesOf lists all changes of a package's files, but those of tests.
func changesOf(dir string, files []string) ([]change, error) {
	var list []change
	for _, name := range files {
		path := filepath.Join(dir, name)
		source, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		f := finder{set: token.NewFileSet(), path: path, source: string(source)}
		tree, err := parser.ParseFile(f.set, path, source, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		f.pkg = tree.Name.Name
		for _, d := range tree.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil {
				f.fn = fn
				ast.Inspect(fn.Body, f.visit)
			}
		}
		list = append(list, f.list...)
	}
	return list, nil
}

func (f *finder) offset(p token.Pos) int { return f.set.Position(p).Offset }

func (f *finder) text(n ast.Node) string { return f.source[f.offset(n.Pos()):f.offset(n.End())] }

// add notes a change of the source from one place to another.
func (f *finder) add(from, to token.Pos, text, kind string) {
	a, b := f.offset(from), f.offset(to)
	was := strings.Join(strings.Fields(f.source[a:b]), " ")
	at := f.set.Position(from)
	c := change{pkg: f.pkg, file: f.path, line: at.Line, column: at.Column, from: a, to: b, text: text,
		what: fmt.Sprintf("%s: %.90s -> %.90s", kind, was, text), body: f.offset(f.fn.Body.Pos()), end: f.offset(f.fn.Body.End())}
	if f.fn.Type.Results != nil {
		c.results = f.text(f.fn.Type.Results)
	}
	f.list = append(f.list, c)
}

func (f *finder) swap(at token.Pos, op token.Token) {
	for _, other := range swaps[op] {
		f.add(at, at+token.Pos(len(op.String())), other.String(), "operator")
	}
}

func (f *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		f.swap(n.OpPos, n.Op)
	case *ast.IncDecStmt:
		f.swap(n.TokPos, n.Tok)
	case *ast.AssignStmt:
		f.swap(n.TokPos, n.Tok)
	case *ast.Ident:
		if other, ok := names[n.Name]; ok {
			f.add(n.Pos(), n.End(), other, "name")
		}
	case *ast.BasicLit:
		if i, err := strconv.Atoi(n.Value); err == nil && n.Kind == token.INT {
			f.add(n.Pos(), n.End(), strconv.Itoa(i+1), "constant")
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			f.add(n.OpPos, n.X.Pos(), "", "sign")
		}
	case *ast.IfStmt:
		f.add(n.Cond.Pos(), n.Cond.End(), "!("+f.text(n.Cond)+")", "condition")
		f.add(n.Cond.Pos(), n.Cond.End(), "false && ("+f.text(n.Cond)+")", "never")
	case *ast.CallExpr:
		f.call(n)
	case *ast.BlockStmt:
		f.drop(n.List)
	case *ast.CaseClause:
		f.drop(n.Body)
	}
	return true
}

// call changes the arguments of a call, and takes a sign away. The order of those of min
// and max means nothing.
func (f *finder) call(n *ast.CallExpr) {
	if name, ok := n.Fun.(*ast.Ident); ok && (name.Name == "min" || name.Name == "max") {
		return
	}
	for i := range len(n.Args) - 1 {
		a, b := n.Args[i], n.Args[i+1]
		if f.text(a) != f.text(b) {
			f.add(a.Pos(), b.End(), f.text(b)+", "+f.text(a), "arguments")
		}
	}
	if sel, ok := n.Fun.(*ast.SelectorExpr); ok && len(n.Args) == 0 && (sel.Sel.Name == "Neg" || sel.Sel.Name == "Abs") {
		f.add(n.Pos(), n.End(), f.text(sel.X), "sign")
	}
}

// drop leaves out statements that declare nothing.
func (f *finder) drop(list []ast.Stmt) {
	for _, s := range list {
		switch s := s.(type) {
		case *ast.ExprStmt, *ast.IncDecStmt:
			f.add(s.Pos(), s.End(), "", "dropped")
		case *ast.AssignStmt:
			if s.Tok != token.DEFINE {
				f.add(s.Pos(), s.End(), "", "dropped")
			}
		case *ast.BranchStmt:
			f.add(s.Pos(), s.End(), "", "dropped")
		}
	}
}
