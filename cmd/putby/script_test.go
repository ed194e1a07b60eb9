package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"putby": main})
}

// TestScripts runs testdata/script/*.txtar: each says at its top why it is
// there. A script finds the sample ledger by `putby sample DIR`, and the small
// one, whose figures README works out by hand, in $SMALL.
func TestScripts(t *testing.T) {
	small, err := filepath.Abs("../../testdata/small")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Cmds:                scriptCommands(),
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		Setup: func(e *testscript.Env) error {
			e.Values[snapshots{}] = map[string]map[string]string{}
			e.Setenv("SMALL", small)
			e.Setenv("HOME", e.WorkDir)
			return nil
		},
	})
}

// wantStatus runs a program and wants it to end with an exit status:
//
//	status 3 putby prove --ledger led
func wantStatus(ts *testscript.TestScript, neg bool, args []string) {
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

// put appends to a file what a Go string literal says, so many times over: what
// an archive of text cannot hold.
//
//	put led/foods.csv '"\x00"' 3
func put(ts *testscript.TestScript, neg bool, args []string) {
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
