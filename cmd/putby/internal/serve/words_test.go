package serve

import "testing"

// What a message advises is said in the words of the forms; what it repeats, a name with
// two blanks or a note about an option, stays as it is.
func TestInForm(t *testing.T) {
	for text, want := range map[string]string{
		`"2 --kwh  peas": no food is called "--kwh  peas"`:     `"2 --kwh  peas": no food is called "--kwh  peas"`,
		`say what goes in: putby start "1 kg \"putby take\""`:  `say what goes in: write "1 kg \"putby take\""`,
		"no run awaits packing: name the run (--run c48)":      "no run awaits packing: name the run (run c48)",
		`run c48 is on: finish that first, with putby finish`:  `run c48 is on: finish that first, with Finish`,
		`a quote alone " stays, and --as-usual is a box`:       `a quote alone " stays, and as usual is a box`,
		"Pears, 4.5 kg\t8.00\t1.7778 per kg":                   "Pears, 4.5 kg; 8.00; 1.7778 per kg",
		`3" and 4": write it with --dry, or see "Peas  green"`: `3" and 4": write it with dry weights, or see "Peas  green"`,
	} {
		if got := inForm(text); got != want {
			t.Errorf("%s\n got %s\nwant %s", text, got, want)
		}
	}
}
