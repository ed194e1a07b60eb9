package serve

import (
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// drawBody is a form that takes something out, with a note to find it by.
func drawBody(t testing.TB, link, note string) string {
	t.Helper()
	_, html := ask(t, "GET", link+"take", "")
	return url.Values{
		"once": {onceIn(t, html)}, "do": {"save"}, "food": {"chicken-broth"}, "quantity": {"1"}, "date": {"2025-11-16"}, "note": {note},
	}.Encode()
}

// drawn counts the draws with a note.
func drawn(t testing.TB, dir, note string) int {
	t.Helper()
	return strings.Count(content(t, dir)[filepath.Join(dir, ledger.DrawsFile)], note)
}

// postAtOnce sends one form so many times at once, and wants every answer to
// lead to one page.
func postAtOnce(t *testing.T, link, body string, times int) {
	t.Helper()
	var posts sync.WaitGroup
	to := make([]string, times)
	for i := range times {
		posts.Go(func() {
			answer, _ := ask(t, "POST", link+"take", body, "Origin", originOf(link))
			if to[i] = answer.Header.Get("Location"); answer.StatusCode != http.StatusSeeOther || to[i] == "" {
				t.Errorf("post %d: %s", i+1, answer.Status)
			}
		})
	}
	posts.Wait()
	for i := range to {
		if to[i] != to[0] {
			t.Errorf("post %d leads to %s, the first to %s", i+1, to[i], to[0])
		}
	}
}

// A form that is sent several times at once is recorded once.
func TestPostsAtOnce(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	for _, times := range []int{2, 2, 2, 20} {
		note := "at once " + time.Now().Format("150405.000000")
		postAtOnce(t, link, drawBody(t, link, note), times)
		if n := drawn(t, dir, note); n != 1 {
			t.Errorf("%d posts at once are recorded %d times", times, n)
		}
	}
}

// A second tap while the first still waits for another command's save is not
// recorded a second time: 12 times of 12.
func TestTapsWhileAnotherSaves(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	for i := range 12 {
		note := "tap " + string(rune('a'+i)) + "."
		body := drawBody(t, link, note)
		book, err := folder.Opening{Wait: folder.DefaultWait}.Open(t.Context(), dir)
		if err != nil {
			t.Fatal(err)
		}
		time.AfterFunc(60*time.Millisecond, func() { book.Close() })
		postAtOnce(t, link, body, 2)
		if n := drawn(t, dir, note); n != 1 {
			t.Errorf("tap %d is recorded %d times", i+1, n)
		}
	}
}

// A server that is started again knows what the one before it saved.
func TestSavedAfterARestart(t *testing.T) {
	dir := sample(t)
	before, _ := start(t, dir, "127.0.0.1:0")
	body := drawBody(t, before, "before the restart")
	answer, _ := ask(t, "POST", before+"take", body, "Origin", originOf(before))
	saved := strings.TrimPrefix(answer.Header.Get("Location"), "/")
	if _, text := ask(t, "GET", before+saved, ""); !strings.Contains(text, "Used: 1 container of ") || !strings.Contains(text, " at the shelf; ") {
		t.Errorf("what was taken out was worth is not told: %s", text)
	}

	link, _ := start(t, dir, "127.0.0.1:0")
	page, text := ask(t, "GET", link+saved, "")
	if page.StatusCode != http.StatusOK || !strings.Contains(text, "change 1 of the ledger") || !strings.Contains(text, "before the restart") {
		t.Errorf("%s: %s", page.Status, text)
	}
	again, _ := ask(t, "POST", link+"take", body, "Origin", originOf(link))
	if again.StatusCode != http.StatusSeeOther || again.Header.Get("Location") != "/"+saved {
		t.Errorf("sent again: %s to %s", again.Status, again.Header.Get("Location"))
	}
	if n := drawn(t, dir, "before the restart"); n != 1 {
		t.Errorf("recorded %d times", n)
	}
	_, html := ask(t, "GET", before+"pack", "")
	made := url.Values{"once": {onceIn(t, html)}, "do": {"save"}, "packs": {"chicken-broth 6 x 1 L"}, "run": {"c47"}}
	if status, text := post(t, before, "pack", made); status != http.StatusSeeOther {
		t.Fatalf("status %d:%s", status, mainOf(text))
	}
	if _, text := ask(t, "GET", link+"saved/"+made.Get("once"), ""); !strings.Contains(text, "6 labels") || !strings.Contains(text, "6 containers of 1 L Chicken broth") {
		t.Errorf("packs that were saved before the restart show no labels:%s", mainOf(text))
	}
	if page, _ := ask(t, "GET", link+"saved/NEVERSAVED", ""); page.StatusCode != http.StatusNotFound {
		t.Errorf("what was never saved: %s", page.Status)
	}
}

// Looking at what a form would record waits for nobody.
func TestLookingWaitsForNobody(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	body := strings.Replace(drawBody(t, link, "look"), "do=save", "do=look", 1)
	book, err := folder.Opening{Wait: folder.DefaultWait}.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	start := time.Now()
	values, _ := url.ParseQuery(body)
	status, text := post(t, link, "take", values)
	if status != http.StatusOK || !strings.Contains(text, "look") || time.Since(start) > lockTime/2 {
		t.Errorf("status %d after %v", status, time.Since(start))
	}
}

// Forms that wait for the ledger keep nobody waiting who only reads.
func TestReadingGoesOnWhileFormsWait(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	bodies := make([]string, mostAtOnce+1)
	for i := range bodies {
		bodies[i] = drawBody(t, link, "waits")
	}
	book, err := folder.Opening{Wait: folder.DefaultWait}.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	var posts sync.WaitGroup
	for _, body := range bodies {
		posts.Go(func() { ask(t, "POST", link+"take", body, "Origin", originOf(link)) })
	}
	time.Sleep(100 * time.Millisecond)
	start := time.Now()
	if answer, _ := ask(t, "GET", link, ""); answer.StatusCode != http.StatusOK || time.Since(start) > lockTime/2 {
		t.Errorf("%s after %v", answer.Status, time.Since(start))
	}
	if err := book.Close(); err != nil {
		t.Error(err)
	}
	posts.Wait()
	if n := drawn(t, dir, "waits"); n != len(bodies) {
		t.Errorf("%d of %d are recorded", n, len(bodies))
	}
}

// A form that was saved and is sent again with something else in it is neither
// dropped nor recorded unasked: it is handed back, to be saved as a record of its own.
func TestASavedFormWithOtherWords(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	values, err := url.ParseQuery(drawBody(t, link, "note-one"))
	if err != nil {
		t.Fatal(err)
	}
	if status, text := post(t, link, "take", values); status != http.StatusSeeOther {
		t.Fatalf("status %d:%s", status, mainOf(text))
	}
	values.Set("note", "note-two")
	status, text := post(t, link, "take", values)
	if status != http.StatusUnprocessableEntity || !strings.Contains(text, "this form was saved already as it was then") || drawn(t, dir, "note-two") != 0 {
		t.Errorf("status %d:%s", status, mainOf(text))
	}
	values.Set("once", onceIn(t, text))
	if status, text := post(t, link, "take", values); status != http.StatusSeeOther || drawn(t, dir, "note-one") != 1 || drawn(t, dir, "note-two") != 1 {
		t.Errorf("status %d:%s", status, mainOf(text))
	}
}

// Two who record at once see what the other did, and an identifier that the other
// took meanwhile gives way to the next.
func TestTwoAtOnce(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	_, mine := ask(t, "GET", link+"batch", "")
	saves(t, link, "batch", []string{"batch", "soup-x", "item", "Squash purée", "quantity", "1 L", "from", "1 kg squash"}, "Squash purée")
	values := url.Values{"once": {onceIn(t, mine)}, "seen": {hiddenIn(t, mine, "seen")}, "do": {"look"}, "batch": {"soup-x"}, "item": {"Squash purée"}, "quantity": {"2 L"}, "from": {"2 kg squash"}}
	for _, do := range []string{"look", "save"} {
		values.Set("do", do)
		_, text := post(t, link, "batch", values)
		for _, want := range []string{"Changed meanwhile", "Change 1: Kitchen work before drying. Batch soup-x", "The ledger has a batch soup-x already, so this one is squash-6"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s does not say %q:%s", do, want, mainOf(text))
			}
		}
	}
	for _, c := range []struct {
		path   string
		fields []string
		says   string
	}{
		{"receipt", []string{"receipt", "soup-x", "shop", "Corner Shop", "said", "soap 1.99"}, "The ledger has a receipt soup-x already"},
		{"start", []string{"run", "c47", "loads", "1 kg apples"}, "The ledger has a run c47 already"},
		{"pack", []string{"pack", "c46-a", "item", "carrots", "count", "4", "each", "500 g", "cost", "6.40", "bare", "yes"}, "The ledger has a pack c46-a already"},
	} {
		saves(t, link, c.path, c.fields, c.says)
	}
	if _, text := ask(t, "GET", link, ""); strings.Contains(text, "Changed meanwhile") {
		t.Error("who sends nothing is told of it too")
	}
}

