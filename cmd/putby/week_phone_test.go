package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"putby/cmd/putby/internal/browser"
	"putby/ledger/ledgertest"
)

// A hand does what a person does to a page: with a finger, or with keys alone.
type hand interface {
	// write writes text into a field, in place of what it holds.
	write(field, text string)
	// push pushes what leads to another page, and touch what does not.
	push(what string)
	touch(what string)
}

// A finger taps, and is counted.
type finger struct {
	*browser.Tab
	taps int
}

func (f *finger) write(field, text string) { f.touch(field); f.Retype(text) }
func (f *finger) push(what string)         { f.taps++; f.TapAway(what) }
func (f *finger) touch(what string)        { f.taps++; f.Tap(what) }

// keyboard goes on by the Tab key, and enters.
type keyboard struct{ *browser.Tab }

func (k keyboard) write(field, text string) { k.TabTo(field); k.Retype(text) }
func (k keyboard) push(what string)         { k.TabTo(what); k.PressAway("Enter") }
func (k keyboard) touch(what string)        { k.TabTo(what); k.Press(" ") }

// A step of the week is a form that is opened, filled in and saved.
type step struct {
	at, path string
	folded   bool       // its link is
	fields   [][]string // field and text; a box alone is ticked
	says     string     // what the page says then
}

// weekOnPhone is the week of the script week.txtar by forms. What is not written
// here is filled in already.
var weekOnPhone = []step{
	{"2025-11-17T22:00:00Z", "pack", false, nil, "6 containers of 1 L Chicken broth"},
	{"2025-11-18T15:00:00Z", "receipt", false, [][]string{{"said", "2 kg carrots 2.79\n10 lb chicken backs 9.90\nsoap 1.99\ncoupon 1.00"}}, "13.68 CAD"},
	{"2025-11-19T20:00:00Z", "batch", true, [][]string{{"item", "squash puree"}, {"quantity", "5,6 L"}, {"from", "6,5 kg Butternut squash"}}, "5.6 L Squash purée"},
	{"2025-11-19T20:00:00Z", "start", false, [][]string{{"loads", "5.6 L squash puree"}}, "Run c48 is running since Wed 2025-11-19 at 16:00"},
	{"2025-11-21T13:00:00Z", "finish", false, [][]string{{"kwh", "15,8"}}, "41h, 15.8 kWh"},
	{"2025-11-21T13:00:00Z", "receipt", false, [][]string{{"shop", "Quillet & Daughters"}, {"said", "2 kg apples 3.60\ncream 2.49"}}, "6.09 CAD"},
	{"2025-11-21T13:00:00Z", "start", false, [][]string{{"loads", "1.7 kg carrots\n3 kg apples"}}, "Run c49 is running"},
	{"2025-11-23T16:00:00Z", "finish", false, [][]string{{"as-usual"}}, "Run c49: 1.7 kg Carrots and 3 kg Apple slices, 51h"},
	{"2025-11-23T16:00:00Z", "pack", false, [][]string{{"packs", "squash puree 5\ncarrots 2 x 0.7 kg\napples 6"}}, "5 labels for pack c48-a"},
	{"2025-11-23T16:00:00Z", "take", false, [][]string{{"things", "2 chicken broth\nleek soup\nstrawberries\nchives\n2 squash puree"}}, "Left in store"},
}

// mostTaps is how many taps the week may take, typing aside.
const mostTaps = 60

// The week is lived on a phone, by taps and by keys alone, and ends with the same
// records as by commands.
func TestWeekOnPhone(t *testing.T) {
	want := weekTyped(t)
	for _, by := range []string{"taps", "keys"} {
		t.Run(by, func(t *testing.T) {
			if ledgertest.Small() && by == "keys" {
				t.Skip("the server meets the same as by taps")
			}
			h := sampleHouse(t)
			server := h.serve()
			tab := browser.Start(t).Open(360)
			tab.Prefer("light")
			link := server.link()
			tab.Go(link)
			tab.Go(link[:strings.Index(link, "?")])
			count := &finger{Tab: tab}
			var live hand = count
			if by == "keys" {
				live = keyboard{tab}
			}
			for i, s := range weekOnPhone {
				server.clock(s.at)
				s.live(t, tab, live, by+"-"+string(rune('a'+i)))
			}
			if count.taps > mostTaps {
				t.Errorf("a week takes %d taps; %d are the most", count.taps, mostTaps)
			}
			t.Logf("%d taps", count.taps)
			for name, text := range h.records() {
				if text != want[name] {
					t.Errorf("by forms %s ends\n%s\nand by commands\n%s", name, h.last(name, 8), lastLines(want[name], 8))
				}
			}
			for _, said := range tab.Console() {
				t.Errorf("the browser says %s", said)
			}
		})
	}
}

// live opens a form, fills it in, saves it and reads what is said.
func (s step) live(t *testing.T, tab *browser.Tab, by hand, name string) {
	t.Helper()
	if s.folded {
		by.touch("nav summary")
	}
	by.push(`nav a[href="/` + s.path + `"]`)
	for _, field := range s.fields {
		if len(field) == 1 {
			by.touch("#" + field[0])
		} else {
			by.write("#"+field[0], field[1])
		}
	}
	shot(tab, "week-"+name+"-"+s.path)
	by.push("button[value=save]")
	shot(tab, "week-"+name+"-saved")
	var text string
	var wide int
	if tab.Eval("document.querySelector('main').innerText", &text); !strings.Contains(text, s.says) || !strings.Contains(text, "Undo") {
		t.Fatalf("/%s does not say %q and Undo: %s", s.path, s.says, text)
	}
	if tab.Eval("document.documentElement.scrollWidth", &wide); wide > 360 {
		t.Errorf("/%s is %d pixels wide", s.path, wide)
	}
}

// shot takes a picture for people to look at, where PICTURES names a folder.
func shot(tab *browser.Tab, name string) {
	if dir := os.Getenv("PICTURES"); dir != "" {
		tab.Picture(filepath.Join(dir, name+".png"))
	}
}

// A served house is one that a browser looks at.
type served struct {
	t   *testing.T
	mu  sync.Mutex
	now time.Time
	out bytes.Buffer
}

func (s *served) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.out.Write(p)
}

// clock sets the time.
func (s *served) clock(text string) {
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		s.t.Fatal(err)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.now = at
}

// serve runs the command serve until the test ends.
func (h *house) serve() *served {
	h.t.Helper()
	s := &served{t: h.t, now: h.now}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan int, 1)
	go func() {
		ended <- run(ctx, []string{"serve", "--ledger", h.dir}, environment{
			stdin: strings.NewReader(""), stdout: s, stderr: s, getenv: func(string) string { return "" },
			now: func() time.Time {
				s.mu.Lock()
				defer s.mu.Unlock()
				return s.now
			},
		})
	}()
	h.t.Cleanup(func() {
		cancel()
		if status := <-ended; status != exitDone {
			h.t.Errorf("serve ends with status %d: %s", status, s.out.String())
		}
	})
	return s
}

// link is the one that lets a browser in.
func (s *served) link() string {
	for range 1000 {
		s.mu.Lock()
		found := regexp.MustCompile(`http://\S+token=\S+`).FindString(s.out.String())
		s.mu.Unlock()
		if found != "" {
			return found
		}
		time.Sleep(10 * time.Millisecond)
	}
	s.t.Fatal("no link is printed")
	return ""
}
