package main

import (
	stdhtml "html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"putby/ledger/ledgertest"
	"putby/pricing/locale"
)

// sampleIn is the sample ledger as a household of a locale keeps it.
func sampleIn(t *testing.T, tag string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../testdata/sample")); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "settings.csv")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, append(text, "locale,"+tag+"\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

// TestLocaleGolden holds what people are shown in three locales: with a decimal
// comma and days first, with months by name and the sign of money in front, and
// with narrow spaces between thousands.
func TestLocaleGolden(t *testing.T) {
	reports := map[string]string{"cost": "cost", "onhand": "onhand", "worth": "worth strawberries --price 2.49 --size 454g --limit 30", "card": "card", "month": "month", "payback": "payback"}
	for _, tag := range []string{"de-DE", "en-US", "fr-FR"} {
		dir := sampleIn(t, tag)
		for name, args := range reports {
			for _, form := range goldenForms {
				if form.format != "table" {
					continue
				}
				file := filepath.Join("testdata", "golden", "sample", tag, name+form.ending)
				have := toldIn(t, form.width, append(strings.Fields(args), "--ledger", dir))
				golden(t, file, have)
			}
		}
	}
}

// pageText is what stands on a page, a line for each piece of text, with what is
// said where a finger or a pointer rests.
func pageText(html string) string {
	html = regexp.MustCompile(`(?s)<style.*?</style>|<script.*?</script>`).ReplaceAllString(html, "")
	var lines []string
	for line := range strings.Lines(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html, "\n")) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, stdhtml.UnescapeString(line))
		}
	}
	return strings.Join(lines, "\n") + "\n"
}

// TestLocaleGoldenPage holds all that stands on the page in a locale to a file.
func TestLocaleGoldenPage(t *testing.T) {
	for _, tag := range []string{"de-DE", "fr-FR"} {
		have := pageText(told(t, []string{"page", "--ledger", sampleIn(t, tag)}))
		file := filepath.Join("testdata", "golden", "sample", tag, "page.txt")
		golden(t, file, have)
	}
}

// TestLocaleForMachines holds that JSON and CSV are the same to the byte in every
// locale, sentences too.
func TestLocaleForMachines(t *testing.T) {
	tags := locale.Tags()
	if ledgertest.Small() {
		tags = []string{"de-DE"}
	}
	for i, r := range goldenReports {
		if r.ledger == "small" {
			continue
		}
		dir := sampleIn(t, tags[i%len(tags)])
		for _, format := range []string{"json", "csv"} {
			args := append(strings.Fields(r.args), "--format", format, "--ledger")
			if plain, have := told(t, append(args, "../../testdata/sample")), told(t, append(args, dir)); have != plain {
				t.Errorf("%s as %s in %s: %s", r.args, format, tags[i%len(tags)], firstDifference(have, plain))
			}
		}
	}
}

// plainFigure is a date, a month or a number as records have it.
var plainFigure = regexp.MustCompile(`\d{4}-\d{2}|\d\.\d`)

// allowedPlain are where figures stay as records have them: in names, in commands to
// type and in files.
// The looks of a page are no figures either.
var allowedPlain = regexp.MustCompile(`putby [^"]*|0\.5 L jar|<style>.*|^:root.*|<link rel="icon".*|(?:receipts|shelf|runs|tariffs|loads|packs|draws)\.csv[^,;)]*|\b[a-z]+-?\d{4}-\d{2}[-\w]*|--\w+ \S+`)

// TestLocaleIsEverywhere finds figures that a person is shown as records have
// them, where the household writes commas.
func TestLocaleIsEverywhere(t *testing.T) {
	dir := sampleIn(t, "cs-CZ") // dd.MM.y, thousands apart by spaces: every point between digits is one of a date
	czech := regexp.MustCompile(`\d\d\.\d\d\.\d{4}`)
	for _, r := range goldenReports {
		if r.ledger == "small" {
			continue
		}
		for _, format := range []string{"table", "md", "html"} {
			text := told(t, append(strings.Fields(r.args), "--format", format, "--ledger", dir))
			for _, line := range strings.Split(text, "\n") {
				if rest := czech.ReplaceAllString(allowedPlain.ReplaceAllString(line, ""), ""); plainFigure.MatchString(rest) {
					t.Errorf("%s as %s: %s", r.args, format, strings.TrimSpace(line))
				}
			}
		}
	}
}
