package main

import (
	"cmp"
	"slices"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
)

// asUsual is the answer that stands for --as-usual.
const asUsual = "as usual"

// askFinish ends a run, asking for what is worth knowing of it.
func (a *app) askFinish(cmd *cobra.Command, o saving, said *entry.FinishIn) error {
	return a.add(cmd.Context(), o, nil, func(t *ask.Talk, b *entry.Base) (*draft, error) {
		asks, err := b.AsksOf(said.Run)
		if err != nil {
			return nil, err
		}
		f := finishForm{t: t, b: b, in: *said}
		f.in.Run = asks.Run
		d := &draft{}
		for _, step := range []func(entry.FinishAsks) error{f.electricity, f.hands, f.dry} {
			if err = step(asks); err != nil {
				break
			}
		}
		if d.args = slices.Concat(commandWords(cmd), f.words(), flagWords(cmd)); err != nil {
			return d, err
		}
		return d, d.take(entry.Finish(b, f.in))
	})
}

// A finishForm is what is said of a run that ends.
type finishForm struct {
	t  *ask.Talk
	b  *entry.Base
	in entry.FinishIn
}

// fits tells whether the run can end so.
func (f *finishForm) fits(in entry.FinishIn) error {
	_, err := entry.Finish(f.b, in)
	return err
}

// electricity asks what the meter says, or whether the phases were the usual ones.
func (f *finishForm) electricity(asks entry.FinishAsks) error {
	q := ask.Question{Key: "kwh", What: "kWh by the meter", Help: "What the plug meter counted for this run, such as 17.4."}
	if asks.Usual != "" {
		q.What += ", or " + asUsual + " for the phases of run " + asks.Usual
		q.Names = []string{asUsual}
	}
	if asks.Metered {
		q.What += " (- as it is known)"
	}
	q.Check = func(answer string) (string, error) {
		in := f.in
		if word, ok := ask.Begun(answer, q.Names); ok {
			answer, in.AsUsual = word, true
		} else {
			in.KWh = answer
		}
		if answer == "" && asks.Metered {
			return "", nil
		}
		return answer, f.fits(in)
	}
	text, err := f.t.Ask(q)
	if f.in.AsUsual = text == asUsual; !f.in.AsUsual {
		f.in.KWh = text
	}
	return err
}

// hands asks for the time that a person spent on it.
func (f *finishForm) hands(entry.FinishAsks) (err error) {
	f.in.Hands, err = f.t.Ask(ask.Question{
		Key: "hands", What: "hands-on time, such as 25m (- not known)",
		Help: "The time that a person spent on it: filling, emptying, washing up.",
		Check: func(answer string) (string, error) {
			in := f.in
			if in.Hands = answer; answer == "" {
				return "", nil
			}
			return answer, f.fits(in)
		},
	})
	return err
}

// dry asks what each food weighs now.
func (f *finishForm) dry(asks entry.FinishAsks) error {
	for _, food := range asks.Foods {
		name := cmp.Or(food.Name, food.ID)
		text, err := f.t.Ask(ask.Question{
			Key: "dry " + food.ID, What: "dry weight of all " + name + " (- not weighed)",
			Help: "What came out, such as 0.61 kg. With the weight before it tells how much water is left.",
			Check: func(answer string) (string, error) {
				in := f.in
				if answer == "" {
					return "", nil
				}
				in.Dry = append(slices.Clone(in.Dry), food.ID+" "+answer)
				return answer, f.fits(in)
			},
		})
		if err != nil {
			return err
		}
		if text != "" {
			f.in.Dry = append(f.in.Dry, food.ID+" "+text)
		}
	}
	return nil
}

// words are the answers as a command's.
func (f *finishForm) words() []string {
	words := []string{f.in.Run}
	if f.in.AsUsual {
		words = append(words, "--as-usual")
	}
	for _, said := range [][2]string{{"--kwh", f.in.KWh}, {"--hands", f.in.Hands}} {
		if said[1] != "" {
			words = append(words, said[0], said[1])
		}
	}
	for _, text := range f.in.Dry {
		words = append(words, "--dry", text)
	}
	return words
}
