package browser

import (
	"encoding/base64"
	"encoding/json"
	"os"
	"sync"
	"time"
)

// A Tab is a page of the browser in a window of its own size.
type Tab struct {
	b        *Browser
	session  string
	mu       sync.Mutex
	loaded   chan struct{}
	requests []string
	console  []string
}

// Open opens an empty tab whose window is so many CSS pixels wide.
func (b *Browser) Open(width int) *Tab {
	b.t.Helper()
	var target struct{ TargetID string }
	b.must(b.pipe.call("", "Target.createTarget", map[string]any{"url": "about:blank"}, &target))
	var attached struct{ SessionID string }
	b.must(b.pipe.call("", "Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &attached))
	tab := &Tab{b: b, session: attached.SessionID, loaded: make(chan struct{}, 16)}
	b.mu.Lock()
	b.tabs[tab.session] = tab
	b.mu.Unlock()
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		tab.call(domain+".enable", nil, nil)
	}
	tab.Resize(width)
	return tab
}

func (t *Tab) call(method string, params, result any) {
	t.b.t.Helper()
	t.b.must(t.b.pipe.call(t.session, method, params, result))
}

// Resize makes the window another width; below 600 pixels it is a phone.
func (t *Tab) Resize(width int) {
	t.b.t.Helper()
	t.call("Emulation.setDeviceMetricsOverride", map[string]any{
		"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": width < 600,
	}, nil)
}

// Prefer sets what the system prefers: "light" or "dark".
func (t *Tab) Prefer(scheme string) {
	t.b.t.Helper()
	t.call("Emulation.setEmulatedMedia", map[string]any{
		"features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}},
	}, nil)
}

// Grey shows the page as somebody sees it who sees no colour.
func (t *Tab) Grey() {
	t.b.t.Helper()
	t.call("Emulation.setEmulatedVisionDeficiency", map[string]any{"type": "achromatopsia"}, nil)
}

// Go opens an address and waits until the page is there.
func (t *Tab) Go(url string) {
	t.b.t.Helper()
	t.drain()
	var went struct{ ErrorText string }
	t.call("Page.navigate", map[string]any{"url": url}, &went)
	if went.ErrorText != "" {
		t.b.t.Fatalf("opening %s: %s", url, went.ErrorText)
	}
	t.Loaded()
}

// drain forgets pages that were loaded before.
func (t *Tab) drain() {
	for {
		select {
		case <-t.loaded:
		default:
			return
		}
	}
}

// Loaded waits for a page to be loaded, after something that led to another.
func (t *Tab) Loaded() {
	t.b.t.Helper()
	select {
	case <-t.loaded:
	case <-time.After(patience):
		t.b.t.Fatalf("no page was loaded in %v", patience)
	}
}

// Follow does an action that leads to another page, and waits for that.
func (t *Tab) Follow(script string) {
	t.b.t.Helper()
	t.drain()
	t.Eval(script, nil)
	t.Loaded()
}

// Eval evaluates a JavaScript expression in the page and decodes its value
// into result, unless that is nil.
func (t *Tab) Eval(script string, result any) {
	t.b.t.Helper()
	var answer struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *struct {
			Text      string
			Exception struct{ Description string }
		}
	}
	t.call("Runtime.evaluate", map[string]any{"expression": script, "returnByValue": true, "awaitPromise": true}, &answer)
	if e := answer.ExceptionDetails; e != nil {
		t.b.t.Fatalf("%s: %s %s", script, e.Text, e.Exception.Description)
	}
	if result == nil {
		return
	}
	if err := json.Unmarshal(answer.Result.Value, result); err != nil {
		t.b.t.Fatalf("%s: %v", script, err)
	}
}

// Picture writes a picture of the whole page as a PNG file.
func (t *Tab) Picture(file string) {
	t.b.t.Helper()
	var shot struct{ Data string }
	t.call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true, "fromSurface": true}, &shot)
	t.write(file, shot.Data)
}

// Print prints the page, on the paper that its styles ask for, as a PDF file.
func (t *Tab) Print(file string) {
	t.b.t.Helper()
	var pdf struct{ Data string }
	t.call("Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": true}, &pdf)
	t.write(file, pdf.Data)
}

// PrintOn is Print on paper of a size, in millimetres, unless the page's styles ask
// for another.
func (t *Tab) PrintOn(file string, width, height float64) {
	t.b.t.Helper()
	const inch = 25.4
	var pdf struct{ Data string }
	t.call("Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": true, "paperWidth": width / inch, "paperHeight": height / inch}, &pdf)
	t.write(file, pdf.Data)
}

func (t *Tab) write(file, data string) {
	t.b.t.Helper()
	decoded, err := base64.StdEncoding.DecodeString(data)
	t.b.must(err)
	t.b.must(os.WriteFile(file, decoded, 0o600))
}

// Requests returns the addresses that were asked for, but for what the page
// itself holds.
func (t *Tab) Requests() []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return append([]string(nil), t.requests...)
}

// Console returns all that was said on the console: errors of scripts, of the
// content policy and of loading.
func (t *Tab) Console() []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return append([]string(nil), t.console...)
}

// event notes what the browser tells of the page.
func (t *Tab) event(e event) {
	var p struct {
		Request          struct{ URL string }
		Entry            struct{ Level, Text string }
		ExceptionDetails struct{ Text string }
		Type             string
	}
	_ = json.Unmarshal(e.Params, &p)
	t.mu.Lock()
	defer t.mu.Unlock()
	switch e.Method {
	case "Page.loadEventFired":
		select {
		case t.loaded <- struct{}{}:
		default:
		}
	case "Network.requestWillBeSent":
		if !inPage(p.Request.URL) {
			t.requests = append(t.requests, p.Request.URL)
		}
	case "Log.entryAdded":
		t.console = append(t.console, p.Entry.Level+": "+p.Entry.Text)
	case "Runtime.exceptionThrown":
		t.console = append(t.console, "exception: "+p.ExceptionDetails.Text)
	case "Runtime.consoleAPICalled":
		t.console = append(t.console, "console."+p.Type)
	}
}

// PictureOf writes a picture of the page from one height to another, in pixels.
func (t *Tab) PictureOf(file string, top, bottom int) {
	t.b.t.Helper()
	var width int
	t.Eval("innerWidth", &width)
	var shot struct{ Data string }
	t.call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true, "clip": map[string]any{
		"x": 0, "y": top, "width": width, "height": bottom - top, "scale": 1,
	}}, &shot)
	t.write(file, shot.Data)
}

// Scripts lets pages run scripts, or not.
func (t *Tab) Scripts(run bool) {
	t.b.t.Helper()
	t.call("Emulation.setScriptExecutionDisabled", map[string]any{"value": !run}, nil)
}

// Unguarded has the browser pass over the content policy of pages.
func (t *Tab) Unguarded() {
	t.b.t.Helper()
	t.call("Page.setBypassCSP", map[string]any{"enabled": true}, nil)
}

// Reload loads the page again, as its button does.
func (t *Tab) Reload() {
	t.b.t.Helper()
	t.drain()
	t.call("Page.reload", nil, nil)
	t.Loaded()
}

// Back goes back to the page before.
func (t *Tab) Back() {
	t.b.t.Helper()
	t.Follow("history.back()")
}
