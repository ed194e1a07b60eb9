package exact_test

import (
	"errors"
	"fmt"
	"log"
	"time"
	_ "time/tzdata" // so that the examples run where no zones are installed

	"putby/pricing/exact"
)

// What does a litre of plum purée cost? A crate of plums and the sugar are on
// one receipt, with a coupon over both; the purée fills six jars.
func Example() {
	eur := exact.MustCurrency("EUR")
	plums, sugar := exact.MustMoney("11.90"), exact.MustMoney("2.38")

	// The coupon is shared by what the lines cost, to the cent.
	coupon, err := exact.MustMoney("2.00").Split([]exact.Number{plums.Number(), sugar.Number()}, eur.Minor())
	if err != nil {
		log.Fatal(err)
	}
	plums, sugar = plums.Sub(coupon[0]), sugar.Sub(coupon[1])
	fmt.Println("plums", plums.Fixed(2), "sugar", sugar.Fixed(2))

	// Two thirds of the sugar went in: a posting, at ledger places.
	used := sugar.Share(exact.MustNumber("0.8"), exact.MustNumber("1.2"), eur.Places())
	total := plums.Add(used)
	fmt.Println("purée", total)

	// It fills six equal jars, and two are eaten: the first ones carry what does
	// not divide, so that the rest is what is left.
	eaten := total.FirstOf(2, 6, eur.Places())
	fmt.Println("eaten", eaten, "in store", total.Sub(eaten))

	// A unit price is divided once, for the eye.
	perLitre := total.Per(exact.MustNumber("4.2"))
	fmt.Println("per litre", perLitre.Round(eur.Minor()+2, exact.HalfAway).Fixed(4))
	// Output:
	// plums 10.23 sugar 2.05
	// purée 11.596667
	// eaten 3.865556 in store 7.731111
	// per litre 2.7611
}

// Postage of 7.00 over three lines in proportion to what they cost: 2.8, 2.1
// and 2.1 would be exact to a tenth, and at whole units one is left over.
func ExampleSplit() {
	lines := []exact.Number{exact.MustNumber("40"), exact.MustNumber("30"), exact.MustNumber("30")}
	for _, places := range []int{1, 0} {
		parts, err := exact.Split(exact.MustNumber("7.00"), lines, places)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(parts)
	}

	_, err := exact.Split(exact.MustNumber("7.005"), lines, 2)
	fmt.Println(err, errors.Is(err, exact.ErrPlaces))
	// Output:
	// [2.8 2.1 2.1]
	// [3 2 2]
	// splitting 7.005: the amount has more decimal places than its parts may have true
}

// Ten kilograms of beans for 13.00 are drawn in three lots of a third and what
// is left. Whoever takes the last takes all that is left of the cost.
func ExampleMoney_Share() {
	cost, left := exact.MustMoney("13.00"), exact.MustNumber("10")
	for _, kg := range []string{"3.333", "3.333", "3.334"} {
		part := exact.MustNumber(kg)
		share := cost.Share(part, left, 6)
		cost, left = cost.Sub(share), left.Sub(part)
		fmt.Printf("%s kg for %s, %s kg left at %s\n", kg, share, left, cost)
	}
	// Output:
	// 3.333 kg for 4.3329, 6.667 kg left at 8.6671
	// 3.333 kg for 4.3329, 3.334 kg left at 4.3342
	// 3.334 kg for 4.3342, 0 kg left at 0
}

// Of twelve jars that cost 25.00, five have been used up.
func ExampleMoney_FirstOf() {
	cost := exact.MustMoney("25.00")
	used := cost.FirstOf(5, 12, 6)
	fmt.Println("used", used, "in store", cost.Sub(used))
	// Output:
	// used 10.416669 in store 14.583331
}

// Which jar is cheaper, 720 mL for 2.49 or 1.5 pt for 2.45? Unit prices are
// compared by multiplying crosswise, never by their rounded figures.
func ExampleRatio_Cmp() {
	small, err := exact.MustQuantity("720 mL").In(exact.L)
	if err != nil {
		log.Fatal(err)
	}
	large, err := exact.MustQuantity("1.5 pt").In(exact.L)
	if err != nil {
		log.Fatal(err)
	}
	a := exact.MustMoney("2.49").Per(small.Number())
	b := exact.MustMoney("2.45").Per(large.Number())
	fmt.Println(a.Round(4, exact.HalfAway), b.Round(4, exact.HalfAway), a.Cmp(b))
	// Output:
	// 3.4583 3.4518 1
}

