package ask

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// ErrBroken ends a conversation that was broken off.
var ErrBroken = errors.New("broken off: nothing was saved")

// errAgain has the dialogue gone through again, to come to an earlier question.
var errAgain = errors.New("from the beginning")

// A Talk is a conversation under way.
type Talk struct {
	// Heed looks at what was typed, before it is read; nil: nothing does. An answer
	// that was offered is not looked at, nor one that is free.
	Heed func(answer string) error

	lines Lines
	out   io.Writer

	given map[string]string // what was typed, by key
	whole map[string]string // what answers with those below them come to, see Settle
	meant map[string]string // what was typed twice, since it is unlikely
	past  []asked           // the answers of this pass, in order
	redo  string            // the question that is asked again though it has an answer
	intro string            // said before the first question
	told  []string          // said since the last question of this pass
	fresh bool              // a person was asked in this pass: what follows is shown
}

// An asked is a question that has its answer.
type asked struct {
	key, what, answer string
	aside             bool
}

// Hold holds a conversation. Intro is said before the first question.
func Hold(lines Lines, out io.Writer, intro string, dialogue func(*Talk) error) error {
	t := &Talk{lines: lines, out: out, intro: intro, given: map[string]string{}, whole: map[string]string{}, meant: map[string]string{}}
	for {
		err := dialogue(t)
		if !errors.Is(err, errAgain) {
			t.flush()
			return err
		}
		t.past, t.told, t.fresh = nil, nil, false
	}
}

// Tell says something before the next question.
func (t *Talk) Tell(format string, args ...any) {
	t.told = append(t.told, strings.Split(fmt.Sprintf(format, args...), "\n")...)
}

// begin says what stands before a question.
func (t *Talk) begin() {
	if t.intro != "" {
		t.told = append(strings.Split(t.intro, "\n"), t.told...)
		t.intro = ""
	}
	t.flush()
}

// flush says what was told.
func (t *Talk) flush() {
	for _, line := range t.told {
		t.say(line)
	}
	t.told = nil
}

func (t *Talk) say(line string) { fmt.Fprintln(t.out, Printable(line)) }

// Ask asks until it gets an answer that passes. An error of it ends the
// dialogue, which returns it.
func (t *Talk) Ask(q Question) (string, error) {
	raw, given := t.given[q.Key]
	if given && t.redo != q.Key {
		text, err := t.read(&q, raw)
		if err == nil {
			t.remember(&q, raw, text)
			return text, nil
		}
		t.Tell("  %s%s: %v", q.prompt(""), raw, err)
		given = false
	}
	offer := q.Offer
	if given && raw != "" {
		offer = cmp.Or(t.whole[q.Key], raw)
	}
	t.begin()
	for {
		answer, err := t.answer(&q, offer)
		if err != nil {
			return "", err
		}
		kept := answer == "" && given
		if kept {
			answer = raw
		}
		text, err := t.heeded(&q, answer, kept || answer == offer)
		if err == nil {
			if !kept {
				t.forget(q.Key)
			}
			t.redo, t.fresh = "", true
			t.given[q.Key] = answer
			t.pass(&q, text)
			return text, nil
		}
		t.say("  " + err.Error())
	}
}

// heeded reads an answer that was looked at, unless it is as it was offered.
func (t *Talk) heeded(q *Question, answer string, offered bool) (string, error) {
	if t.Heed != nil && !offered && !q.Free {
		if err := t.Heed(answer); err != nil {
			return "", err
		}
	}
	return t.read(q, answer)
}

// answer reads one answer, and follows what is typed in its place.
func (t *Talk) answer(q *Question, offer string) (string, error) {
	for {
		answer, err := t.lines.Line(Prompt{Text: q.prompt(offer), Offer: offer, Names: q.Names})
		switch {
		case err != nil:
			return "", ErrBroken
		case answer == "?":
			for _, line := range q.explain(offer) {
				t.say("  " + line)
			}
		case answer == "back" && len(t.past) > 0:
			return "", t.again(t.past[len(t.past)-1].key)
		case answer == "back":
			t.say("  this is the first question; Ctrl-C ends it")
		default:
			return answer, nil
		}
	}
}

// again returns to a question of this pass.
func (t *Talk) again(key string) error {
	t.redo = key
	return errAgain
}

