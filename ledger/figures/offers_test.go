package figures_test

import (
	"errors"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// joined is the ledger of files, given by name.
func joined(t *testing.T, files map[string]string) *ledger.Ledger {
	t.Helper()
	rec, faults, err := ledgertest.Read(files)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	g, faults := ledger.Join(rec, ledger.Options{})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return g
}

// Two shops ask the same in one occasion: the one that asked first is named, with
// its day, and the occasion lasts until the other's.
func TestFirstOfTwoEqualLows(t *testing.T) {
	g := joined(t, map[string]string{
		"settings.csv": "setting,value\ncurrency,EUR\nzone,UTC\n",
		"foods.csv":    "food,basis\nplums,mass\n",
		"shelf.csv": "shop,date,item,size,price,terms\n" +
			"Brook,2025-03-01,plums,1 kg,2.00,offer\nArbour,2025-03-04,plums,1 kg,2.00,offer\n",
	})
	r, err := figures.Offers(g, figures.OffersQuery{Query: figures.Query{Item: "plums"}})
	if err != nil {
		t.Fatal(err)
	}
	pace, _ := r.Pace.Get()
	if pace.Seen != 1 || pace.Last.Shop != "Brook" || pace.Last.On != exact.MustDate("2025-03-01") || pace.Last.To != exact.MustDate("2025-03-04") {
		t.Errorf("one occasion of two equal prices: %+v", pace)
	}
}

// An empty ledger has no day: worth asks for one, and before that for a food that is recorded.
func TestWorthWithoutADay(t *testing.T) {
	g := joined(t, map[string]string{"settings.csv": "setting,value\ncurrency,EUR\nzone,UTC\n", "foods.csv": "food,basis\nplum-sauce,volume\n"})
	q := plumSauce()
	q.AsOf = exact.NoDate
	var fact *figures.FactError
	if _, err := figures.Worth(g, q); !errors.As(err, &fact) || fact.Fact != figures.DayFact || fact.Fault != figures.NoDay {
		t.Errorf("no day: %v", err)
	}
	q.Item = "quince"
	var unknown *figures.UnknownError
	if _, err := figures.Worth(g, q); !errors.As(err, &unknown) {
		t.Errorf("no such food: %v", err)
	}
}
