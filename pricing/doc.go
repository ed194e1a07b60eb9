// Package pricing knows what things cost in a shop: what each line of a receipt
// comes to, what a shelf asks for a unit, what an offer takes off, how a price
// stands in its history, and whether a sale is worth buying in bulk to dry. It
// knows nothing of files, foods or electricity tariffs; those come in as
// numbers and functions.
//
// # What its values stand for
//
// Money is [exact.Money] in major units of the ledger's one currency. Amounts
// are [exact.Number] in one base unit of the food: litres, kilograms or pieces,
// edible. A price per unit is an [exact.Ratio], never divided before it is
// shown; [exact.Money.Per] makes one, [DisplayPlaces] says how it is shown. "Minor"
// is how many digits the currency's minor unit has.
//
// # Receipts
//
// [Post] gives what each [Line] costs: count times price, rounded once as the
// till does, less discount, plus tax, plus its shares of what the receipt
// states once for several lines. The costs add up to what was paid. What shops
// write on a shelf ("3 for 5.00", "every 2nd half price") is read by
// [ParseOffer] and becomes a line's discount by [Offer.Discount].
//
// # Shelf prices
//
// A [Shelf] holds what shops ask for one item, and [Shelf.At] which of it is in
// force on a day. A [History] adds what was paid; its [History.Reference] is
// the lowest price of thirty days, by which a reduction is measured,
// [History.Standing] says whether an offer is a real one, and [History.Spells]
// when the next may come.
//
// # The sale decision
//
// [Decide] works out every number of packages of a [Sale] and returns the one
// that saves most against the shelf. Costs are money as posted, values are
// exact ratios, so a saving is exact and a break-even price, put back in, makes
// it exactly zero. A [Decision] also says what limits the number, where one
// changed figure flips the answer ([Decision.ShelfFlips]), what else the same
// amount would cost ([Decision.Ways]) and what room is left in the last cycle
// ([Decision.PartLoad]).
//
// [Spread] divides packages among several visits or shops. [MakePlan] takes
// several sales at once and one machine, and finds what to buy and in which
// order to dry it. [Machine] is the question whether the machine itself pays.
//
// # Rounding
//
// Rounded, half away from zero at minor digits, are only what a till rounds: a
// line's amount and an offer's discount. Receipt-wide amounts are split at
// minor digits by largest remainder. Nothing else is rounded here.
//
// # Errors
//
// A receipt that cannot be posted is a [*PostError] with the index of the line
// or amount; text that is no offer wraps [ErrOffer]; what is wrong with a sale
// comes all at once, as joined [*SaleError] values. Only an index out of range
// panics.
package pricing
