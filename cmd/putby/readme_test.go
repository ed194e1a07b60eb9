package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/manual"
	"putby/ledger"
)

// TestReadme runs every `$ putby` line of the console blocks in README.md, at
// the top of the repository, and holds the output to what the block shows.
// With UPDATE_README set it writes the output into the blocks instead.
func TestReadme(t *testing.T) {
	t.Chdir("../..")
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	inBlock, ran := false, 0
	var want, got []string
	flush := func() {
		if strings.Join(want, "\n") != strings.Join(got, "\n") {
			t.Errorf("README shows\n%s\nbut the program prints\n%s", strings.Join(want, "\n"), strings.Join(got, "\n"))
		}
		for _, line := range got {
			out.WriteString(line + "\n")
		}
		want, got = nil, nil
	}
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case line == "```console":
			inBlock = true
		case line == "```" && inBlock:
			inBlock = false
			flush()
		case inBlock && strings.HasPrefix(line, "$ "):
			flush()
			got = consoleLines(t, strings.TrimPrefix(line, "$ "), 110)
			ran++
		case inBlock:
			want = append(want, line)
			continue
		}
		out.WriteString(line + "\n")
	}
	if ran == 0 {
		t.Fatal("README runs no command")
	}
	if os.Getenv("UPDATE_README") != "" {
		if err := os.WriteFile("README.md", []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestTopics runs every `$ putby` line of the manual's topics, each topic in a
// folder of its own, and holds the output to what stands below the line. With
// UPDATE_README set it writes the output there instead.
func TestTopics(t *testing.T) {
	dir, err := filepath.Abs("internal/manual/topics")
	if err != nil {
		t.Fatal(err)
	}
	ran := 0
	for _, name := range manual.Topics() {
		t.Chdir(t.TempDir())
		path := filepath.Join(dir, name+".txt")
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		lines := strings.Split(strings.TrimRight(string(text), "\n"), "\n")
		for i := 0; i < len(lines); {
			command, ok := strings.CutPrefix(lines[i], "  $ ")
			out = append(out, lines[i])
			i++
			if !ok {
				continue
			}
			for strings.HasSuffix(command, "\\") {
				command = strings.TrimSuffix(command, "\\") + strings.TrimSpace(lines[i])
				out = append(out, lines[i])
				i++
			}
			var want []string
			for i < len(lines) && !strings.HasPrefix(lines[i], "  $ ") && (lines[i] == "" || lines[i][0] == ' ') {
				want = append(want, strings.TrimPrefix(lines[i], "  "))
				i++
			}
			for len(want) > 0 && want[len(want)-1] == "" {
				want = want[:len(want)-1]
				i--
			}
			got := consoleLines(t, command, 78)
			if !slices.Equal(got, want) {
				t.Errorf("help %s shows\n%s\nbut the program prints\n%s", name, strings.Join(want, "\n"), strings.Join(got, "\n"))
			}
			for _, line := range got {
				out = append(out, strings.TrimRight("  "+line, " "))
			}
			ran++
		}
		if os.Getenv("UPDATE_README") != "" {
			if err := os.WriteFile(path, []byte(strings.Join(out, "\n")+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	if ran < 6 {
		t.Errorf("the topics run %d commands", ran)
	}
}

// TestTopicBegins follows the commands of "putby help recording" that keep the
// books from an empty folder on, to the figures that they end with.
func TestTopicBegins(t *testing.T) {
	topic, _ := manual.Topic("recording")
	_, block, _ := strings.Cut(topic.Text, "# From an empty folder")
	block, _, _ = strings.Cut(block, "\n# ")
	t.Chdir(t.TempDir())
	ledger, last := "", ""
	for line := range strings.Lines(strings.ReplaceAll(block, "\\\n", "")) {
		line = strings.TrimSpace(line)
		if dir, found := strings.CutPrefix(line, "export PUTBY_LEDGER="); found {
			ledger = dir
		}
		if !strings.HasPrefix(line, "putby ") {
			continue
		}
		var out bytes.Buffer
		status := run(t.Context(), shellWords(line)[1:], environment{
			stdin: strings.NewReader(""), stdout: &out, stderr: &out, width: 110,
			getenv: func(string) string { return ledger }, now: func() time.Time { return time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC) },
		})
		if last = out.String(); status != exitDone {
			t.Errorf("%s: status %d\n%s", line, status, last)
		}
	}
	if !strings.Contains(last, "Plums") {
		t.Errorf("the topic ends with\n%s", last)
	}
}

// consoleLines runs a command line of words and "quoted words" in a terminal of
// that many columns.
func consoleLines(t *testing.T, line string, width int) []string {
	t.Helper()
	words := shellWords(line)
	if words[0] != "putby" {
		t.Fatalf("README runs %q", line)
	}
	var stdout, stderr bytes.Buffer
	status := run(t.Context(), words[1:], environment{
		stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr, width: width,
		getenv: func(string) string { return "" }, now: func() time.Time { return time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC) },
	})
	if status != 0 {
		t.Errorf("%s: status %d\n%s", line, status, stderr.String())
	}
	return strings.Split(strings.TrimRight(stdout.String(), "\n"), "\n")
}

func shellWords(line string) []string {
	var words []string
	var word strings.Builder
	quoted, some := false, false
	for _, r := range line {
		switch {
		case r == '"':
			quoted, some = !quoted, true
		case r == ' ' && !quoted:
			if some {
				words = append(words, word.String())
			}
			word.Reset()
			some = false
		default:
			word.WriteRune(r)
			some = true
		}
	}
	return append(words, word.String())
}

// TestReadmeWeek types the week that README shows as it stands, some months later, and
// holds its records to those of the week that is typed elsewhere, each line on its day;
// but README buys lids and weighs what it dries, so that nothing has to be looked at again.
func TestReadmeWeek(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	want := weekTyped(t)
	_, week, _ := strings.Cut(string(text), "A week in the sample's household")
	_, week, _ = strings.Cut(week, "```sh\n")
	week, _, _ = strings.Cut(week, "```")
	if n := strings.Count(week, "\n"); n == 0 || n > 25 {
		t.Fatalf("README's week has %d lines", n)
	}
	t.Chdir(t.TempDir())
	for line := range strings.Lines(strings.ReplaceAll(week, " && ", "\n")) {
		line = strings.TrimSpace(line)
		if dir, is := strings.CutPrefix(line, "cd "); is {
			t.Chdir(dir)
			continue
		}
		var out bytes.Buffer
		status := run(t.Context(), shellWords(line)[1:], environment{
			stdin: strings.NewReader(""), stdout: &out, stderr: &out, width: 80,
			getenv: func(string) string { return "" }, now: func() time.Time { return time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC) },
		})
		if status != exitDone {
			t.Errorf("%s: status %d\n%s", line, status, out.String())
		}
		for _, doubt := range []string{"Look again", "Whether it is dry is not known", "too few"} {
			if strings.Contains(out.String(), doubt) {
				t.Errorf("%s: it says %q\n%s", line, doubt, out.String())
			}
		}
	}
	if today := strings.Join(consoleLines(t, "putby today", 110), "\n"); !strings.Contains(today, ": nothing has to be done") {
		t.Errorf("the week ends on\n%s", today)
	}
	own := []string{ledger.SettingsFile, ledger.ReceiptsFile, ledger.ShelfFile}
	h := &house{t: t, dir: "."}
	unweighed := regexp.MustCompile(`(?m)^((?:[^,\n]*,){3}).*$`)
	for name, text := range h.records() {
		if name == ledger.LoadsFile {
			text, want[name] = unweighed.ReplaceAllString(text, "$1"), unweighed.ReplaceAllString(want[name], "$1")
		}
		if !slices.Contains(own, name) && text != want[name] {
			t.Errorf("%s ends\n%s\nnot\n%s", name, h.last(name, 8), lastLines(want[name], 8))
		}
	}
}

// Every command line that README and the topics name is one that the program
// has, with its flags.
func TestNamedCommands(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	lines := regexp.MustCompile("(?s)`(putby [^`]*)`").FindAllStringSubmatch(string(readme), -1)
	if len(lines) < 15 {
		t.Errorf("README names %d commands", len(lines))
	}
	named := regexp.MustCompile(`(?m)^  (putby .*)$`)
	for _, name := range manual.Topics() {
		topic, _ := manual.Topic(name)
		lines = append(lines, named.FindAllStringSubmatch(strings.ReplaceAll(topic.Text, "\\\n", ""), -1)...)
	}
	root := newRootCommand(&app{})
	for _, found := range lines {
		line := strings.Join(strings.Fields(found[1]), " ")
		words := shellWords(line)[1:]
		if words[0] == "help" {
			words = words[1:]
		}
		if len(words) == 0 || words[0] == "COMMAND" || words[0] == "TOPIC" {
			continue
		}
		if _, ok := manual.Topic(words[0]); ok {
			continue
		}
		cmd, rest, err := root.Find(words)
		if err != nil || cmd == root || !cmd.Runnable() && len(rest) > 0 && rest[0] != "--help" {
			t.Errorf("there is no command %q (%v)", line, err)
			continue
		}
		for _, word := range rest {
			if name, is := strings.CutPrefix(word, "--"); is && name != "help" {
				name, _, _ = strings.Cut(name, "=")
				if cmd.Flags().Lookup(name) == nil && root.PersistentFlags().Lookup(name) == nil {
					t.Errorf("%q: there is no --%s", line, name)
				}
			}
		}
	}
}