// What primary drying drew: 620 W for 8 h 24 min, at 0.3146 a kWh
// plus 9.5 % tax. Nothing is rounded before the end.
func ExampleRatio_Round() {
	watts := exact.MustNumber("620")
	duration, err := exact.ParseDuration("8h24m")
	if err != nil {
		log.Fatal(err)
	}
	seconds := exact.Int(int64(duration / time.Second))
	kWh := watts.Mul(seconds).Over(exact.Int(3_600_000)) // 1 kWh = 3.6 MJ
	tax := exact.Int(1).Add(exact.MustNumber("9.5").Mul(exact.New(1, 2)))
	cost := kWh.Times(exact.MustNumber("0.3146")).Times(tax)

	energy, ends := kWh.Number()
	fmt.Println(energy, ends)
	fmt.Println(cost.Round(6, exact.HalfEven))
	// Output:
	// 5.208 true
	// 1.794088
}

// The four modes on a tie, and a number that has no more digits than that.
func ExampleNumber_Round() {
	for _, mode := range []exact.Mode{exact.HalfEven, exact.HalfAway, exact.Down, exact.Up} {
		fmt.Println(exact.MustNumber("-2.345").Round(2, mode), exact.MustNumber("1.5").Round(2, mode), mode)
	}
	// Output:
	// -2.34 1.5 half even
	// -2.35 1.5 half away from zero
	// -2.34 1.5 down
	// -2.35 1.5 up
}

// Two litres of honey at 1.42 kg/L, weighed into pounds.
func ExampleQuantity_Through() {
	honey := exact.MustQuantity("2 L")
	pounds, err := honey.Through(exact.MustNumber("1.42"), exact.Lb)
	fmt.Println(pounds, err)

	_, err = honey.In(exact.Lb)
	var mixed *exact.DimensionError
	if errors.As(err, &mixed) {
		fmt.Println(err)
	}
	// Output:
	// 6.261128246051 lb <nil>
	// cannot convert 2 L (volume) to lb (mass)
}

// What is not a number is said, with the reason.
func ExampleParseNumber() {
	for _, cell := range []string{"12.50", "1,5", "1e999999999", "+5", "0.0000000001"} {
		n, err := exact.ParseNumber(cell)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(n)
	}
	// Output:
	// 12.5
	// "1,5" is not a number: a comma: write the point as '.', and no thousands separator
	// "1e999999999" is not a number: an exponent: write the digits out
	// "+5" is not a number: a plus sign
	// "0.0000000001" is not a number: more than 9 digits after the point
}

func ExampleParseQuantity() {
	for _, cell := range []string{"1.5 L", "300cc", "2 ml", "half a cup"} {
		q, err := exact.ParseQuantity(cell)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(q, "is", q.Base())
	}
	// Output:
	// 1.5 L is 1.5 L
	// 300 cc is 0.3 L
	// unknown unit "ml": write mL
	// "half a cup" is not a quantity: write a number and a unit, such as 1.5 L or 500 g
}

// A row of a table is written without a string for each cell.
func ExampleNumber_AppendTo() {
	row := []byte("2025-03-01;")
	row = exact.MustNumber("12.50").AppendTo(row)
	row = append(row, ';')
	row = exact.MustNumber("12.5").AppendFixed(row, 2)
	fmt.Println(string(row))
	// Output:
	// 2025-03-01;12.5;12.50
}

// Best by 18 months after packing, clamped to the month's end.
func ExampleDate_AddMonths() {
	packed := exact.MustDate("2025-08-31")
	best := packed.AddMonths(18)
	fmt.Println(best, int(best-packed), "days")
	// Output:
	// 2027-02-28 546 days
}

// When the clocks go forward, a time is skipped; when they go back, one comes
// twice, and the first is meant unless an offset says otherwise.
func ExampleParseMoment() {
	zone, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		log.Fatal(err)
	}
	for _, cell := range []string{"2025-03-30 02:30", "2025-10-26 02:30", "2025-10-26 02:30+01:00"} {
		t, err := exact.ParseMoment(cell, zone)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(t.UTC().Format(time.TimeOnly), "UTC")
	}
	// Output:
	// "2025-03-30 02:30" is not a date and time: the clocks of Europe/Vienna skip that time
	// 00:30:00 UTC
	// 01:30:00 UTC
}

// The places at which a ledger posts: four more than the minor unit has.
func ExampleCurrency_Places() {
	for _, code := range []string{"JPY", "EUR", "KWD"} {
		c, err := exact.ParseCurrency(code)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(c.Code(), c.Minor(), c.Places())
	}
	// Output:
	// JPY 0 4
	// EUR 2 6
	// KWD 3 7
}

// A cell that may be blank is not the same as nought.
func ExampleOpt() {
	typical := exact.MustNumber("1250")
	for _, watts := range []exact.Opt[exact.Number]{{}, exact.Some(exact.Int(0))} {
		fmt.Println(watts.Given(), watts.Or(typical))
	}
	// Output:
	// false 1250
	// true 0
}
