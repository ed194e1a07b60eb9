package figures_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// The starts come with the cheapest first, each on a day of its own within what
// was asked, and say what they save against starting at once. Of no days there is
// the first start alone.
func TestWhen(t *testing.T) {
	g := whole(t, "sample")
	from := time.Date(2025, 11, 20, 18, 0, 0, 0, time.UTC)
	q := figures.WhenQuery{Item: "chicken-broth", From: from, Days: 7, Step: time.Hour}
	r, err := figures.When(g, q)
	if err != nil || len(r.Best) < 7 || r.Cycle.Length.Time == 0 || len(r.Cycle.Legs()) != len(r.Cycle.Phases) {
		t.Fatalf("%+v (%v)", r, err)
	}
	days := map[exact.Date]bool{}
	for i, s := range r.Best {
		day := exact.DateIn(s.At)
		if days[day] || s.At.Before(r.From) || s.At.After(r.To) || !s.Saving.Equal(r.Now.Cost.Sub(s.Cost)) || i > 0 && s.Cost.Cmp(r.Best[i-1].Cost) < 0 {
			t.Errorf("start %d, at %v, costs %v and saves %v against %v", i, s.At, s.Cost, s.Saving, r.Now.Cost)
		}
		days[day] = true
	}
	once, err := figures.When(g, figures.WhenQuery{Item: "chicken-broth", From: from})
	if err != nil || len(once.Best) != 1 || !once.Best[0].At.Equal(once.From) || !once.Best[0].Saving.IsZero() {
		t.Errorf("of no days: %+v (%v)", once, err)
	}
}

func TestWhenRefuses(t *testing.T) {
	g := whole(t, "sample")
	var unknown *figures.UnknownError
	if _, err := figures.When(g, figures.WhenQuery{}); !errors.As(err, &unknown) || unknown.Of[0] != ledger.Foods {
		t.Errorf("of no food: %v", err)
	}
	var fact *figures.FactError
	if _, err := figures.When(g, figures.WhenQuery{Item: "leeks", Tariff: "none"}); !errors.As(err, &fact) || fact.Fact != figures.TariffFact {
		t.Errorf("of a tariff that there is none of: %v", err)
	}
	if _, err := figures.When(g, figures.WhenQuery{Item: "leeks", Days: 366, Step: time.Second}); !errors.Is(err, figures.ErrTooManyStarts) {
		t.Errorf("of every second of a year: %v", err)
	}
}

// Food in hand is to be started while the first lot of it is good: plums of the 8th turn after
// the 13th, those of the 10th after the 15th. What has turned counts only where nothing else is left.
func TestWhenIsInTimeForTheFirstLot(t *testing.T) {
	receipts := kitchen["receipts.csv"] + "i,2025-06-10,Mill Lane,food,plums,2,1 kg,2\n"
	for _, c := range []struct{ from, useBy, held, gone string }{
		{"2025-06-11 10:00", "2025-06-13", "8", "0"},
		{"2025-06-14 10:00", "2025-06-15", "2", "6"},
		{"2025-06-17 10:00", "2025-06-15", "8", "0"},
	} {
		g := kitchenWith(t, "2025-06-17", map[string]string{"receipts.csv": receipts})
		r, err := figures.When(g, figures.WhenQuery{Item: "plums", From: moment(t, g, c.from), Days: 2, Step: time.Hour})
		if err != nil || r.UseBy.String() != c.useBy || !r.Held.Equal(num(c.held)) || !r.Gone.Equal(num(c.gone)) {
			t.Errorf("from %s: to be started by %v, %v kg held and %v gone (%v), want %v", c.from, r.UseBy, r.Held, r.Gone, err, c)
		}
	}
}

// A load that cannot be one of the food is refused.
func TestWhenRefusesALoadOfAnotherKind(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	_, err := figures.When(g, figures.WhenQuery{Item: "plums", Load: amount("2 L"), From: moment(t, g, "2025-06-11 10:00"), Days: 2, Step: time.Hour})
	var wrong *figures.FactError
	if !errors.As(err, &wrong) || wrong.Fact != figures.LoadFact || wrong.Fault != figures.WrongUnit {
		t.Errorf("litres of what is weighed: %v", err)
	}
}

// Of older food in the freezer the fresh one turns first.
func TestWhenIsInTimeBeforeTheFrozen(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv":    strings.Replace(kitchen["foods.csv"], "plums,Plums,mass,5,,", "plums,Plums,mass,5,90,", 1),
		"receipts.csv": kitchen["receipts.csv"] + "i,2025-06-10,Mill Lane,food,plums,2,1 kg,2\n",
		"frozen.csv":   "date,item,quantity\n2025-06-09,plums,6 kg\n",
	})
	r, err := figures.When(g, figures.WhenQuery{Item: "plums", From: moment(t, g, "2025-06-11 10:00"), Days: 2, Step: time.Hour})
	if err != nil || r.UseBy.String() != "2025-06-15" || !r.Held.Equal(num("8")) {
		t.Errorf("to be started by %v, of %v kg (%v)", r.UseBy, r.Held, err)
	}
}
