package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/clipperhouse/displaywidth"
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/manual"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/question"
)

// The errors that commands end in have the statuses of the table.
func TestStatuses(t *testing.T) {
	for _, test := range []struct {
		err  error
		want int
	}{
		{nil, exitDone},
		{os.ErrNotExist, exitFailed},
		{misused("x"), exitUsage},
		{mistyped("x", "y"), exitUsage},
		{question.OptionFault("item", "", "x"), exitUsage},
		{ledger.Faults{{}}, exitFaults},
		{&folder.Refusal{Faults: ledger.Faults{{}}}, exitFaults},
		{askedError{&folder.Refusal{Faults: ledger.Faults{{}}}, "x"}, exitFaults},
		{badRows(2), exitFaults},
		{notFound("x", "y"), exitNone},
		{&ledger.Fault{Kind: folder.ErrNotLedger}, exitNone},
		{&ledger.Fault{Kind: folder.ErrFull}, exitFailed},
		{fmt.Errorf("with more to it: %w", &ledger.Fault{Kind: folder.ErrNotLedger}), exitNone},
		{counted{what: "it is saved"}.after(os.ErrNotExist), exitSaved},
		{counted{what: "it is saved"}.after(askedError{&folder.Refusal{Faults: ledger.Faults{{}}}, "x"}), exitSaved},
		{counted{what: "it is saved"}.after(errNotAnswered), exitSaved},
		{counted{}.after(errNotAnswered), exitBroken},
		{unwritten(os.ErrClosed), exitFailed},
		{errNotAnswered, exitBroken},
		{errBroken, exitBroken},
	} {
		if got := statusOf(test.err); got != test.want {
			t.Errorf("%v: %d, want %d", test.err, got, test.want)
		}
		if !slices.ContainsFunc(statuses, func(s status) bool { return s.status == test.want }) {
			t.Errorf("%d is not in the table", test.want)
		}
	}
}

// noWordForValue are what the library of flags, or haste, has for what a flag
// takes: none tells anybody what to type.
var noWordForValue = []string{"string", "strings", "stringSlice", "stringArray", "int", "uint", "float", "value", "as", "which"}

// Every command teaches: what it does, an example, every flag with a word on
// what it is, and the exit statuses; in lines that fit the terminal.
func TestEveryHelp(t *testing.T) {
	a := &app{}
	everyCommand(newRootCommand(a), func(cmd *cobra.Command) {
		page := pageOf(cmd)
		if strings.HasPrefix(page.Name, "putby completion ") { // the library's
			return
		}
		if page.Short == "" || page.Text == page.Short {
			t.Errorf("%s does not say what it does", page.Name)
		}
		if page.Examples == "" && len(page.Commands) == 0 {
			t.Errorf("%s has no example", page.Name)
		}
		for _, e := range slices.Concat(page.Flags, page.Global) {
			if e.Text == "" {
				t.Errorf("%s does not say what %s is", page.Name, e.Term)
			}
			if takes := e.Term[strings.LastIndex(e.Term, " ")+1:]; slices.Contains(noWordForValue, takes) {
				t.Errorf("%s does not say what is to be given in %s", page.Name, e.Term)
			}
		}
		for _, width := range []int{60, 80, 120} {
			help := manual.Help(page, width)
			for _, s := range statuses {
				if !strings.Contains(help, fmt.Sprintf("  %-3d  %s", s.status, strings.Fields(s.means)[0])) {
					t.Errorf("%s does not say what status %d means", page.Name, s.status)
				}
			}
			for line := range strings.Lines(help) {
				if n := displaywidth.String(strings.TrimRight(line, "\n")); n > width {
					t.Errorf("%s at %d columns has a line of %d: %s", page.Name, width, n, line)
				}
			}
		}
	})
}

// Every example of every command does what it says on a fresh copy of the
// sample; the lines of one command follow each other.
func TestEveryExample(t *testing.T) {
	root := newRootCommand(&app{})
	everyCommand(root, func(cmd *cobra.Command) {
		// serve goes on until it is stopped, setup asks.
		if cmd.Example == "" || strings.HasPrefix(cmd.CommandPath(), "putby serve") || cmd.CommandPath() == "putby setup" {
			return
		}
		t.Run(cmd.CommandPath(), func(t *testing.T) {
			t.Parallel()
			h := sampleHouse(t)
			work := t.TempDir()
			for name, text := range exampleFiles {
				if err := os.WriteFile(filepath.Join(work, name), []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.CopyFS(filepath.Join(work, "co-op", "north"), os.DirFS(h.dir)); err != nil {
				t.Fatal(err)
			}
			script := exec.Command("sh", "-e", "-c", cmd.Example)
			script.Dir = work
			script.Env = append(os.Environ(), "PUTBY_LEDGER="+h.dir)
			var complaints bytes.Buffer
			script.Stderr = &complaints
			if err := script.Run(); err != nil {
				t.Errorf("%v\n%s\n%s", err, cmd.Example, complaints.String())
			}
		})
	})
}

// exampleFiles are the files that examples speak of.
var exampleFiles = map[string]string{
	"till.csv":      "Date,Item,Price\n2025-11-18,tea,2.79\n",
	"dryer.csv":     "Start,kWh\n2025-10-17 21:00,14.3\n",
	"leaflet.csv":   "Item,Size,Price\ncarrots,2 kg,2.79\n",
	"plug.csv":      "time,power (W),total (kWh)\n2025-11-13 21:15,430,1.0\n2025-11-14 21:15,430,11.3\n2025-11-15 09:15,0,16.5\n",
	"rate.json":     rateJSON(),
	"day-ahead.csv": "Start,End,Price (CAD/kWh)\n2025-11-20T21:00Z,2025-11-20T22:00Z,0.081\n2025-11-20T22:00Z,2025-11-20T23:00Z,-0.004\n",
	"tomorrow.json": `[{"start": "2025-11-20T23:00Z", "price_cad_per_kwh": 0.062}, {"start": "2025-11-21T00:00Z", "price_cad_per_kwh": 0.058}]`,
	"offers.csv":    "item,price,size\nstrawberries,2.49,454 g\n",
}

// rateJSON is a flat rate as the open rate database writes it.
func rateJSON() string {
	year := strings.TrimSuffix(strings.Repeat("["+strings.TrimSuffix(strings.Repeat("0,", 24), ",")+"],", 12), ",")
	return `{"items": [{"label": "a1", "utility": "Dunmore Light", "name": "Flat", "energyratestructure": [[{"rate": 0.2}]],` +
		`"energyweekdayschedule": [` + year + `], "energyweekendschedule": [` + year + `]}]}`
}

// Every page of the manual is one that man can show without a complaint.
func TestManPages(t *testing.T) {
	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Skip("groff is not there")
	}
	everyCommand(newRootCommand(&app{}), func(cmd *cobra.Command) {
		page := manual.Roff(pageOf(cmd), "putby test")
		show := exec.Command(groff, "-man", "-Tascii", "-ww", "-P-c", "-P-bou")
		show.Stdin = strings.NewReader(page)
		var out, complaints bytes.Buffer
		show.Stdout, show.Stderr = &out, &complaints
		if err := show.Run(); err != nil || complaints.Len() > 0 {
			t.Errorf("%s: %v %s", cmd.CommandPath(), err, complaints.String())
		}
		if cmd.Example != "" && !strings.Contains(out.String(), strings.SplitN(strings.TrimSpace(cmd.Example), "\n", 2)[0]) {
			t.Errorf("%s does not show its example:\n%s", cmd.CommandPath(), out.String())
		}
	})
}
