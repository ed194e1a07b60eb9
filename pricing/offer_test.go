package pricing_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing"
	"putby/pricing/exact"
)

func TestOfferDiscount(t *testing.T) {
	tests := []struct {
		offer, count, price string
		minor               int
		want                string
	}{
		{"3 for 5.00", "2", "1.99", 2, "0"},
		{"3 for 5.00", "3", "1.99", 2, "0.97"},
		{"3 for 5.00", "7", "1.99", 2, "1.94"},
		{"3 for 5.00", "3", "1.50", 2, "0"},      // dearer than the shelf: does not apply
		{"3 for 5.00", "3.5", "1.99", 2, "0.97"}, // 6.97 - 5.00 - 1.00
		{"3 for 500", "4", "198", 0, "94"},
		{"3 for 2", "2", "1.25", 2, "0"},
		{"3 for 2", "5", "1.25", 2, "1.25"},
		{"3 for 2", "6", "1.25", 2, "2.50"},
		{"2 for 1", "7", "0.99", 2, "2.97"},
		{"3 for 2.00", "3", "0.99", 2, "0.97"},
		{"25% off", "3", "0.99", 2, "0.74"},     // 0.7425
		{"12.5% off", "1", "0.20", 2, "0.03"},   // 0.025, a tie
		{"25% off", "1.234", "2.99", 2, "0.92"}, // loose: 3.69 * 0.25 = 0.9225
		{"100% off", "2", "3", 2, "6"},
		{"100% off", "0.5", "0.25", 2, "0.13"}, // the line itself is rounded as a till does: 0.125, a tie
		{"3 for 2", "3.5", "0.25", 2, "0.25"},  // 0.88 less 2.5 at 0.25, 0.63
		{"0.50 off", "3", "2.20", 2, "1.50"},
		{"0.50 off", "1.25", "4", 2, "0.63"}, // loose, per kilogram: 0.625
		{"0.50 off", "3", "0.40", 2, "1.20"}, // never more than the price
		{"half price", "3", "1.99", 2, "2.99"},
		{"every 2nd half price", "1", "2.98", 2, "0"},
		{"every 2nd half price", "5", "2.98", 2, "2.98"},
		{"every 3rd free", "7", "2.10", 2, "4.20"},
		{"every 4th 0.80 off", "9", "2.10", 2, "1.60"},
		// As shops word them: 2 paid of 3, 6 free of 20, half of one in two.
		{"buy 2 get 1 free", "7", "2.10", 2, "4.20"},
		{"Buy one get one FREE", "5", "0.99", 2, "1.98"},
		{"buy 7 get 3 free", "20", "1", 2, "6"},
		{"buy 1 get 1 half price", "4", "2.98", 2, "2.98"},
		{"buy 2 get 1 30% off", "3", "2", 2, "0.6"},
		{"3 for the price of 2", "5", "1.25", 2, "1.25"},
		{"3rd half price", "7", "3", 2, "3"},
		{"third free", "7", "2.10", 2, "4.20"},
		{"every second free", "5", "2", 2, "4"},
		{"2nd 0.80 off", "9", "2.10", 2, "3.20"},
		{"save 20%", "3", "0.99", 2, "0.59"},
		{"save 0.50", "3", "2.20", 2, "1.50"},
		{"half off", "3", "1.99", 2, "2.99"},
		{"save 20 % from 2", "2", "1", 2, "0.4"},
		{"25% off from 6", "5", "2", 2, "0"},
		{"25% off from 6", "6", "2", 2, "3"},
		{"3 for 5.00 from 6", "3", "1.99", 2, "0"},
		{"3 for 5.00 from 6", "6", "1.99", 2, "1.94"},
	}
	for _, test := range tests {
		o, err := pricing.ParseOffer(test.offer)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		what := fmt.Sprintf("%s of %s at %s", test.offer, test.count, test.price)
		got, err := o.Discount(num(test.count), num(test.price), test.minor)
		if err != nil {
			t.Errorf("%s: %v", what, err)
		}
		wantMoney(t, what, got, test.want)
	}
}

