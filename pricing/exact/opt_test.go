package exact

import (
	"testing"
	"unsafe"
)

func TestOpt(t *testing.T) {
	var none Opt[Number]
	if _, ok := none.Get(); ok || none.Given() || none.Or(Int(3)) != Int(3) {
		t.Error("the zero value is given")
	}
	zero := Some(Int(0)) // which is not the same as none
	if v, ok := zero.Get(); !ok || !v.IsZero() || !zero.Given() || zero.Or(Int(3)) != Int(0) {
		t.Error("a given zero is not given")
	}
}

// A number that is given says so, whatever it is, and takes no room for that.
func TestOptNumber(t *testing.T) {
	if n, given := (OptNumber{}).Get(); given || !n.IsZero() {
		t.Errorf("nothing is %v, %v", n, given)
	}
	for _, text := range []string{"0", "0.00", "7", "-1.5", "123456789012345.123456789"} {
		want := MustNumber(text)
		have, given := SomeNumber(want).Get()
		if !given || have.String() != want.String() || have.form != want.form {
			t.Errorf("%s is %v, %v", text, have, given)
		}
	}
	if have, want := unsafe.Sizeof(OptNumber{}), unsafe.Sizeof(Number{}); have != want {
		t.Errorf("it takes %d bytes, a number %d", have, want)
	}
}
