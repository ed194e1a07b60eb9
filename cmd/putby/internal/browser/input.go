package browser

import "fmt"

// Tap taps the first element that a selector finds, as a finger does: in its
// middle, once it is in sight. It reports where nothing is to be tapped.
func (t *Tab) Tap(selector string) {
	t.b.t.Helper()
	x, y := t.middle(selector)
	for _, kind := range []string{"touchStart", "touchEnd"} {
		points := []map[string]any{}
		if kind == "touchStart" {
			points = append(points, map[string]any{"x": x, "y": y})
		}
		t.call("Input.dispatchTouchEvent", map[string]any{"type": kind, "touchPoints": points}, nil)
	}
}

// TapAway taps what leads to another page, and waits for that.
func (t *Tab) TapAway(selector string) {
	t.b.t.Helper()
	t.drain()
	t.Tap(selector)
	t.Loaded()
}

// middle is the middle of an element, in the window; the test fails where
// something else lies over it.
func (t *Tab) middle(selector string) (x, y float64) {
	t.b.t.Helper()
	var at struct {
		X, Y float64
		Why  string
	}
	t.Eval(fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		if (!e) return {Why: "there is none"};
		e.scrollIntoView({block: "center", behavior: "instant"});
		const r = e.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + r.height / 2;
		const top = document.elementFromPoint(x, y);
		if (!top || !(e.contains(top) || top.contains(e))) return {Why: "it cannot be touched: " + (top ? top.outerHTML.slice(0, 80) : "out of sight")};
		return {X: x, Y: y, Why: ""};
	})()`, selector), &at)
	if at.Why != "" {
		t.b.t.Fatalf("%s: %s", selector, at.Why)
	}
	return at.X, at.Y
}

// Type types text into what has the focus.
func (t *Tab) Type(text string) {
	t.b.t.Helper()
	t.call("Input.insertText", map[string]any{"text": text}, nil)
}

// keys are the keys that tests press, by name, with their codes and what they
// write.
var keys = map[string]struct {
	code int
	text string
}{
	"Tab": {9, ""}, "Enter": {13, "\r"}, " ": {32, " "}, "ArrowDown": {40, ""}, "ArrowUp": {38, ""}, "Backspace": {8, ""},
}

// Press presses a key once, with Shift where it is to be held.
func (t *Tab) Press(name string, shift ...bool) {
	t.b.t.Helper()
	key, ok := keys[name]
	if !ok {
		t.b.t.Fatalf("no key is called %s", name)
	}
	modifiers := 0
	if len(shift) > 0 && shift[0] {
		modifiers = 8
	}
	for _, kind := range []string{"keyDown", "keyUp"} {
		params := map[string]any{"type": kind, "key": name, "code": name, "windowsVirtualKeyCode": key.code, "modifiers": modifiers}
		if kind == "keyDown" && key.text != "" {
			params["text"] = key.text
		}
		t.call("Input.dispatchKeyEvent", params, nil)
	}
}

// PressAway presses a key that leads to another page, and waits for that.
func (t *Tab) PressAway(name string) {
	t.b.t.Helper()
	t.drain()
	t.Press(name)
	t.Loaded()
}

// Retype types text in place of all that the field with the focus holds.
func (t *Tab) Retype(text string) {
	t.b.t.Helper()
	t.call("Input.dispatchKeyEvent", map[string]any{"type": "keyDown", "key": "a", "code": "KeyA", "modifiers": 2, "commands": []string{"selectAll"}}, nil)
	t.call("Input.dispatchKeyEvent", map[string]any{"type": "keyUp", "key": "a", "code": "KeyA", "modifiers": 2}, nil)
	t.Type(text)
}

// TabTo goes on with the Tab key until the first element that a selector finds has
// the focus, as whoever uses no mouse does.
func (t *Tab) TabTo(selector string) {
	t.b.t.Helper()
	const most = 200
	for range most {
		var there bool
		if t.Eval(fmt.Sprintf(`document.activeElement === document.querySelector(%q)`, selector), &there); there {
			return
		}
		t.Press("Tab")
	}
	t.b.t.Fatalf("%s is not reached by the Tab key", selector)
}
