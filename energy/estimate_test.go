package energy

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// near reports whether two figures agree to so many significant digits.
func near(got, want float64, digits int) bool {
	return math.Abs(got-want) <= math.Abs(want)*math.Pow10(-digits)
}

func ratios(text string) []exact.Ratio {
	var list []exact.Ratio
	for _, s := range strings.Fields(text) {
		list = append(list, kwh(s))
	}
	return list
}

// norris is the data set Norris of the NIST Statistical Reference Datasets:
// calibration of ozone monitors, 36 points, linear, lower level of difficulty.
func norris() []Point {
	xs := ratios(`0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6
		556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5`)
	ys := ratios(`0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8
		557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2`)
	points := make([]Point, len(xs))
	for i := range xs {
		points[i] = Point{xs[i], ys[i]}
	}
	return points
}

// NIST StRD, Norris. Intercept and slope are the certified values of the file;
// the other certified values are from memory.
func TestNorris(t *testing.T) {
	l := must(FitLine(norris()))
	for _, c := range []struct {
		name      string
		got       Estimate
		certified float64
	}{
		{"intercept", l.Intercept, -0.262323073774029},
		{"slope", l.Slope, 1.00211681802045},
		{"standard error of the intercept", l.InterceptSE, 0.232818234301152},
		{"standard error of the slope", l.SlopeSE, 0.429796848199937e-03},
		{"residual standard deviation", l.ResidualSD, 0.884796396144373},
		{"r squared", l.RSquared, 0.999993745883712},
	} {
		if !near(float64(c.got), c.certified, 13) {
			t.Errorf("%s is %.15g, certified %.15g", c.name, float64(c.got), c.certified)
		}
	}
}

// A line far from the origin keeps its digits: sums of squares as floats would
// lose all of them here.
func TestFitFarFromOrigin(t *testing.T) {
	var points []Point
	for i, y := range ratios("3 5 7 9 11") {
		points = append(points, Point{kwh("1000000000").Add(exact.RatioOf(exact.Int(int64(i)))), y})
	}
	l := must(FitLine(points))
	if l.Slope != 2 || l.Intercept != -1999999997 || l.ResidualSD != 0 || l.RSquared != 1 {
		t.Errorf("line is %+v", l)
	}
}

func TestFitRefuses(t *testing.T) {
	points := []Point{{kwh("1"), kwh("2")}, {kwh("2"), kwh("2")}, {kwh("3"), kwh("2")}, {kwh("3.0"), kwh("3")}, {kwh("1"), kwh("3")}}
	if _, err := FitLine(points); !errors.Is(err, ErrTooFew) {
		t.Errorf("three different loads: %v", err)
	}
	points = append(points, Point{kwh("4"), kwh("2")})
	if _, err := FitLine(points); err != nil {
		t.Errorf("four different loads: %v", err)
	}
	flat := []Point{{kwh("1"), kwh("2")}, {kwh("2"), kwh("2")}, {kwh("3"), kwh("2")}, {kwh("4"), kwh("2")}}
	if l := must(FitLine(flat)); l.Slope != 0 || l.Intercept != 2 || l.RSquared != 1 {
		t.Errorf("flat line is %+v", l)
	}
}

// Laws of a fit: it goes through the means; moving and stretching Y moves and
// stretches it; the order of the points does not matter.
func TestFitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points, stretched []Point
		for i := range rapid.IntRange(4, 12).Draw(t, "n") {
			x := exact.RatioOf(exact.New(int64(i)*100+rapid.Int64Range(0, 99).Draw(t, "x"), 2))
			y := exact.RatioOf(exact.New(rapid.Int64Range(0, 9999).Draw(t, "y"), 2))
			points = append(points, Point{x, y})
			stretched = append(stretched, Point{x, y.Times(exact.Int(3)).Add(kwh("5"))})
		}
		l, s := must(FitLine(points)), must(FitLine(stretched))
		var x, y exact.Ratio
		for _, p := range points {
			x, y = x.Add(p.X), y.Add(p.Y)
		}
		n := exact.RatioOf(exact.Int(int64(len(points))))
		if !near(float64(l.At(x.Quo(n)))+1, float64(estimate(rational(y.Quo(n))))+1, 12) {
			t.Fatalf("at the mean %v the line is %v, not %v", x.Quo(n), l.At(x.Quo(n)), y.Quo(n))
		}
		if !near(float64(s.Slope)+100, 3*float64(l.Slope)+100, 12) || !near(float64(s.ResidualSD), 3*float64(l.ResidualSD), 12) {
			t.Fatalf("stretched %+v, plain %+v", s, l)
		}
		slices.Reverse(points)
		if r := must(FitLine(points)); r != l {
			t.Fatalf("backwards %+v, plain %+v", r, l)
		}
		low, high := l.Prediction(x, 0.9)
		lower, higher := l.Prediction(x, 0.99)
		if !(lower <= low && low <= l.At(x) && l.At(x) <= high && high <= higher) {
			t.Fatalf("90 %%: %v to %v, 99 %%: %v to %v", low, high, lower, higher)
		}
	})
}