// read reads an answer; one that is unlikely passes when it comes again.
func (t *Talk) read(q *Question, raw string) (string, error) {
	text, err := q.read(raw)
	if !errors.Is(err, ErrUnlikely) {
		return text, err
	}
	if was, twice := t.meant[q.Key]; twice && was == raw {
		return text, nil
	}
	t.meant[q.Key] = raw
	return text, err
}

// pass goes on to the next question.
func (t *Talk) pass(q *Question, text string) {
	t.past = append(t.past, asked{q.Key, q.prompt(""), text, q.Aside})
}

// remember takes an answer that was given before. Behind one that is new it is
// shown, so that nobody has to guess what still holds.
func (t *Talk) remember(q *Question, raw, text string) {
	if t.fresh {
		t.flush()
		if !q.Aside {
			t.say(strings.TrimRight(q.prompt(q.Offer)+raw, " "))
		}
	}
	t.told = nil
	t.pass(q, text)
}

// forget drops the answers below a key.
func (t *Talk) forget(key string) {
	delete(t.whole, key)
	maps.DeleteFunc(t.given, func(k, _ string) bool { return strings.HasPrefix(k, key+"/") })
}

// Settle says what an answer comes to with those below its key. From then on
// they are one: whoever goes back comes to the whole.
func (t *Talk) Settle(key, whole string) {
	t.whole[key] = whole
	i := slices.IndexFunc(t.past, func(a asked) bool { return a.key == key })
	t.past = t.past[:i+1]
	t.past[i].answer = whole
}

// Wrong says what is wrong with answers that passed their checks, and has them
// given again.
func (t *Talk) Wrong(err error, keys ...string) error {
	t.begin()
	t.say("  " + err.Error())
	for _, key := range keys {
		t.forget(key)
		delete(t.given, key)
	}
	return errAgain
}

// Asked reports whether anything was asked so far that can be changed.
func (t *Talk) Asked() bool {
	return slices.ContainsFunc(t.past, func(a asked) bool { return !a.aside })
}

// Ends reports whether an error is the conversation's own: it was broken off, or
// goes back. A dialogue passes it on.
func Ends(err error) bool { return errors.Is(err, ErrBroken) || errors.Is(err, errAgain) }

// Agree shows what is about to happen and asks for leave; an empty answer is
// yes. After a no, one of the answers is changed.
func (t *Talk) Agree(look []string, what string) error {
	for _, line := range look {
		t.Tell("%s", line)
	}
	return t.leave(Question{Key: "agree", What: what, Offer: "yes", Help: "no lets you change one of your answers."})
}

// Sure says something unlikely, and asks whether it is meant: only a plain yes
// will do.
func (t *Talk) Sure(odd, what string) error {
	t.Tell("%s", odd)
	return t.leave(Question{Key: "sure: " + odd, What: what + " (yes or no)", Help: "no lets you change one of your answers."})
}

func (t *Talk) leave(q Question) error {
	q.Names, q.Check, q.Aside = yesNo, OneOf(yesNo...), true
	answer, err := t.Ask(q)
	if err != nil || answer == "yes" {
		return err
	}
	delete(t.given, q.Key)
	t.past = t.past[:len(t.past)-1]
	return t.Amend("")
}

var yesNo = []string{"yes", "no"}

// Amend says what is wrong, and has one of the answers changed.
func (t *Talk) Amend(wrong string) error {
	t.begin()
	if wrong != "" {
		t.say("  " + wrong)
	}
	var list []asked
	for _, a := range t.past {
		if !a.aside {
			list = append(list, a)
			t.say(fmt.Sprintf("%3d  %s%s", len(list), a.what, cmp.Or(a.answer, "(blank)")))
		}
	}
	if len(list) == 0 {
		return ErrBroken
	}
	q := Question{What: fmt.Sprintf("which one is to be changed (1 to %d)", len(list)),
		Help: "Type its number. Ctrl-C ends it, and then nothing is saved."}
	for {
		answer, err := t.answer(&q, "")
		if err != nil {
			return err
		}
		if n, err := strconv.Atoi(answer); err == nil && n >= 1 && n <= len(list) {
			return t.again(list[n-1].key)
		}
		t.say(fmt.Sprintf("  a number from 1 to %d", len(list)))
	}
}
