// Package exact holds the values that putby reckons with: numbers, money,
// quantities, ratios, dates and lengths of time, none of which ever loses a
// digit without being told to.
//
// # Representation
//
// A [Number] is a decimal number of any size. [Money] is a number of the major
// unit of the ledger's one [Currency]. A [Quantity] is a number of a [Unit]. A
// [Ratio] is a quotient that has not been divided yet, such as a unit price.
// All are immutable values; their zero values are zero and ready to use. A
// [Date] is a civil date without a zone.
//
// Numbers whose digits fit 64 bits are held in place and cost no allocation;
// larger ones are held by a decimal library. Callers cannot tell which.
//
// # Rounding
//
// Addition, subtraction and multiplication are exact. Division is either a
// [Ratio], which is exact, or a method that names its places and [Mode].
// Postings round half to even ([HalfEven]); what people read rounds half away
// from zero ([HalfAway]), as shops do.
//
// # Splitting
//
// [Split] shares an amount by the largest-remainder rule, so that the parts
// always sum to the whole. [Money.Share] takes a part out of a whole so that
// the last one to take gets all that is left.
//
// # Units
//
// Conversion factors are exact (NIST SP 811 and Handbook 44). Dimensions do
// not mix: litres become kilograms only by [Quantity.Through] a density, and
// anything else is a [*DimensionError] that holds both operands.
//
// # Parsing
//
// The parsers take one plain notation each and refuse everything else, with an
// error that says why and satisfies errors.Is with the package's Err values.
// Functions named Must panic instead; they are for constants.
package exact
