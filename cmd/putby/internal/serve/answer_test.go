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

// TestFontsAreFetchedOnce: pages that are served hold no typeface but name it, by
// what is in it, so that a browser may keep it for good.
func TestFontsAreFetchedOnce(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	for _, path := range []string{"", "pack", "worth"} {
		_, text := ask(t, "GET", link+path, "")
		if strings.Contains(text, "base64") {
			t.Errorf("/%s holds a font", path)
		}
		named := regexp.MustCompile(`url\((/font/[\w.-]+)\)`).FindAllStringSubmatch(text, -1)
		if len(named) != len(page.Fonts()) {
			t.Errorf("/%s names %d fonts of %d", path, len(named), len(page.Fonts()))
		}
		for _, name := range named {
			answer, err := http.Get(strings.TrimSuffix(link, "/") + name[1]) // nobody has to be let in for it
			if err != nil {
				t.Fatal(err)
			}
			font, _ := io.ReadAll(answer.Body)
			answer.Body.Close()
			if string(font) != string(page.Fonts()[name[1]]) || answer.Header.Get("Cache-Control") != "public, max-age=31536000, immutable" ||
				answer.Header.Get("Content-Type") != "font/woff2" {
				t.Errorf("%s is %d bytes, %v", name[1], len(font), answer.Header)
			}
		}
	}
}
