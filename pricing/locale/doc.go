// Package locale writes figures and dates as the people of a place do, and reads
// numbers and dates that they typed.
//
// # What it represents
//
// A [Locale] is one of the locales in the table of facts.go, by its BCP 47 tag:
// de-DE, en-US, fr-CH. Its zero value is none: everything is written plain, as
// records have it, and read strictly. The facts are those of Unicode's Common
// Locale Data Repository, version 41, as Debian's package unicode-cldr-core has
// them; a test holds the table to that package where it is installed.
//
// # Writing
//
// All that is written goes in as text that package exact made, digit by digit,
// and keeps every digit: nothing is rounded, no number becomes a float. Written
// are a [Locale.Number], [Locale.Money], [Locale.Percent], [Locale.Date] and
// [Locale.Month]. Words are English everywhere, so months are named only in
// English locales, and are numbers in all others. Times of day have 24 hours.
//
// # Reading
//
// [Locale.Typed] is how a number stands where a person is to change it, without
// separators of thousands, and [Locale.ReadNumber] reads it back. What was
// written with separators is read too, where it can be read in one way alone:
// 1.234,50 is 1234.5 in de-DE, but 1.500 is refused wherever decimals stand behind
// a comma, since it may be 1500 as well as 1.5, which is what records and labels
// from elsewhere have. [Locale.ReadDate] and [ReadMonth] read every day and month
// as it is shown, and under any locale those that are named; 5/6/2025 where the
// place writes day and month in one order: 6 May in en-US, 5 June in en-GB.
// [Locale.ReadShortDate] reads also 5/6/25, 5/6 and Nov 7, the last such day.
//
// Why not a library: the one that has the same facts is for money alone and takes
// 2 ms of every start; the other writes numbers from floats.
package locale
