package exact

import (
	"testing"

	"pgregory.net/rapid"
)

// An amount that is held as digits and a form comes back as it was, digit for
// digit, in its unit. Every amount that a record may have is held so, but for those
// beyond 64 bits.
func TestCompact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := Unit(rapid.Uint8Range(0, uint8(unitCount)-1).Draw(t, "unit")).Of(numbers().Draw(t, "number"))
		digits, form, ok := q.Compact()
		if !ok {
			if q.n.big() == nil && q.n.scale() <= MaxFraction {
				t.Fatalf("%v is not held", q)
			}
			return
		}
		if form > MaxForm {
			t.Fatalf("%v has the form %d", q, form)
		}
		if back := form.Of(digits); back != q {
			t.Fatalf("%v (%#v) comes back as %v (%#v)", q, q, back, back)
		}
	})
	if digits, form, ok := (Quantity{}).Compact(); digits != 0 || form != 0 || !ok {
		t.Errorf("nothing is %d, %d, %v", digits, form, ok)
	}
}
