package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
)

// screens are what a household looks at, of which some tell what to type next.
var screens = []string{
	"", "today", "onhand", "onhand --soon 400", "cost", "cost --by item", "month", "compare", "payback", "when", "offers", "energy", "prove", "card",
	"changes", "list", "stocktake --sheet", "labels --left", "food list", "run list", "pack list", "receipt list", "tariff list", "machine list",
}

// A command in a screen begins with the program's name and ends where the
// sentence goes on, or at two spaces.
var toldCommand = regexp.MustCompile(`putby (?:[a-z]+(?: (?:--[a-z-]+|"[^"]*"|'[^']*'|@?[a-z0-9][a-z0-9_.:=-]*))*)`)

// Those ask for what only a person knows: with nobody there they say what that is.
var onlyAsk = []string{"putby finish r2", "putby draw add", "putby food add", "putby machine add", "putby receipt add", "putby setup", "putby price add --item plums"}

// TestToldCommands types every command that a screen tells to type, with somebody
// to ask and with nobody. Each does something: it is done, or it asks.
func TestToldCommands(t *testing.T) {
	for _, house := range []struct {
		name, from string
		now        time.Time
	}{
		{"sample", "../../testdata/sample", time.Date(2025, 11, 16, 12, 0, 0, 0, time.UTC)},
		{"summer", "testdata/script/today_screen.txtar", time.Date(2026, 6, 12, 10, 0, 0, 0, time.UTC)},
		{"empty", "", time.Date(2026, 6, 12, 10, 0, 0, 0, time.UTC)},
	} {
		t.Run(house.name, func(t *testing.T) {
			h := houseFrom(t, house.from, house.now)
			var told []string
			for _, screen := range screens {
				shown := h.wide(400, strings.Fields(screen)...)
				out := shown.stdout + shown.stderr // one that says what is missing tells commands too
				for _, command := range toldCommand.FindAllString(out, -1) {
					if command = strings.TrimRight(command, ".,:"); !slices.Contains(told, command) {
						told = append(told, command)
					}
				}
			}
			if len(told) < 3 {
				t.Errorf("only %q are told", told)
			}
			for _, command := range told {
				args := wordsOf(command)[1:]
				got := houseFrom(t, house.from, house.now).run(args...)
				if asks := slices.Contains(onlyAsk, command); got.status != exitDone && !asks || got.status == exitDone && asks {
					t.Errorf("%s: status %d, %s", command, got.status, got.stderr)
				}
				if got = houseFrom(t, house.from, house.now).ask("", args...); got.status != exitDone && !strings.Contains(got.prompt, ": ") {
					t.Errorf("%s, with somebody to ask: status %d, %s", command, got.status, got.stderr)
				}
			}
		})
	}
}

// houseFrom is a new copy of a household: of a folder, of the folder led of a
// script, or of no food at all.
func houseFrom(t *testing.T, from string, now time.Time) *house {
	t.Helper()
	files := map[string][]byte{"settings.csv": []byte("setting,value\ncurrency,EUR\nzone,Europe/Vienna\n")}
	switch {
	case strings.HasSuffix(from, ".txtar"):
		script, err := txtar.ParseFile(from)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range script.Files {
			if name, ok := strings.CutPrefix(f.Name, "led/"); ok {
				files[name] = f.Data
			}
		}
	case from != "":
		files = nil
		h := &house{t: t, dir: from, now: now}
		files = map[string][]byte{}
		for path, text := range h.files() {
			name, err := filepath.Rel(from, path)
			if err != nil {
				t.Fatal(err)
			}
			files[name] = []byte(text)
		}
	}
	h := &house{t: t, dir: t.TempDir(), now: now}
	for name, text := range files {
		path := filepath.Join(h.dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return h
}

// wordsOf splits a command as a shell does.
func wordsOf(command string) (words []string) {
	for _, m := range regexp.MustCompile(`"([^"]*)"|'([^']*)'|(\S+)`).FindAllStringSubmatch(command, -1) {
		words = append(words, m[1]+m[2]+m[3])
	}
	return words
}