// Student's t. With one and two degrees of freedom it has a closed form; the
// rest are from the table of critical values in the NIST/SEMATECH e-Handbook
// of Statistical Methods, 1.3.6.7.2 (from memory), which has three decimals.
func TestStudentQuantile(t *testing.T) {
	for p := 0.005; p < 1; p += 0.005 {
		if got, want := StudentQuantile(p, 1), math.Tan(math.Pi*(p-0.5)); math.Abs(got-want) > 1e-11*(1+math.Abs(want)) {
			t.Errorf("p %v, 1 degree: %v, want %v", p, got, want)
		}
		u := 2*p - 1
		if got, want := StudentQuantile(p, 2), u*math.Sqrt(2/(1-u*u)); math.Abs(got-want) > 1e-11*(1+math.Abs(want)) {
			t.Errorf("p %v, 2 degrees: %v, want %v", p, got, want)
		}
	}
	for _, c := range []struct {
		p       float64
		freedom int
		want    float64
	}{{0.95, 1, 6.314}, {0.975, 3, 3.182}, {0.95, 5, 2.015}, {0.975, 10, 2.228}, {0.99, 20, 2.528}, {0.9, 30, 1.310}, {0.975, 34, 2.032}, {0.975, 100, 1.984}} {
		if got := StudentQuantile(c.p, c.freedom); math.Abs(got-c.want) > 0.0005 {
			t.Errorf("p %v, %d degrees: %v, want %v", c.p, c.freedom, got, c.want)
		}
	}
	if !math.IsInf(StudentQuantile(1, 5), 1) || !math.IsInf(StudentQuantile(0, 5), -1) || StudentQuantile(0.5, 5) > 1e-15 {
		t.Error("the ends or the middle are wrong")
	}
	for _, bad := range []float64{-0.1, 1.1, math.NaN()} {
		if !math.IsNaN(StudentQuantile(bad, 5)) {
			t.Errorf("p %v is taken", bad)
		}
	}
	// Normal for many degrees: 1.959963984540054 (any table).
	if got := StudentQuantile(0.975, 1e6); !near(got, 1.959963984540054, 5) {
		t.Errorf("a million degrees: %v", got)
	}
}

// A spread is, to the last bit, that of the differences from the exact mean, whatever
// denominators its values have.
func TestSpreadByDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Custom(func(t *rapid.T) exact.Ratio {
			over := rapid.SampledFrom([]int64{1, 7, 1000, 3600, 1000000007, 1000000000000}).Draw(t, "over")
			return exact.Int(rapid.Int64Range(-1e12, 1e12).Draw(t, "n")).Over(exact.Int(over))
		})
		values := rapid.SliceOfN(value, 2, 40).Draw(t, "values")
		sum, squares, n := new(big.Rat), new(big.Rat), big.NewRat(int64(len(values)), 1)
		for _, v := range values {
			sum.Add(sum, rational(v))
		}
		mean := sum.Quo(sum, n)
		for _, v := range values {
			off := new(big.Rat).Sub(rational(v), mean)
			squares.Add(squares, off.Mul(off, off))
		}
		sd := Estimate(math.Sqrt(float64(estimate(squares.Quo(squares, n.Sub(n, big.NewRat(1, 1)))))))
		s := must(SpreadOf(values))
		if s.Mean != estimate(mean) || s.SD != exact.Some(sd) {
			t.Fatalf("mean %v and deviation %v, by definition %v and %v", s.Mean, s.SD, estimate(mean), sd)
		}
	})
}

func TestSpread(t *testing.T) {
	s := must(SpreadOf(ratios("4 1 3 2")))
	sd, _ := s.SD.Get()
	if s.N != 4 || s.Mean != 2.5 || s.Median != 2.5 || s.Lower != 1.75 || s.Upper != 3.25 || s.Min != 1 || s.Max != 4 || !near(float64(sd), math.Sqrt(5.0/3), 15) {
		t.Errorf("spread is %+v", s)
	}
	one := must(SpreadOf(ratios("7")))
	if one.SD.Given() || one.Median != 7 || one.Upper != 7 {
		t.Errorf("one value: %+v", one)
	}
	if _, _, ok := one.Prediction(0.9); ok {
		t.Error("one value predicts")
	}
	low, high, ok := s.Prediction(0.9)
	if want := 2.353363434801823 * float64(sd) * math.Sqrt(1.25); !ok || !near(float64(high-low), 2*want, 12) {
		t.Errorf("prediction is %v to %v", low, high)
	}
	if _, err := SpreadOf(nil); !errors.Is(err, ErrNoValues) {
		t.Errorf("no values: %v", err)
	}
}

// An estimate becomes a number as its shortest digits say, half to even.
func TestEstimateNumber(t *testing.T) {
	for _, c := range []struct {
		e      Estimate
		places int
		want   string
	}{
		{14.5, 3, "14.5"}, {0.0005, 3, "0"}, {0.0015, 3, "0.002"}, {0.0025, 3, "0.002"}, {-1.2345, 3, "-1.234"},
		{1e-20, 3, "0"}, {123456789012345, 0, "123456789012345"}, {0, 3, "0"}, {0.30000000000000004, 17, "0.30000000000000004"}, {3e14, 2, "300000000000000"},
	} {
		if got, ok := c.e.Number(c.places); !ok || got.String() != c.want {
			t.Errorf("%v at %d places is %v, want %s", c.e, c.places, got, c.want)
		}
	}
	for _, e := range []Estimate{Estimate(math.NaN()), Estimate(math.Inf(1)), 1e15} {
		if _, ok := e.Number(3); ok {
			t.Errorf("%v is a number", e)
		}
	}
	if n, ok := Estimate(-0.2).KWh(); !ok || !n.IsZero() {
		t.Errorf("-0.2 kWh is priced as %v", n)
	}
	if n, _ := Estimate(14.50049).KWh(); n.String() != "14.5" {
		t.Errorf("14.50049 kWh is priced as %v", n)
	}
}
