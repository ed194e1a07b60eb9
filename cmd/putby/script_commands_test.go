package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// scriptCommands are what scripts can do besides testscript's own commands:
//
//	snapshot DIR          keep in mind what is in a folder
//	[!] unchanged DIR     it is byte for byte as it was
//	recode TO FROM-FILE TO-FILE
//	                      write UTF-8 text as utf-16le, utf-16be or windows-1252,
//	                      the first two with a byte order mark
//	workbook CSV-FILE XLSX-FILE [SHEET]
//	                      make a workbook, numbers as numbers
//	status N PROGRAM ARGUMENTS...
//	                      run it, and want it to end with that exit status
//	put FILE LITERAL [TIMES]
//	                      append what a Go string literal says
func scriptCommands() map[string]func(*testscript.TestScript, bool, []string) {
	return map[string]func(*testscript.TestScript, bool, []string){
		"snapshot": scriptSnapshot, "unchanged": scriptUnchanged, "recode": scriptRecode, "workbook": scriptWorkbook,
		"status": scriptStatus, "put": scriptPut,
	}
}

func scriptSnapshot(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: snapshot DIR")
	}
	keep := ts.Value(snapshots{}).(map[string]map[string]string)
	keep[args[0]] = tree(ts, ts.MkAbs(args[0]))
}

func scriptUnchanged(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 1 {
		ts.Fatalf("usage: unchanged DIR")
	}
	before, ok := ts.Value(snapshots{}).(map[string]map[string]string)[args[0]]
	if !ok {
		ts.Fatalf("%s has no snapshot", args[0])
	}
	what := difference(before, tree(ts, ts.MkAbs(args[0])))
	if neg && what == "" {
		ts.Fatalf("%s is as it was", args[0])
	}
	if !neg && what != "" {
		ts.Fatalf("%s: %s", args[0], what)
	}
}

// snapshots is the key of what a script has kept in mind.
type snapshots struct{}

// tree holds every file of a folder with its mode, but for the lock, which
// anybody who looks whether he may save leaves there.
func tree(ts *testscript.TestScript, dir string) map[string]string {
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "lock" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err == nil {
			files[path] = info.Mode().String() + "\n" + string(text)
		}
		return err
	})
	ts.Check(err)
	return files
}

// difference names a file that two trees do not have alike.
func difference(before, after map[string]string) string {
	for name, text := range before {
		if now, ok := after[name]; !ok {
			return name + " is gone"
		} else if now != text {
			return name + " is changed"
		}
	}
	for name := range after {
		if _, ok := before[name]; !ok {
			return name + " is new"
		}
	}
	return ""
}

func scriptRecode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: recode TO FROM-FILE TO-FILE")
	}
	to, ok := map[string]encoding.Encoding{
		"utf-16le":     unicode.UTF16(unicode.LittleEndian, unicode.UseBOM),
		"utf-16be":     unicode.UTF16(unicode.BigEndian, unicode.UseBOM),
		"windows-1252": charmap.Windows1252,
	}[args[0]]
	if !ok {
		ts.Fatalf("no encoding %s", args[0])
	}
	text, err := to.NewEncoder().String(ts.ReadFile(args[1]))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(text), 0o644))
}

func scriptWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || len(args) > 3 {
		ts.Fatalf("usage: workbook CSV-FILE XLSX-FILE [SHEET]")
	}
	rows, err := csv.NewReader(bytes.NewReader([]byte(ts.ReadFile(args[0])))).ReadAll()
	ts.Check(err)
	book := excelize.NewFile()
	sheet := "Sheet1"
	if len(args) == 3 {
		sheet = args[2]
		_, err := book.NewSheet(sheet)
		ts.Check(err)
	}
	for y, row := range rows {
		for x, text := range row {
			at, err := excelize.CoordinatesToCellName(x+1, y+1)
			ts.Check(err)
			var value any = text
			if n, err := strconv.ParseFloat(text, 64); err == nil {
				value = n
			}
			ts.Check(book.SetCellValue(sheet, at, value))
		}
	}
	ts.Check(book.SaveAs(ts.MkAbs(args[1])))
}

// scriptStatus runs a program and wants it to end with an exit status:
//
//	status 3 putby prove --ledger led
func scriptStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N program arguments...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	have, exit := 0, (*exec.ExitError)(nil)
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		have = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if have != want {
		ts.Fatalf("exit status %d, want %d; standard error:\n%s", have, want, ts.ReadFile("stderr"))
	}
}

// scriptPut appends to a file what a Go string literal says, so many times over:
// what an archive of text cannot hold.
//
//	put led/foods.csv '"\x00"' 3
func scriptPut(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || len(args) > 3 {
		ts.Fatalf("usage: put file literal [times]")
	}
	text, err := strconv.Unquote(args[1])
	ts.Check(err)
	times := 1
	if len(args) == 3 {
		times, err = strconv.Atoi(args[2])
		ts.Check(err)
	}
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	ts.Check(err)
	_, err = f.WriteString(strings.Repeat(text, times))
	ts.Check(errors.Join(err, f.Close()))
}
