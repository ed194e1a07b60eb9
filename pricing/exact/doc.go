// Package exact holds the values that putby works with: numbers, money,
// quantities, ratios, dates and lengths of time, none of which ever loses a
// digit without being told to.
//
// # Representation
//
// A [Number] is a decimal number of any size. [Money] is a number of the major
// unit of the ledger's one [Currency]. A [Quantity] is a number of a [Unit]. A
// [Ratio] is a quotient that has not been divided yet, such as a unit price.
// All are immutable values; their zero values are zero and ready to use. Compare
// them with their methods Equal and Cmp: 1.0 and 1 are equal, but not ==.
//
// A [Date] is a civil date without a zone; it, a [Unit] and a [Currency] do
// compare with ==. An instant is a [time.Time], a length of time a
// [time.Duration]. An [Opt] is a value that a record may leave out, which is not
// the same as nought.
//
// Numbers and ratios whose digits fit 64 bits are held in place, and working
// with them costs no allocation; larger ones are held by a decimal library and
// by math/big. Callers cannot tell which. A number is as large as memory allows
// (and has less than 2^31 digits after the point), so sums and products of
// records never overflow.
//
// # Rounding
//
// Addition, subtraction and multiplication are exact. Division is either a
// [Ratio], which is exact, or a method that names its places and [Mode]:
// [Ratio.Round], [Number.Round], [Money.Share], [Quantity.In] and
// [Quantity.Through], each of which rounds once. Postings round half to even
// ([HalfEven]); what people read rounds half away from zero ([HalfAway]), as
// shops do.
//
// Places are digits after the point, from 0 to [MaxPlaces]; a count outside
// means the nearest of the two. ([New] alone takes places below 0, for hundreds.)
//
// # Splitting
//
// [Split] shares an amount by the largest-remainder rule, so that the parts
// always sum to the whole, and [Money.FirstOf] says what the first of equal
// parts come to. [Money.Share]
// takes a part out of a lot so that the last one to take gets all that is left.
//
// # Order
//
// [Quantile] and [Median] stand between values in order, exactly.
//
// # Units
//
// Conversion factors are exact (NIST SP 811 and Handbook 44). Dimensions do
// not mix: litres become kilograms only by [Quantity.Through] a density in
// kg/L, and anything else is a [*DimensionError] that holds both operands.
//
// # Dates and clocks
//
// Dates run over the Gregorian calendar, which is taken to have held always.
// Records may hold the years 1900 to 2999. The zero value is [NoDate], a date
// that was not given. [Date.AddMonths] clamps to the month's end. [LocalTime],
// [ParseMoment] and [Date.Midnight] know the times that clocks skip or show
// twice: of two, the first one is meant.
//
// # Parsing and printing
//
// The parsers ([ParseNumber], [ParseQuantity], [ParseUnit], [ParseCurrency],
// [ParseDate], [ParseMoment], [ParseDuration]) take one plain notation each and
// refuse everything else, with an error that quotes the text (by [Quote]), says
// why, and satisfies errors.Is with the package's Err values. What String
// prints, they read back as the same value. AppendTo and AppendFixed print into
// a buffer. Functions named Must panic instead of returning an error; they are
// for constants.
//
// # Panics
//
// Dividing by zero panics, as it does for integers: [Number.Over], [Money.Per],
// [Ratio.Quo] and [Money.Share]. Nothing else does, whatever the value.
package exact
