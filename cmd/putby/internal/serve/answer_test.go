package serve

import (
	"compress/gzip"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"putby/cmd/putby/internal/page"
)

// TestAnswersAreCompressed: a browser that can read gzip gets it, any other the
// page as it is.
func TestAnswersAreCompressed(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	get := func(accept string) (*http.Response, string) {
		return ask(t, "GET", link, "", "Accept-Encoding", accept)
	}
	plain, want := get("identity")
	if plain.Header.Get("Content-Encoding") != "" || plain.Header.Get("Vary") != "Accept-Encoding" {
		t.Errorf("a browser that reads no gzip gets %v", plain.Header)
	}
	for accept, squeezed := range map[string]bool{
		"gzip, deflate, br": true, "br;q=1.0, GZIP;q=0.5": true, "x-gzip": true,
		"br": false, "gzip;q=0": false, "gzip; q=0.000": false, "identity": false,
	} {
		answer, body := get(accept)
		if is := answer.Header.Get("Content-Encoding") == "gzip"; is != squeezed {
			t.Errorf("for %q it is gzip: %v", accept, is)
			continue
		}
		if squeezed {
			if len(body) > len(want)/3 {
				t.Errorf("%d of %d bytes are sent", len(body), len(want))
			}
			z, err := gzip.NewReader(strings.NewReader(body))
			if err != nil {
				t.Fatal(err)
			}
			text, err := io.ReadAll(z)
			if err != nil {
				t.Fatal(err)
			}
			body = string(text)
		}
		if body != want {
			t.Errorf("for %q the page is another", accept)
		}
	}
}

var styleNamed = regexp.MustCompile(`<link rel="stylesheet" href="(/style/[\w.-]+)">`)

// TestStylesAndFontsAreFetchedOnce: pages that are served hold no styles and no
// typeface but name them, by what is in them, so that a browser may keep them for good.
func TestStylesAndFontsAreFetchedOnce(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	for _, path := range []string{"", "pack", "worth"} {
		_, text := ask(t, "GET", link+path, "")
		if strings.Contains(text, "base64") || strings.Contains(text, "<style") {
			t.Errorf("/%s holds a font or styles", path)
		}
		named := styleNamed.FindAllStringSubmatch(text, -1)
		if len(named) != 1 {
			t.Fatalf("/%s names %d files of styles", path, len(named))
		}
		fonts := regexp.MustCompile(`url\((/font/[\w.-]+)\)`).FindAllStringSubmatch(string(page.Files()[named[0][1]].Data), -1)
		if len(fonts) != 2 {
			t.Errorf("/%s names %d fonts", path, len(fonts))
		}
		for _, name := range append(named, fonts...) {
			answer, err := http.Get(strings.TrimSuffix(link, "/") + name[1]) // nobody has to be let in for it
			if err != nil {
				t.Fatal(err)
			}
			data, _ := io.ReadAll(answer.Body)
			answer.Body.Close()
			file := page.Files()[name[1]]
			if string(data) != string(file.Data) || len(data) == 0 || answer.Header.Get("Cache-Control") != "public, max-age=31536000, immutable" ||
				answer.Header.Get("Content-Type") != file.Type {
				t.Errorf("%s is %d bytes, %v", name[1], len(data), answer.Header)
			}
		}
	}
}
