package ask

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// order is a dialogue with a branch and a list: how many, and for each what.
func order(t *Talk) (got []string, err error) {
	kind, err := t.Ask(Question{Key: "kind", Offer: "tea", Names: []string{"tea", "cake"}, Check: OneOf("tea", "cake"), Help: "what it is\nto be"})
	if err != nil {
		return nil, err
	}
	many, err := t.Ask(Question{Key: "count", What: "how many", Check: few})
	if err != nil {
		return nil, err
	}
	t.Tell("%s of %s", many, kind)
	n, _ := strconv.Atoi(many)
	for i := range n {
		key := fmt.Sprintf("piece %d", i+1)
		what, err := t.Ask(Question{Key: key, Check: some})
		if err != nil {
			return nil, err
		}
		if what == "plain" {
			if what, err = t.Ask(Question{Key: key + "/colour", What: "  colour"}); err != nil {
				return nil, err
			}
			t.Settle(key, what)
		}
		got = append(got, what)
	}
	return append([]string{kind}, got...), t.Agree([]string{"So: " + strings.Join(got, ", ")}, "save it")
}

func few(answer string) (string, error) {
	n, err := strconv.Atoi(answer)
	switch {
	case err != nil:
		return "", errors.New("a number")
	case n > 3:
		return answer, fmt.Errorf("that is many; %w", ErrUnlikely)
	}
	return answer, nil
}

func some(answer string) (string, error) {
	if answer == "" {
		return "", errors.New("say what")
	}
	return answer, nil
}

// hold holds the dialogue with answers, after which the input ends.
func hold(answers ...string) (got []string, said string, err error) {
	var out bytes.Buffer
	lines := Plain(strings.NewReader(strings.Join(answers, "\n")+"\n"), &out)
	err = Hold(lines, &out, "Hello.", func(t *Talk) (err error) {
		got, err = order(t)
		return err
	})
	return got, out.String(), err
}

func TestHold(t *testing.T) {
	for _, test := range []struct {
		name, answers, want string
	}{
		{"all that is offered", " ,2,a,b, ", "tea a b"},
		{"a wrong answer is asked for again and loses nothing", "soup,c,many,2,,a,b,y", "cake a b"},
		{"back at every question", "tea,back,cake,2,back,1,a,yes", "cake a"},
		{"back twice comes forward with the answers given", "tea,2,back,back,cake,a,b,yes", "cake a b"},
		{"back keeps the answer by Enter", "tea,2,a,back, ,b,yes", "tea a b"},
		{"back from the last question", "tea,1,a,back,b,yes", "tea b"},
		{"back at the first question stays there", "back,cake,1,a,yes", "cake a"},
		{"no changes one answer, and keeps the others", "tea,2,a,b,no,3,x,yes", "tea x b"},
		{"no, and the count becomes less", "tea,2,a,b,no,2,1,yes", "tea a"},
		{"no, and it becomes more", "tea,1,a,no,2,2,b,yes", "tea a b"},
		{"a number that is none", "tea,1,a,no,7,no,1,cake,yes", "cake a"},
		{"unlikely, and then meant", "tea,4,4,a,b,c,d,yes", "tea a b c d"},
		{"unlikely, and mended", "tea,4,1,a,yes", "tea a"},
		{"what is below an answer goes with it", "tea,1,plain,red,no,3,plain,blue,yes", "tea blue"},
		{"what was settled is offered as one", "tea,2,plain,red,back, ,b,yes", "tea red b"},
		{"the question mark asks again", "?,tea,?,1,?,a,?,yes", "tea a"},
	} {
		got, said, err := hold(strings.Split(test.answers, ",")...)
		if err != nil || strings.Join(got, " ") != test.want {
			t.Errorf("%s: %v, %v; want %s\n%s", test.name, got, err, test.want, said)
		}
		if strings.Count(said, "Hello.") != 1 {
			t.Errorf("%s: not greeted once\n%s", test.name, said)
		}
	}
}

// Wherever the answers end, nothing comes of it; and back from wherever one is
// leads to the first question, from where all answers given still stand.
func TestHoldEverywhere(t *testing.T) {
	answers := []string{"cake", "2", "plain", "green", "b", "yes"}
	for n := range len(answers) {
		if got, _, err := hold(answers[:n]...); !errors.Is(err, ErrBroken) || n == 0 && got != nil {
			t.Errorf("after %d answers: %v", n, err)
		}
		back := slices.Repeat([]string{"back"}, n+1)
		all := slices.Concat(answers[:n], back, answers[:1], answers[max(n, 1):])
		got, said, err := hold(all...)
		if err != nil || strings.Join(got, " ") != "cake green b" {
			t.Errorf("back from %d: %v, %v\n%s", n, got, err, said)
		}
	}
}

// What is told stands before the question that follows, whenever that is asked;
// what is kept behind a new answer is shown.
func TestTold(t *testing.T) {
	_, said, _ := hold("tea", "2", "a", "back", "back", "1", "yes")
	want := []string{"kind [tea]: ", "how many: ", "2 of tea", "piece 1: ", "piece 2: ", "piece 1 [a]: ", "how many [2]: ", "1 of tea", "piece 1: a", "So: a", "save it [yes]: "}
	rest := said
	for _, w := range want {
		_, after, found := strings.Cut(rest, w)
		if !found {
			t.Fatalf("no %q:\n%s", w, said)
		}
		rest = after
	}
}

func TestHelp(t *testing.T) {
	_, said, _ := hold("?")
	for _, want := range []string{"what it is\n", "to be\n", "Enter takes tea.", "One of: tea, cake.", usual} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q:\n%s", want, said)
		}
	}
}

func TestComplete(t *testing.T) {
	names := []string{"apples", "apple-sauce", "Chives", "chicken-broth", "bus fare"}
	for _, test := range []struct{ text, want, left string }{
		{"a", "apple", "apples,apple-sauce"},
		{"apple", "apple", "apples,apple-sauce"},
		{"apples", "apples", "apples"},
		{"5 kg chic", "5 kg chicken-broth", "chicken-broth"},
		{"Ch", "Ch", "Chives,chicken-broth"},
		{"CHI", "CHI", "Chives,chicken-broth"},
		{"chiv", "Chives", "Chives"},
		{"bus f", "bus fare", "bus fare"},
		{"3 x bus", "3 x bus fare", "bus fare"},
		{"1 kg ", "1 kg ", "apples,apple-sauce,Chives,chicken-broth,bus fare"},
		{"", "", "apples,apple-sauce,Chives,chicken-broth,bus fare"},
		{"2 kg apples;ch", "2 kg apples;ch", "Chives,chicken-broth"},
		{"zebra", "zebra", ""},
	} {
		if done, left := Complete(test.text, names); done != test.want || strings.Join(left, ",") != test.left {
			t.Errorf("Complete(%q) = %q, %q; want %q, %q", test.text, done, left, test.want, test.left)
		}
	}
}

// Up brings first what is offered, then the answers before, each once.
func TestMemory(t *testing.T) {
	var m memory
	for _, a := range []string{"a", "", "b", "?", "back", "a"} {
		m.Add(a)
	}
	m.offer = "o"
	var got []string
	for i := range m.Len() {
		got = append(got, m.At(i))
	}
	if want := []string{"o", "a", "b"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
