package exact

// A Form says how the digits of a number are read that is held without a pointer:
// how many stand behind the point, and the unit. The zero Form is that of whole
// numbers without a unit.
type Form uint8

// Forms has each place up to the last that a record may have, for each unit.
const (
	formScales = MaxFraction + 1
	// MaxForm is the greatest form; those above it are free for others to mean
	// something else.
	MaxForm = Form(unitCount)*formScales - 1
)

// Compact returns the digits of q and their form, which take no more than nine
// bytes and no pointer. It reports false of an amount that has too many digits for
// that. [Form.Of] gives back the very same amount.
func (q Quantity) Compact() (digits int64, form Form, ok bool) {
	scale := q.n.scale()
	if q.n.big() != nil || scale >= formScales {
		return 0, 0, false
	}
	return q.n.coef, Form(q.Unit())*formScales + Form(scale), true
}

// Of returns the amount that has digits in a form.
func (f Form) Of(digits int64) Quantity {
	unit, scale := Unit(f/formScales), uint8(f%formScales)
	if unit == NoUnit {
		return Quantity{small(digits, scale)}
	}
	return Quantity{Number{digits, &forms[unit][scale]}}
}
