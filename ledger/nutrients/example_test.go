package nutrients_test

import (
	"fmt"

	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// What a ledger's row for strawberries needs, and what a kilogram of them
// leaves behind at 3 % residual moisture.
func Example() {
	f := nutrients.Find("strawberries raw")[0]
	fmt.Println(f.NDB, f.Plain())
	fmt.Println("water", f.Water.Or(exact.Number{}), "%, refuse", f.Refuse.Or(exact.Number{}), "%")
	for _, m := range f.Volumes()[:2] {
		density, _ := m.Density()
		fmt.Println("as", m.Words, density.Round(3, exact.HalfEven), "kg/L")
	}
	dry, _ := f.Dry(exact.Int(3))
	fmt.Println("dry", dry.Round(4, exact.HalfEven), "kg of each kg")
	fmt.Println(nutrients.Source)
	// Output:
	// 09316 strawberries, raw
	// water 90.95 %, refuse 6 %
	// as cup, whole 0.609 kg/L
	// as cup, halves 0.642 kg/L
	// dry 0.0933 kg of each kg
	// USDA National Nutrient Database for Standard Reference, Release 28 (public domain)
}
