package pricing

import (
	"errors"
	"fmt"
	"slices"

	"putby/pricing/exact"
)

// A Line is one line of a receipt: packages at a price each, less a discount,
// plus tax. Money is in major units.
type Line struct {
	Count    exact.Number // packages; may be a fraction for goods sold loose; below 0 where the shop took them back
	Price    exact.Number // money per package; may have more places than minor digits
	Discount exact.Money  // taken off the whole line; 0 for none
	Tax      exact.Money  // put on the whole line; 0 for none
}

// Base returns what the line costs before its tax: count times price, rounded
// half away from zero at minor digits as a till does, less the discount. It is
// what receipt-wide amounts are apportioned on.
func (l Line) Base(minor int) exact.Money {
	return exact.MoneyOf(l.Count.Mul(l.Price).Round(minor, exact.HalfAway)).Sub(l.Discount)
}

// An Adjustment is an amount that a receipt states once for several lines.
type Adjustment struct {
	Amount exact.Money // a discount is negative, a tax or a charge positive
	On     []int       // indexes of the lines that share it; nil means all lines but those taken back
}

// The reasons of a [PostError].
var (
	// ErrNegativeBase: a line whose discount is more than its amount cannot
	// bear a share.
	ErrNegativeBase = errors.New("the line's discount is more than its amount, so nothing can be apportioned on it")
	// ErrTakenBack: what a shop takes back bears no share.
	ErrTakenBack = errors.New("what was taken back bears no share of the amount")
	// ErrMinorPlaces: a receipt's amounts have at most minor digits.
	ErrMinorPlaces = errors.New("the amount has more decimal places than the currency")
	// ErrNoLines: an amount with no line to bear it.
	ErrNoLines = errors.New("there is no line to apportion the amount on")
	// ErrNoSuchLine: an index outside the lines, or one named twice.
	ErrNoSuchLine = errors.New("the amount is on a line that the receipt does not have, or on one line twice")
)

// A PostError says which line or adjustment of a receipt cannot be posted.
type PostError struct {
	Line       int // index of the line, or -1
	Adjustment int // index of the adjustment, or -1
	Err        error
}

// Error says where and why, counting from 1 as people do.
func (e *PostError) Error() string {
	switch {
	case e.Adjustment < 0:
		return fmt.Sprintf("line %d of the receipt: %v", e.Line+1, e.Err)
	case e.Line < 0:
		return fmt.Sprintf("receipt-wide amount %d: %v", e.Adjustment+1, e.Err)
	}
	return fmt.Sprintf("receipt-wide amount %d on line %d: %v", e.Adjustment+1, e.Line+1, e.Err)
}

// Unwrap returns the reason.
func (e *PostError) Unwrap() error { return e.Err }

// Post returns what each line costs in all: its base, its tax and its
// shares of the adjustments. Each adjustment is split by itself, at minor
// digits and by largest remainder, in proportion to the bases of its lines
// (equally where all of them are zero); so the costs add up to what was paid.
// An error is a [*PostError].
func Post(lines []Line, adjustments []Adjustment, minor int) ([]exact.Money, error) {
	return PostInto(make([]exact.Money, 0, len(lines)), lines, adjustments, minor)
}

// PostInto is Post with room for the costs.
func PostInto(room []exact.Money, lines []Line, adjustments []Adjustment, minor int) ([]exact.Money, error) {
	costs := slices.Grow(room[:0], len(lines))[:len(lines)]
	var bases []exact.Number // only amounts for several lines want them
	if len(adjustments) > 0 {
		bases = make([]exact.Number, len(lines))
	}
	for i, l := range lines {
		if l.Discount.Number().Places() > minor || l.Tax.Number().Places() > minor {
			return nil, &PostError{i, -1, ErrMinorPlaces}
		}
		base := l.Base(minor)
		if costs[i] = base.Add(l.Tax); bases != nil {
			bases[i] = base.Number()
		}
	}
	for i, a := range adjustments {
		if err := apportion(costs, bases, lines, a, minor); err != nil {
			err.Adjustment = i
			return nil, err
		}
	}
	return costs, nil
}

// apportion adds the shares of one adjustment to the costs.
func apportion(costs []exact.Money, bases []exact.Number, lines []Line, a Adjustment, minor int) *PostError {
	if a.Amount.Number().Places() > minor {
		return &PostError{Line: -1, Err: ErrMinorPlaces}
	}
	on, err := a.lines(lines)
	if err != nil {
		return err
	}
	weights, err := weightsOf(bases, on)
	if err != nil {
		return err
	}
	shares, split := a.Amount.Split(weights, minor)
	if split != nil {
		return &PostError{Line: -1, Err: split}
	}
	for i, line := range on {
		costs[line] = costs[line].Add(shares[i])
	}
	return nil
}

// lines returns the indexes of the lines that share a, of all lines.
func (a Adjustment) lines(all []Line) ([]int, *PostError) {
	on := a.On
	if on == nil {
		on = make([]int, 0, len(all))
		for i := range all {
			if all[i].Count.Sign() >= 0 {
				on = append(on, i)
			}
		}
		return on, noLines(on)
	}
	seen := make([]bool, len(all))
	for _, line := range on {
		if line < 0 || line >= len(all) || seen[line] {
			return nil, &PostError{Line: line, Err: ErrNoSuchLine}
		}
		if all[line].Count.Sign() < 0 {
			return nil, &PostError{Line: line, Err: ErrTakenBack}
		}
		seen[line] = true
	}
	return on, noLines(on)
}

func noLines(on []int) *PostError {
	if len(on) == 0 {
		return &PostError{Line: -1, Err: ErrNoLines}
	}
	return nil
}

// weightsOf returns the bases of the lines on, or ones where all of them are
// zero.
func weightsOf(bases []exact.Number, on []int) ([]exact.Number, *PostError) {
	weights, zero := make([]exact.Number, len(on)), true
	for i, line := range on {
		if bases[line].Sign() < 0 {
			return nil, &PostError{Line: line, Err: ErrNegativeBase}
		}
		weights[i] = bases[line]
		zero = zero && weights[i].IsZero()
	}
	if zero {
		for i := range weights {
			weights[i] = exact.Int(1)
		}
	}
	return weights, nil
}
