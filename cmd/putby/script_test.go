package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"putby/ledger/ledgertest"
)

// raceOptions spare each program that a test starts the second for which the
// race detector waits at its end; a race that it found is reported all the same.
const raceOptions = "atexit_sleep_ms=10"

func TestMain(m *testing.M) {
	if err := os.Setenv("GORACE", raceOptions); err != nil {
		panic(err)
	}
	testscript.Main(ledgertest.AtOnce(m, atOnce...), map[string]func(){"putby": putbyAt})
}

// clock names the variable by which a script sets the program's clock.
const clock = "CLOCK"

// putbyAt is the program at the time that the clock of its script shows.
func putbyAt() {
	env := system()
	if text := os.Getenv(clock); text != "" {
		at, err := time.Parse(time.RFC3339, text)
		if err != nil {
			panic(err)
		}
		env.now = func() time.Time { return at }
	}
	start(env)
}

// ofEachKind are scripts of commands that look, record, take back, import, export and serve.
const ofEachKind = "cost_small draw_soonest edit_record export_csv export_households fault_together households_reports " +
	"import_receipts meter_split page receipt_add serve start_finish undo_number week"

// TestScripts runs testdata/script/*.txtar: each says at its top why it is
// there. A script finds the sample ledger by `putby sample DIR`, and the small
// one, whose figures README works out by hand, in $SMALL. It is 1 June 2026
// at noon, unless a script sets CLOCK. A small run takes one of each kind.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("testdata/script/*.txtar")
	if err != nil || len(scripts) == 0 {
		t.Fatal("no scripts: ", err)
	}
	if ledgertest.Small() {
		scripts = nil
		for _, name := range strings.Fields(ofEachKind) {
			scripts = append(scripts, filepath.Join("testdata", "script", name+".txtar"))
		}
	}
	small, err := filepath.Abs("../../testdata/small")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Files:               scripts,
		RequireExplicitExec: true,
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		Cmds:                scriptCommands(),
		Setup: func(e *testscript.Env) error {
			e.Values[snapshots{}] = map[string]map[string]string{}
			e.Setenv("SMALL", small)
			e.Setenv("HOME", e.WorkDir)
			e.Setenv("GORACE", raceOptions)
			e.Setenv(clock, "2026-06-01T12:00:00Z")
			return nil
		},
	})
}
