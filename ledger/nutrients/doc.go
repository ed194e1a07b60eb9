// Package nutrients is an open table of foods: what share of each is water,
// what it feeds, what of it is thrown away, and what a cup or a piece of it
// weighs. It fills in the columns of a food that a household cannot measure.
//
// # Source
//
// The figures are those of [Source], a work of the US government in the public
// domain: its abbreviated file and its file of household weights, without what
// names a maker, a shop or a brand (left_out.txt). They are averages of samples,
// not of the food at hand; whoever shows one names the source. Descriptions are
// the table's own short ones, such as "CORN,SWT,YEL,RAW"; [Food.Plain] writes the
// abbreviations out.
//
// # Units
//
// Water, kcal, protein and fat are per 100 g of the edible part; refuse is % of
// what is bought. A measure's weight is in g of the edible part, a density in kg/L,
// which is grams of a cup over 236.5882365 mL (NIST Handbook 44, appendix C).
// Every number is exact, as printed in the release; a quotient is an
// [exact.Ratio]. A figure that the release leaves blank is not given.
//
// # Use
//
// [Find] looks foods up by words, the plainest first, and [Get] by the NDB
// number that identifies a food in the release. The table is unpacked at the
// first call of either, which takes a few milliseconds; a program that calls
// neither pays nothing. All functions may be called from several goroutines.
package nutrients

//go:generate go run generate.go ../../../shared/data/usda-sr28-abbrev.csv ../../../shared/data/usda-sr28-weight.txt sr28.bin