func TestParseOfferErrors(t *testing.T) {
	tests := []struct{ offer, want string }{
		{"", "write it as"},
		{"cheap", "write it as"},
		{"3 for", "write it as"},
		{"free", "write it as"},
		{"off", "write it as"},
		{"3 for 5,00", "a comma"},
		{"3 for 1e999999999", "an exponent"},
		{"1 for 5.00", "from 2 to 1000"},
		{"2.5 for 5.00", "from 2 to 1000"},
		{"1001 for 5.00", "from 2 to 1000"},
		{"3 for 0", "something must be left to pay"},
		{"3 for 0.00", "something must be left to pay"},
		{"3 for -2", "something must be left to pay"},
		{"0% off", "above 0"},
		{"-5% off", "above 0"},
		{"101% off", "no more than 100%"},
		{"0.00 off", "above 0"},
		{"every 2th free", "as 2nd"},
		{"every 11st free", "as 11th"},
		{"every other free", "not a number"},
		{"2nd", "write it as"},
		{"2nd milk free", "write it as"},
		{"3 for the price of 3", "a whole number below 3"},
		{"3 for the price of 1.5", "a whole number below 3"},
		{"3 for 2 pears", "write it as"},
		{"buy 0 get 1 free", "from 1 to 1000"},
		{"buy 1000 get 1 free", "at most 1000"},
		{"buy 2 get 2 half price", "for one package"},
		{"buy 2 get 1", "write it as"},
		{"save", "write it as"},
		{"every 1st free", "from 2 to 1000"},
		{"25% off from 1", "from 2 to 1000"},
		{"25% off from many", "not a number"},
		{"from 6", "write it as"},
	}
	for _, test := range tests {
		_, err := pricing.ParseOffer(test.offer)
		if !errors.Is(err, pricing.ErrOffer) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: error %v, want one that says %q", test.offer, err, test.want)
		}
	}
}

func TestOfferRefusesNegatives(t *testing.T) {
	o := offer("25% off")
	for _, test := range [][2]string{{"-1", "1"}, {"1", "-1"}} {
		_, err := o.Discount(num(test[0]), num(test[1]), 2)
		if !errors.Is(err, pricing.ErrNegative) {
			t.Errorf("%s at %s: error %v", test[0], test[1], err)
		}
		if _, err = o.Pay(num(test[0]), num(test[1]), 2); !errors.Is(err, pricing.ErrNegative) {
			t.Errorf("paying %s at %s: error %v", test[0], test[1], err)
		}
	}
}

func TestNoOffer(t *testing.T) {
	var none pricing.Offer
	got, err := none.Discount(num("3"), num("1.99"), 2)
	if err != nil || !got.IsZero() {
		t.Errorf("the zero offer takes %v off (%v)", got, err)
	}
}

// Laws: a discount is never below nothing nor above the line; buying one more
// package never makes the line cheaper, save where it completes a group that
// has a price of its own.
func TestOfferLaws(t *testing.T) {
	offers := []string{"3 for 5.00", "3 for 2", "25% off", "0.50 off", "every 2nd half price", "every 3rd 0.80 off"}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(offers).Draw(t, "offer")
		o := offer(text)
		price := number(t, "price", 0, 1000, 2)
		var last exact.Money
		for n := range int64(12) {
			count := exact.Int(n)
			discount, err := o.Discount(count, price, 2)
			if err != nil {
				t.Fatal(err)
			}
			base := count.Mul(price)
			if discount.Sign() < 0 || base.Less(discount.Number()) || discount.Number().Places() > 2 {
				t.Fatalf("%s takes %v off %v", text, discount, base)
			}
			pay, err := o.Pay(count, price, 2)
			if err != nil || !pay.Add(discount).Number().Equal(base) {
				t.Fatalf("%s: pays %v, discount %v, of %v (%v)", text, pay, discount, base, err)
			}
			if pay.Cmp(last) < 0 && !strings.Contains(text, "for 5.00") {
				t.Fatalf("%s: %d packages at %v cost %v, one fewer %v", text, n, price, pay, last)
			}
			last = pay
		}
	})
}

// Law: no text makes an offer panic, or take a discount out of bounds.
func FuzzParseOffer(f *testing.F) {
	for _, s := range []string{
		"3 for 5.00", "3 for 2", "25% off", "25 % off", "0.50 off", "every 2nd half price",
		"every 3rd free from 6", "half price", "2 for 1 from 4", "every 4th 0.80 off", "3 for 5,00", "",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		o, err := pricing.ParseOffer(s)
		if err != nil {
			if !errors.Is(err, pricing.ErrOffer) || o != (pricing.Offer{}) {
				t.Fatalf("%q: %v, %v", s, o, err)
			}
			return
		}
		price := num("1.99")
		for _, count := range []string{"0", "1", "2.5", "6", "1000"} {
			off, err := o.Discount(num(count), price, 2)
			line := num(count).Mul(price).Round(2, exact.HalfAway)
			if err != nil || off.Sign() < 0 || line.Less(off.Number()) {
				t.Fatalf("%q takes %v off %s at %v (%v)", s, off, count, price, err)
			}
		}
	})
}

func ExampleOffer_Discount() {
	for _, s := range []string{"3 for 5.00", "3 for 2", "every 2nd half price", "25% off from 6"} {
		offer, err := pricing.ParseOffer(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		discount, _ := offer.Discount(exact.Int(7), num("1.98"), 2)
		fmt.Println(s, "takes off", discount.Fixed(2))
	}
	// Output:
	// 3 for 5.00 takes off 1.88
	// 3 for 2 takes off 3.96
	// every 2nd half price takes off 2.97
	// 25% off from 6 takes off 3.47
}
