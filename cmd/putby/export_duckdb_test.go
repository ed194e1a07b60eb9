package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"putby/ledger/ledgertest"
)

// TestExportToDuckDB loads exports into DuckDB, and compares every row of its views
// with the reports.
func TestExportToDuckDB(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("starting a database takes seconds")
	}
	modules := duckDBModules(t)
	testViews(t, func(t *testing.T, dir string, queries []string) [][]map[string]string {
		return inDuckDB(t, modules, dir, queries)
	})
}

// duckDBModules is the folder into which .ci/run installs DuckDB for node: a folder
// of caches, or the one that DUCKDB_MODULES names.
func duckDBModules(t *testing.T) string {
	t.Helper()
	dir := os.Getenv("DUCKDB_MODULES")
	if caches, err := os.UserCacheDir(); dir == "" && err == nil {
		dir = filepath.Join(caches, "putby-ci", "duckdb")
	}
	if _, err := exec.LookPath("node"); err != nil {
		lacking(t, "node", "install Debian's package nodejs")
	}
	if _, err := os.Stat(filepath.Join(dir, "node_modules", "@duckdb", "node-api")); err != nil {
		lacking(t, "DuckDB", "npm install --prefix "+dir+" @duckdb/node-api")
	}
	return dir
}

// inDuckDB loads an export into DuckDB and returns what queries give.
func inDuckDB(t *testing.T, modules, dir string, queries []string) [][]map[string]string {
	t.Helper()
	var out, said bytes.Buffer
	cmd := exec.Command("node", append([]string{"testdata/duckdb.mjs", modules, dir}, queries...)...)
	cmd.Stdout, cmd.Stderr = &out, &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("DuckDB: %v\n%s", err, said.Bytes())
	}
	var results [][]map[string]any
	if err := json.Unmarshal(out.Bytes(), &results); err != nil {
		t.Fatal(err)
	}
	texts := make([][]map[string]string, len(results))
	for i, rows := range results {
		for _, row := range rows {
			cells := map[string]string{}
			for column, cell := range row {
				if cell != nil {
					cells[column] = fmt.Sprint(cell)
				}
			}
			texts[i] = append(texts[i], cells)
		}
	}
	return texts
}
