// Package energy places the electricity of a machine's cycle on the clock and
// prices it under the tariff that a household really has.
//
// # What it represents
//
// A [Tariff] is a list of [Band] rows: a price per kWh, and the dates, months,
// days, times of day and use of the month for which it holds. For an instant
// only the rows with the newest From not after its local date count; of those
// that match it, the ones with the greatest Above that the month has reached;
// of these the first in file order. An instant that no row matches is a
// [*GapError]. An hourly band adds its Rate to the price that the tariff's
// [Prices] tell of the instant; where they tell none it is a [*GapError] too.
// What the household's own roof gives ([Sample.Solar]) costs what it would have
// earned under the tariff's export tariff, and is no use of the month.
//
// A [Cycle] is what is known of one run: phases with watts or kWh, a metered
// total, a plug meter's [Log], or some of each. [Cycle.Resolve] turns it into a
// [Draw]: spans of energy on the clock. A [Meter] bills spans in order of time
// ([Meter.Bill]), or takes the bill apart ([Meter.Itemize]), and knows how much
// of each month was used before.
//
// A [Search] finds the cheapest start of a cycle; [Tariff.Check] and
// [Tariff.Week] show what a tariff covers. [Prices.Forecast] is what prices tell
// of a time ahead. Foreign formats of tariffs, prices and logs are read
// elsewhere: a [LogBuilder] makes a log sample by sample.
//
// # Units and ranges
//
// Energy is kWh, power W, money the major unit of the ledger's currency, tax
// percent. Energy is carried as an exact ratio and never rounded. Lengths of
// time are elapsed time: a phase of 10 h lasts 10 h when the clocks change.
// Clock times, dates, months and holidays are those of the tariff's zone, and
// an instant is cut exactly where any of them changes. A price holds until the
// next, three hours at most. Bands are half-open:
// they hold from their start until before their end. Logs lie within the years
// 1910 to 2199, and within a gigawatt at a resolution of a nanowatt.
//
// # Rounding
//
// A span costs the exact sum over its pieces of energy x rate x (1 + tax/100),
// rounded once, half to even. Nothing else rounds. The pieces of a bill sum to
// its cost before rounding; cutting a span anywhere changes nothing.
//
// # Estimates
//
// Statistics ([SpreadOf], [FitLine]) and suggestions ([SuggestPhases]) are
// estimates and have the type [Estimate], which is a float; an estimated energy
// becomes a number, and can be priced, by [Estimate.KWh] alone. Their sums are
// exact too. A [Forecast] has estimates among its prices, and says which.
//
// # Notes
//
// What is to be known about a draw, and is no error, is a [Note]: a kind with its
// values, in no words. [Cycle.Resolve] makes those of what it had to assume; [BelowLatentHeat],
// [NoPower] and [FarAboveUsual] those of energies that can hardly be.
//
// # Errors
//
// Every fault of what is read has a place: a [*RowError] the band, phase, price or
// sample. Of billing, a [*GapError] names the instant without a band or a price. The
// others are this package's Err values.
//
// # Concurrency
//
// Tariffs and logs are immutable and may be shared. A Meter may not.
package energy
