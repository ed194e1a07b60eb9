package main

import (
	"bytes"
	"fmt"
	"html"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/browser"
)

// README's picture of a terminal shows what the program prints. With
// UPDATE_README set the picture is drawn anew.
func TestPictureOfTerminal(t *testing.T) {
	t.Chdir("../..")
	const line, path = `putby worth "strawberries 2.49 454 g limit 12" --brief`, "testdata/pictures/worth.svg"
	var out, errs bytes.Buffer
	status := run(t.Context(), shellWords(line)[1:], environment{
		stdin: strings.NewReader(""), stdout: &out, stderr: &errs, width: 80,
		getenv: func(name string) string {
			if name == "PUTBY_LEDGER" {
				return "testdata/sample"
			}
			return ""
		},
		now: func() time.Time { return time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC) },
	})
	if status != exitDone {
		t.Fatalf("%s: status %d\n%s", line, status, errs.String())
	}
	want := picture("$ "+line, out.String())
	if os.Getenv("UPDATE_README") != "" {
		if err := os.WriteFile(path, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	have, err := os.ReadFile(path)
	if err != nil || string(have) != want {
		t.Errorf("%s does not show what the program prints (%v): UPDATE_README=1 draws it anew", path, err)
	}
}

// README's picture of a phone is the top of the sample's page in a browser. It is
// taken anew with UPDATE_README set.
func TestPictureOfPhone(t *testing.T) {
	path, err := filepath.Abs("../../testdata/pictures/phone.png")
	if err != nil {
		t.Fatal(err)
	}
	const width, height = 360, 740
	if os.Getenv("UPDATE_README") != "" {
		page := filepath.Join(t.TempDir(), "page.html")
		var out bytes.Buffer
		status := run(t.Context(), []string{"page", "-o", page, "--ledger", "../../testdata/sample"}, environment{
			stdin: strings.NewReader(""), stdout: &out, stderr: &out, width: 80,
			getenv: func(string) string { return "" }, now: func() time.Time { return time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC) },
		})
		if status != exitDone {
			t.Fatalf("status %d\n%s", status, out.String())
		}
		tab := browser.Start(t).Open(width)
		tab.Go("file://" + page)
		tab.PictureOf(path, 0, height)
	}
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if c, err := png.DecodeConfig(file); err != nil || c.Width != width || c.Height != height {
		t.Errorf("%s: %d x %d, %v", path, c.Width, c.Height, err)
	}
}

// picture draws what a terminal of 80 columns shows.
func picture(command, output string) string {
	const left, top, step = 16, 30, 18
	lines := append([]string{command}, strings.Split(strings.TrimRight(output, "\n"), "\n")...)
	var svg strings.Builder
	fmt.Fprintf(&svg, `<svg xmlns="http://www.w3.org/2000/svg" width="680" height="%d" role="img" aria-label="%s">`+"\n", top+step*len(lines), html.EscapeString(command))
	svg.WriteString(`<rect width="100%" height="100%" rx="8" fill="#fbfaf7" stroke="#8a8477"/>` + "\n")
	svg.WriteString(`<g font-family="monospace" font-size="13" fill="#22201c" xml:space="preserve">` + "\n")
	for i, text := range lines {
		if text != "" {
			fmt.Fprintf(&svg, `<text x="%d" y="%d" xml:space="preserve">%s</text>`+"\n", left, top+step*i, html.EscapeString(text))
		}
	}
	svg.WriteString("</g>\n</svg>\n")
	return svg.String()
}
