package exact

import "testing"

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

func TestOptOfAndMap(t *testing.T) {
	double := func(n Number) Number { return n.Add(n) }
	if got := Map(OptOf(Int(3), true), double); got != Some(Int(6)) {
		t.Errorf("twice a given 3 is %v", got)
	}
	if none := OptOf(Int(3), false); none != (Opt[Number]{}) || Map(none, double).Given() {
		t.Error("what is not given is given")
	}
}
