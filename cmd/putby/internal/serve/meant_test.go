package serve

import (
	"maps"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// A form with a date that is still to come is refused with what was typed kept
// and a box to tick; ticked, it is saved.
func TestAFormOfADayAhead(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0") // on 2025-11-16
	before := content(t, dir)
	_, html := ask(t, "GET", link+"take", "")
	if strings.Contains(html, `name="ahead"`) {
		t.Error("an empty form asks whether its date is meant")
	}
	form := url.Values{"once": {onceIn(t, html)}, "do": {"save"}, "food": {"chicken-broth"}, "quantity": {"1"}, "date": {"2036-11-16"}, "note": {"for the feast"}}
	status, html := post(t, link, "take", form)
	if status != http.StatusUnprocessableEntity {
		t.Errorf("status %d", status)
	}
	for _, want := range []string{"2036-11-16 is 11 years ahead", `<input id="ahead" type="checkbox" name="ahead" value="yes"> The date is meant`, "for the feast"} {
		if !strings.Contains(html, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if !maps.Equal(before, content(t, dir)) {
		t.Error("something was written")
	}
	form.Set("once", onceIn(t, html))
	form.Set("ahead", "yes")
	status, html = post(t, link, "take", form)
	if status != http.StatusSeeOther {
		t.Fatalf("status %d", status)
	}
	if !strings.Contains(html, "2036-11-16 is 11 years ahead: it counts from that day on.") {
		t.Error("what was saved does not say that it is ahead")
	}
}

// A price that is noted already is refused by the form as by the command, and nothing is
// written; with a note it says something more.
func TestAFormOfTheSamePrice(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	send := func(note string) (int, string) {
		_, html := ask(t, "GET", link+"price", "")
		return post(t, link, "price", url.Values{"once": {onceIn(t, html)}, "do": {"save"}, "date": {"2025-11-16"}, "shop": {"Millbrook"},
			"item": {"carrots"}, "size": {"2 kg"}, "price": {"2.85"}, "terms": {"regular"}, "note": {note}})
	}
	if status, html := send(""); status != http.StatusSeeOther {
		t.Fatalf("status %d: %s", status, html)
	}
	before := content(t, dir)
	status, html := send("")
	if status != http.StatusUnprocessableEntity || !strings.Contains(html, "is noted already: nothing is saved") {
		t.Errorf("status %d: %s", status, html)
	}
	if !maps.Equal(before, content(t, dir)) {
		t.Error("something was written")
	}
	if status, html = send("by the door"); status != http.StatusSeeOther {
		t.Errorf("status %d: %s", status, html)
	}
}

// A receipt that is there is refused until a box is ticked, and a figure far
// from the usual is told once it is saved.
func TestAFormOfTheSameReceipt(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	send := func(id string, ticked bool) (int, string) {
		_, html := ask(t, "GET", link+"receipt", "")
		form := url.Values{"once": {onceIn(t, html)}, "do": {"save"}, "date": {"2025-11-16"}, "shop": {"Corner Shop"}, "receipt": {id},
			"kind-1": {"food"}, "item-1": {"carrots"}, "size-1": {"5 kg"}, "price-1": {"599"}}
		if ticked {
			form.Set("again", "yes")
		}
		return post(t, link, "receipt", form)
	}
	status, html := send("a", false)
	if status != http.StatusSeeOther {
		t.Fatalf("status %d\n%s", status, html)
	}
	if !strings.Contains(html, "Look again: carrots is at 119.8000 CAD per kg, far from the usual") {
		t.Error("a price far off is not told")
	}
	before := content(t, dir)
	status, html = send("b", false)
	if status != http.StatusUnprocessableEntity || !strings.Contains(html, "has the same lines already") || !strings.Contains(html, `name="again"`) {
		t.Errorf("status %d\n%s", status, html)
	}
	if !maps.Equal(before, content(t, dir)) {
		t.Error("something was written")
	}
	if status, _ = send("c", true); status != http.StatusSeeOther {
		t.Errorf("ticked: status %d", status)
	}
}

// The question whether a sale is worth it stands at today, or the day asked
// about; a day that cannot be read is told, and what was typed stays.
func TestWorthStandsAtTheDayAskedAbout(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	question := url.Values{"item": {"strawberries"}, "price": {"2.49"}, "size": {"454g"}, "limit": {"12"}, "as-of": {"2025-06-30"}}
	if answer, html := ask(t, "GET", link+"worth?"+question.Encode(), ""); answer.StatusCode != http.StatusOK || !strings.Contains(html, "records are of days after 2025-06-30") {
		t.Errorf("status %d, and nothing is left out", answer.StatusCode)
	} else if strings.Contains(html, `name="budget"`) {
		t.Error("it asks for a budget, which is shared out among several offers")
	}
	question.Set("as-of", "soon")
	answer, html := ask(t, "GET", link+"worth?"+question.Encode(), "")
	if answer.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(html, `as of: <bdi>&#34;soon&#34;`) || !strings.Contains(html, `value="454g"`) {
		t.Errorf("status %d\n%s", answer.StatusCode, html)
	}
}
