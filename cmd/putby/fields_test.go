package main

import (
	"go/ast"
	"go/types"
	"slices"
	"strings"
	"testing"
)

// numeric are the types of fields that need a unit, or to say what they count. Money is
// in the ledger's currency, and a quantity says its unit itself.
var numeric = []string{
	"int", "int32", "int64", "exact.Number", "exact.Ratio",
	"exact.Opt[int]", "exact.Opt[exact.Number]", "exact.Opt[exact.Ratio]", "Number", "Ratio",
}

// Every number in an exported type of the libraries says its unit, or what it counts, in
// a comment of its own.
func TestNumbersSayTheirUnit(t *testing.T) {
	seen := 0
	for _, s := range sources(t) {
		if s.test || strings.HasPrefix(s.dir, "cmd") || slices.Contains(helpersOfTests, s.dir) {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			typ, ok := n.(*ast.TypeSpec)
			if !ok || !typ.Name.IsExported() {
				return true
			}
			fields, ok := typ.Type.(*ast.StructType)
			if !ok || len(fields.Fields.List) == 1 { // told by the comment of the type
				return true
			}
			for _, f := range fields.Fields.List {
				if !slices.Contains(numeric, types.ExprString(f.Type)) || len(f.Names) == 0 || !f.Names[0].IsExported() {
					continue
				}
				if seen++; f.Doc == nil && f.Comment == nil {
					t.Errorf("%s: %s.%s does not say its unit, or what it counts", s.path(), typ.Name, f.Names[0])
				}
			}
			return true
		})
	}
	if seen < 200 {
		t.Errorf("only %d fields were looked at", seen)
	}
}