// However often the list of changes is looked at, with its many buttons, a form that
// is being filled in is not forgotten; and each button still does its work once.
func TestManyButtonsForgetNoForm(t *testing.T) {
	dir := sample(t)
	s := newServer(Served{Dir: dir, Now: func() time.Time { return noon }, Log: io.Discard, Guard: unguarded}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700})
	once := s.forms.issue()
	b, err := folder.Opening{}.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	c, err := b.Edit("draw add", func(tx *folder.Tx) error {
		return tx.Append(ledger.MustKind("draw"), map[string]string{"date": "2025-11-16", "pack": "c46-a", "quantity": "1", "reason": "used"})
	})
	if err = errors.Join(err, b.Close()); err != nil {
		t.Fatal(err)
	}
	var marks []string
	for range mostForms + 1 {
		s.forms.issue() // whoever opens a form and leaves it
		marks = append(marks, s.item(nil, &c, nil, true, nil).Doings[0].Send[0].Value)
	}
	if _, known := s.forms.find(once); !known {
		t.Error("the form is forgotten")
	}
	if _, known := s.forms.find(newMark() + once[len(once)-2*signBytes:]); known {
		t.Error("a mark that was made up is taken")
	}
	undo := url.Values{"once": {marks[0]}, "number": {"1"}}.Encode()
	for range 2 {
		w, r := httptest.NewRecorder(), httptest.NewRequest("POST", "/undo", strings.NewReader(undo))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		if s.takeUndo(w, r); w.Header().Get("Location") != "/changes?done=2" {
			t.Errorf("to %q", w.Header().Get("Location"))
		}
	}
	if n := s.lastChange(); n != 2 {
		t.Errorf("the last change is %d, want the undo alone", n)
	}
}
