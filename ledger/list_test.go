package ledger

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// Records that are packed come out as they went in, every field of them.
func TestPackedIsTheSame(t *testing.T) {
	t.Run("receipts", func(t *testing.T) { packedIsTheSame(t, ReceiptList{}) })
	t.Run("phases", func(t *testing.T) { packedIsTheSame(t, PhaseList{}) })
	t.Run("loads", func(t *testing.T) { packedIsTheSame(t, LoadList{}) })
	t.Run("packs", func(t *testing.T) { packedIsTheSame(t, PackList{}) })
	t.Run("draws", func(t *testing.T) { packedIsTheSame(t, DrawList{}) })
}

// packedIsTheSame fills records with whatever their fields may hold. A field that
// is not packed would come out as nothing.
func packedIsTheSame[R any, C compact[R, C]](t *testing.T, list List[R, C]) {
	var all []R
	rapid.Check(t, func(t *rapid.T) {
		records := make([]R, rapid.IntRange(0, 12).Draw(t, "records"))
		for i := range records {
			fillAny(t, reflect.ValueOf(&records[i]).Elem())
		}
		before, n := list, list.Len()
		list, all = list.With(records...), append(all, records...)
		if before.Len() != n || list.Len() != len(all) {
			t.Fatalf("%d records are %d, and %d are %d", n, before.Len(), len(all), list.Len())
		}
		for i, r := range list.All() {
			if !reflect.DeepEqual(r, all[i]) {
				t.Fatalf("record %d went in as\n%+v\nand came out as\n%+v", i, all[i], r)
			}
		}
	})
}

// fillAny fills a value with anything that a record may have there.
func fillAny(t *rapid.T, v reflect.Value) {
	number := rapid.Custom(func(t *rapid.T) exact.Number {
		n := exact.New(rapid.Int64().Draw(t, "digits"), rapid.IntRange(0, 12).Draw(t, "places"))
		if rapid.IntRange(0, 9).Draw(t, "wide") == 0 {
			n = n.Mul(exact.MustNumber("987654321987654.123456789"))
		}
		return n
	})
	text := rapid.OneOf(rapid.SampledFrom([]string{"", "c47-a", "Hofladen"}), rapid.String(), rapid.Custom(func(t *rapid.T) string {
		return strings.Repeat("long ", rapid.IntRange(40, 20_000).Draw(t, "times"))
	}))
	switch p := v.Addr().Interface().(type) {
	case *exact.Number:
		*p = number.Draw(t, "number")
	case *exact.Money:
		*p = exact.MoneyOf(number.Draw(t, "money"))
	case *exact.Quantity:
		*p = rapid.SampledFrom([]exact.Unit{exact.NoUnit, exact.L, exact.KW}).Draw(t, "unit").Of(number.Draw(t, "amount"))
	case *exact.Opt[exact.Number]:
		if rapid.Bool().Draw(t, "given") {
			*p = exact.Some(number.Draw(t, "number"))
		}
	case *time.Duration:
		*p = time.Duration(rapid.Int64().Draw(t, "length"))
	case *string:
		*p = text.Draw(t, "text")
	case *[]Use:
		for range rapid.IntRange(0, 2).Draw(t, "uses") {
			*p = append(*p, Use{"jar", number.Draw(t, "number")})
		}
	case *[]string:
		if rapid.Bool().Draw(t, "some") {
			*p = []string{text.Draw(t, "text")}
		}
	default:
		fillKind(t, v)
	}
}

func fillKind(t *rapid.T, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "there") {
			v.Set(reflect.New(v.Type().Elem()))
			fillAny(t, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fillAny(t, v.Field(i))
		}
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "is"))
	case reflect.Uint8:
		v.SetUint(rapid.Uint64Range(0, 255).Draw(t, "word"))
	case reflect.Int, reflect.Int32:
		v.SetInt(int64(rapid.Int32().Draw(t, "whole")))
	default:
		t.Fatalf("what may a %v be?", v.Type())
	}
}

// A list that others go on from, each with a record of its own, is theirs in part:
// none sees what another added.
func TestListsThatShare(t *testing.T) {
	first := DrawList{}.With(Draw{Pack: "a"}, Draw{Pack: "b"})
	second, third := first.With(Draw{Pack: "c"}), first.With(Draw{Pack: "d"})
	names := func(l DrawList) string { return fmt.Sprint(l.Distinct(func(d *Draw) string { return d.Pack })) }
	if got := names(first) + names(second) + names(third) + names(second.From(1)); got != "[a b][a b c][a b d][b c]" {
		t.Error(got)
	}
	odd := second.Only(func(d *Draw) bool { return d.Pack != "b" })
	if got := names(odd.With(Draw{Pack: "e"})) + names(odd); got != "[a c e][a c]" {
		t.Error(got)
	}
	if at := second.Index(func(d *Draw) bool { return d.Pack == "c" }); at != 2 {
		t.Errorf("c is at %d", at)
	}
	if at := first.Index(func(d *Draw) bool { return d.Pack == "c" }); at != -1 {
		t.Errorf("c is at %d of those before", at)
	}
}
