package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// raceOptions spare each program that a test starts the second for which the
// race detector waits at its end; a race that it found is reported all the same.
const raceOptions = "atexit_sleep_ms=10"

func TestMain(m *testing.M) {
	if err := os.Setenv("GORACE", raceOptions); err != nil {
		panic(err)
	}
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
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		Cmds:                scriptCommands(),
		Setup: func(e *testscript.Env) error {
			e.Values[snapshots{}] = map[string]map[string]string{}
			e.Setenv("SMALL", small)
			e.Setenv("HOME", e.WorkDir)
			e.Setenv("GORACE", raceOptions)
			return nil
		},
	})
}
