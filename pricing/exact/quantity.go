package exact

import (
	"errors"
	"fmt"
	"strings"
)

// QuantityPlaces is where a quotient of quantities that does not end is
// rounded, half to even: digits after the point in the result's unit.
const QuantityPlaces = 12

// A Quantity is an exact amount of a unit. Its zero value is nothing of no
// unit, which stands for a quantity that was not given.
type Quantity struct {
	n Number // its form says the unit too, so that a quantity takes no more memory
}

// Of returns n of u.
func (u Unit) Of(n Number) Quantity {
	switch {
	case u == NoUnit || u >= unitCount:
		return Quantity{n}
	case n.big() != nil:
		return Quantity{Number{form: &form{unit: u, big: n.big()}}}
	}
	return Quantity{Number{n.coef, &forms[u][n.scale()]}}
}

// ErrQuantity is what errors of [ParseQuantity] about the form are.
var ErrQuantity = errors.New("not a quantity")

// ErrDensity is what [Quantity.Through] says to a density that is not above 0.
var ErrDensity = errors.New("a density must be above zero")

// ParseQuantity reads a number and a unit, such as "500 g" or "1.5L", with any
// spaces between them. Its errors are [ErrQuantity], [ErrNumber] or [ErrUnit].
func ParseQuantity(s string) (Quantity, error) {
	at := 0
	for at < len(s) && (s[at] == '-' || s[at] == '.' || isDigit(s[at])) {
		at++
	}
	name := strings.TrimLeft(s[at:], " ")
	if at == 0 || name == "" {
		return Quantity{}, fmt.Errorf("%s is %w: write a number and a unit, such as 1.5 L or 500 g", Quote(s), ErrQuantity)
	}
	if goesOn(name) {
		_, why := scanNumber(s)
		return Quantity{}, numberError(s, why)
	}
	n, err := ParseNumber(s[:at])
	if err != nil {
		return Quantity{}, err
	}
	u, err := ParseUnit(name)
	if err != nil {
		return Quantity{}, err
	}
	return u.Of(n), nil
}

// goesOn reports whether what stands where a unit should is rather more of a
// number in some other notation: "1,5 kg", "1 000 g", "1e3 g".
func goesOn(name string) bool {
	switch c := name[0]; {
	case c == ',' || isDigit(c):
		return true
	case (c == 'e' || c == 'E') && len(name) > 1:
		return isDigit(name[1]) || name[1] == '+' || name[1] == '-'
	}
	return false
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// MustQuantity is ParseQuantity for constants; it panics on an error.
func MustQuantity(s string) Quantity { return must(ParseQuantity(s)) }

// Number returns the amount in q's own unit.
func (q Quantity) Number() Number {
	switch d := q.n.big(); {
	case q.Unit() == NoUnit:
		return q.n
	case d != nil:
		return Number{form: &form{big: d}}
	}
	return small(q.n.coef, q.n.scale())
}

// Unit returns q's unit.
func (q Quantity) Unit() Unit {
	if q.n.form == nil {
		return NoUnit
	}
	return q.n.form.unit
}

// Given reports whether q has a unit, which every quantity in a record has.
func (q Quantity) Given() bool { return q.Unit() != NoUnit }

// Sign returns -1, 0 or 1.
func (q Quantity) Sign() int { return q.n.Sign() }

// Base returns q in the base unit of its dimension, exactly.
func (q Quantity) Base() Quantity {
	return q.Unit().Dimension().Base().Of(q.Number().Mul(q.Unit().Factor()))
}

// In returns q in the unit u. The result is exact when its digits end (into a
// base unit they always do), else rounded half to even at [QuantityPlaces].
// Another dimension is a [*DimensionError].
func (q Quantity) In(u Unit) (Quantity, error) {
	if q.Unit() == u {
		return q, nil
	}
	if q.Unit().Dimension() != u.Dimension() {
		return Quantity{}, &DimensionError{"convert", q, u.Of(Number{})}
	}
	base := q.Number().Mul(q.Unit().Factor())
	if u == u.Dimension().Base() {
		return u.Of(base), nil
	}
	r := base.Over(u.Factor())
	if n, ends := r.Number(); ends {
		return u.Of(n), nil
	}
	return u.Of(r.Round(QuantityPlaces, HalfEven)), nil
}

// Through converts between volume and mass by a density in kg/L into the unit
// u, exactly and then rounded once, half to even, at [QuantityPlaces]. A
// density that is not above 0 is [ErrDensity]; a dimension that is neither
// volume nor mass is a [*DimensionError]. Within one dimension it is
// [Quantity.In], and the density does not matter.
func (q Quantity) Through(density Number, u Unit) (Quantity, error) {
	from, to := q.Unit().Dimension(), u.Dimension()
	switch {
	case from == to:
		return q.In(u)
	case !(from == Volume && to == Mass || from == Mass && to == Volume):
		return Quantity{}, &DimensionError{"convert", q, u.Of(Number{})}
	case density.Sign() <= 0:
		return Quantity{}, fmt.Errorf("%w: it is %v kg/L", ErrDensity, density)
	}
	r := RatioOf(q.Base().Number())
	if to == Mass {
		r = r.Times(density)
	} else {
		r = r.Quo(RatioOf(density))
	}
	r = r.Quo(RatioOf(u.Factor()))
	return u.Of(r.Round(QuantityPlaces, HalfEven)), nil
}

// Times returns q times n, in q's unit.
func (q Quantity) Times(n Number) Quantity { return q.Unit().Of(q.Number().Mul(n)) }

// Add returns q + o in q's unit, or a [*DimensionError].
func (q Quantity) Add(o Quantity) (Quantity, error) {
	p, err := o.In(q.Unit())
	if err != nil {
		return Quantity{}, &DimensionError{"add", q, o}
	}
	return q.Unit().Of(q.Number().Add(p.Number())), nil
}

// Sub returns q - o in q's unit, or a [*DimensionError].
func (q Quantity) Sub(o Quantity) (Quantity, error) {
	p, err := o.In(q.Unit())
	if err != nil {
		return Quantity{}, &DimensionError{"subtract", q, o}
	}
	return q.Unit().Of(q.Number().Sub(p.Number())), nil
}

// Cmp compares q with o by their base units, or gives a [*DimensionError].
func (q Quantity) Cmp(o Quantity) (int, error) {
	if q.Unit().Dimension() != o.Unit().Dimension() {
		return 0, &DimensionError{"compare", q, o}
	}
	return q.Base().Number().Cmp(o.Base().Number()), nil
}

// String returns the amount and the unit, such as "1.5 L".
func (q Quantity) String() string {
	if q.Unit() == NoUnit {
		return q.Number().String()
	}
	return q.Number().String() + " " + q.Unit().String()
}

// A DimensionError says that two quantities do not measure the same thing. It
// holds both operands.
type DimensionError struct {
	Verb string // what was tried: "add", "convert" ...
	A, B Quantity
}

// Error says what could not be done.
func (e *DimensionError) Error() string {
	if e.Verb == "convert" {
		return fmt.Sprintf("cannot convert %v (%v) to %v (%v)", e.A, e.A.Unit().Dimension(), e.B.Unit(), e.B.Unit().Dimension())
	}
	return fmt.Sprintf("cannot %s %v (%v) and %v (%v)", e.Verb, e.A, e.A.Unit().Dimension(), e.B, e.B.Unit().Dimension())
}
