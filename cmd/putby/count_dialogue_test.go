package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A person who counts the onions as gone is asked what became of them, eaten
// being the likeliest; it is recorded as that, beside the stocktake. Where nobody
// knows, they are missing.
func TestCountAsksWhatBecameOfIt(t *testing.T) {
	for answer, want := range map[string]string{"": ",used,", "spoiled": ",spoiled,", "g": ",given,", "missing": ""} {
		h := sampleHouse(t)
		s := h.ask(answer+"\n", "count", "add", "--item", "onions", "--quantity", "0 kg")
		if s.status != 0 || !strings.Contains(s.prompt, "the books have more: 0.9 kg of Onions, 1.36 CAD. Was it eaten, given or spoiled") {
			t.Fatalf("%q: exit %d, asked %q, %s", answer, s.status, s.prompt, s.stderr)
		}
		draws, err := os.ReadFile(filepath.Join(h.dir, "draws.csv"))
		if err != nil {
			t.Fatal(err)
		}
		row := "2025-11-20,,onions,0.9 kg"
		if has := strings.Contains(string(draws), row); has != (want != "") || has && !strings.Contains(string(draws), row+want) {
			t.Errorf("%q: draws end with %q", answer, draws[len(draws)-60:])
		}
		counts, err := os.ReadFile(filepath.Join(h.dir, "counts.csv"))
		if err != nil || !strings.Contains(string(counts), "2025-11-20,,onions,0 kg") {
			t.Errorf("%q: the stocktake is not recorded, %v", answer, err)
		}
	}
}
