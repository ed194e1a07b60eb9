package page

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"
)

// A colour is linear red, green and blue, 0 to 1.
type colour [3]float64

// themes reads the colours of base.css: light, dark and in print.
func themes(t *testing.T) map[string]map[string]colour {
	blocks := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(string(look("base.css")), -1)
	if len(blocks) != 3 {
		t.Fatalf("%d themes in base.css", len(blocks))
	}
	list := map[string]map[string]colour{}
	for i, name := range []string{"light", "dark", "print"} {
		list[name] = map[string]colour{}
		for _, m := range regexp.MustCompile(`--([\w-]+): #(\w+);`).FindAllStringSubmatch(blocks[i][1], -1) {
			list[name][m[1]] = parseColour(m[2])
		}
	}
	return list
}

func parseColour(hex string) (c colour) {
	if len(hex) == 3 {
		hex = fmt.Sprintf("%c%c%c%c%c%c", hex[0], hex[0], hex[1], hex[1], hex[2], hex[2])
	}
	for i := range c {
		var n int
		fmt.Sscanf(hex[2*i:2*i+2], "%02x", &n)
		// The transfer function of sRGB, IEC 61966-2-1.
		if v := float64(n) / 255; v <= 0.04045 {
			c[i] = v / 12.92
		} else {
			c[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return c
}

func (c colour) luminance() float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// contrast is that of WCAG 2.2.
func contrast(a, b colour) float64 {
	x, y := a.luminance()+0.05, b.luminance()+0.05
	return max(x, y) / min(x, y)
}

// lab is CIE L*a*b* for the white of sRGB.
func (c colour) lab() (l, a, b float64) {
	f := func(v float64) float64 {
		if v > 216.0/24389 {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	x := (0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505
	y := c.luminance()
	z := (0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.089
	return 116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))
}

func apart(p, q colour) float64 {
	l, a, b := p.lab()
	m, c, d := q.lab()
	return math.Sqrt((l-m)*(l-m) + (a-c)*(a-c) + (b-d)*(b-d))
}

// sights are how people see: all colours, and without one kind of cone
// (protan and deutan after Viénot, Brettel and Mollon 1999, tritan after Machado,
// Oliveira and Fernandes 2009; matrices from memory).
var sights = map[string][3]colour{
	"all":    {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan": {{0.11238, 0.88762, 0}, {0.11238, 0.88762, 0}, {0.00401, -0.00401, 1}},
	"deutan": {{0.29275, 0.70725, 0}, {0.29275, 0.70725, 0}, {-0.02234, 0.02234, 1}},
	"tritan": {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.3039}},
}

func seen(c colour, by [3]colour) (s colour) {
	for i, row := range by {
		s[i] = min(max(row[0]*c[0]+row[1]*c[1]+row[2]*c[2], 0), 1)
	}
	return s
}

// TestFillingsCanBeToldApart holds the plain fillings of charts apart for every
// sight and in grey, and patterns apart from their ground.
func TestFillingsCanBeToldApart(t *testing.T) {
	for theme, colours := range themes(t) {
		plain := []string{"food", "power", "supplies"}
		for i, a := range plain {
			for _, b := range plain[i+1:] {
				for sight, by := range sights {
					if d := apart(seen(colours[a], by), seen(colours[b], by)); d < 25 {
						t.Errorf("%s, %s: %s and %s are %.0f apart", theme, sight, a, b, d)
					}
				}
				l, _, _ := colours[a].lab()
				m, _, _ := colours[b].lab()
				if math.Abs(l-m) < 10 {
					t.Errorf("%s, in grey: %s and %s are %.0f apart", theme, a, b, math.Abs(l-m))
				}
			}
		}
		for _, pattern := range []string{"wear", "labour", "lost"} {
			if c := contrast(colours[pattern+"-1"], colours[pattern+"-2"]); c < 3 {
				t.Errorf("%s: the pattern %s has a contrast of %.1f", theme, pattern, c)
			}
		}
	}
}

// TestWordsCanBeRead holds words to the contrast of WCAG 2.2, 1.4.3.
func TestWordsCanBeRead(t *testing.T) {
	for theme, colours := range themes(t) {
		for _, words := range []string{"ink", "soft", "good", "bad"} {
			for _, ground := range []string{"paper", "faint"} {
				if c := contrast(colours[words], colours[ground]); c < 4.5 {
					t.Errorf("%s: %s on %s has a contrast of %.2f", theme, words, ground, c)
				}
			}
		}
	}
}

// TestThemesHaveTheSameColours keeps a colour from being forgotten in one.
func TestThemesHaveTheSameColours(t *testing.T) {
	all := themes(t)
	for theme, colours := range all {
		for name := range all["light"] {
			if _, ok := colours[name]; !ok {
				t.Errorf("%s has no --%s", theme, name)
			}
		}
	}
	css := string(look("page.css")) + string(look("base.css")) + string(look("form.css"))
	for _, m := range regexp.MustCompile(`var\(--([\w-]+)\)`).FindAllStringSubmatch(css, -1) {
		if _, ok := all["light"][m[1]]; !ok && !strings.Contains(css, "--"+m[1]+":") {
			t.Errorf("no theme has --%s", m[1])
		}
	}
}
