package serve

import (
	"html"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"putby/ledger/report"
)

// peas is a ledger of one old pack and a food without a caution.
func peas(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,UTC\n",
		"foods.csv":    "food,basis\npeas,mass\n",
		"packs.csv":    "pack,item,date,count,each,best_by,cost\np,peas,2025-01-02,1,1 kg,2025-11-15,3\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// Every page says that it does not say food is safe, also those of a ledger in
// which no food has a caution.
func TestEveryPageSaysItDoesNotSaySafe(t *testing.T) {
	plain := peas(t)
	for _, dir := range []string{plain, sample(t)} {
		link, _ := start(t, dir, "127.0.0.1:0")
		for _, path := range []string{"", "receipt", "run", "start", "finish", "more", "pack", "take", "freeze", "price", "batch", "stocktake", "food", "supplies", "changes", "change/1", "records", "record/food/2", "add/machine", "settings", "worth", "import"} {
			_, text := ask(t, "GET", link+path, "")
			if text = html.UnescapeString(text); strings.Count(text, report.SafetyLine) != 1 {
				t.Errorf("/%s says it %d times", path, strings.Count(text, report.SafetyLine))
			}
		}
	}
	link, _ := start(t, plain, "127.0.0.1:0")
	if _, text := ask(t, "GET", link+"labels/p", ""); !strings.Contains(text, "Putby does not say that food is safe") {
		t.Error("labels do not say it")
	}
}

// A field is asked for once in a form: of two of one name a browser sends both,
// and one would be lost.
func TestFieldsAreAskedOnce(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	for _, path := range []string{"receipt", "run", "start", "finish", "pack", "take", "price", "batch", "food", "supplies", "worth"} {
		_, text := ask(t, "GET", link+path, "")
		seen := map[string]bool{}
		for _, m := range regexp.MustCompile(`<label for="([^"]*)"`).FindAllStringSubmatch(text, -1) {
			if seen[m[1]] {
				t.Errorf("/%s asks for %s twice", path, m[1])
			}
			seen[m[1]] = true
		}
		if len(seen) < 4 {
			t.Errorf("/%s asks for %d fields", path, len(seen))
		}
	}
}

// looked is what a form says when it is looked at first.
func looked(t *testing.T, link, path string, fields map[string]string) string {
	t.Helper()
	_, text := ask(t, "GET", link+path, "")
	in := url.Values{"once": {onceIn(t, text)}, "do": {"look"}}
	for name, value := range fields {
		in.Set(name, value)
	}
	_, text = post(t, link, path, in)
	return text
}

// The pack form warns of a pack that still holds water, as pack add does, and
// the form that takes out of one that is past its best-by date. A litre of broth holds
// 79.6304 g of solids (1.0144 kg of 92.15 % water; USDA SR28, 06172).
func TestFormsWarn(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	pack := map[string]string{"pack": "new", "run": "c47", "item": "chicken-broth", "date": "2025-11-16", "count": "1", "each": "1 L", "with": "1 jar-1l, 1 absorber-300"}
	pack["dry"] = "318.5 g"
	if text := looked(t, link, "pack", pack); !strings.Contains(text, "By its weights 75 % of pack new is still water") || strings.Contains(text, "It needs 1 of") {
		t.Error("a moist pack is not told")
	}
	pack["dry"] = "82 g"
	if text := looked(t, link, "pack", pack); strings.Contains(text, "is still water (") || !strings.Contains(text, "It needs 1 of Oxygen absorber 300 cc") {
		t.Error("a dry pack is not told")
	}
	link, _ = start(t, peas(t), "127.0.0.1:0")
	draw := map[string]string{"pack": "p", "quantity": "1", "date": "2025-11-16", "reason": "used"}
	if text := looked(t, link, "take", draw); !strings.Contains(text, "Pack p was best by 2025-11-15, 1 day before.") {
		t.Error("a pack past its day is not told")
	}
}
