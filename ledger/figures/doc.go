// Package figures works out what each report and each decision comes to: what
// a run's food cost, what a month saved, how foods compare. Its results are
// plain values with exact types; it has no words, columns or options, which
// are those of package report and of the commands.
//
// # What it represents
//
// A function takes a joined [ledger.Ledger] and a query, and returns a result
// of its own type: rows and sums, in the order in which a report shows them.
// Records are named by their positions in [ledger.Records] (which are those in
// [ledger.Ledger] too), so that whoever lays a result out can look up names,
// files and lines. -1 stands for no one record: for all foods, say, or for a
// sum over several. Nothing changes a result once it has been returned.
//
// # Which function answers what
//
//	what each run's food cost                       [Cost], [CostOf], [LastRuns]   whole
//	foods beside each other                         [Compare]                      whole
//	what cycles use                                 [Energy]                       whole
//	after how many cycles a machine pays            [Machine]                      whole
//	what one cost is made of                        [Explain]                      whole, Itemize
//	what a period spent, used, lost and saved       [Month]                        day
//	what is in store, in hand, to be packed, left   [OnHand]                       day
//	what machines have earned back                  [Payback]                      day
//	how a food's prices went                        [Offers], [ShelfAsks]          day
//	whether a sale pays; up to which price          [Worth], [Answer], [Card]      day
//	which of several offers to buy                  [Plan]                         day
//	when to start; what to dry next                 [When], [Next], [FirstToDry]   day
//	where something came from and went              [Trace]                        day, Itemize
//	what the day needs                              [Today]                        day
//	what runs, and until when                       [Running], [UsualEnd]          day
//	for how many loads there are containers         [RoomForLoads]                 day
//	what a stocktake goes through                   [ToCount]                      day
//	which containers to label                       [Labels]                       whole
//	which containers to pack into                   [FitPack], [Overfilled]        whole
//	that nothing was lost or made                   [Proof]                        day
//	a tariff's week                                 [WeekOf]                       records alone
//
// "Whole" is a ledger joined through its last record: figures of whole runs, whose
// packs may be of later days. "Day" is one joined through the day asked about
// ([ledger.Options].Through). Itemize is an option of the join; without a word the
// options Brief and Bare are not set.
//
// # What is asked
//
// Each query holds a [Query]; its zero value, like that of every other query,
// asks for everything: of dates, [exact.NoDate] is open, and an empty Item is
// all foods.
//
// # Units and rounding
//
// Money is [exact.Money] in the ledger's currency, posted at the ledger's
// places. Amounts are [exact.Number] in the food's basis unit: litres,
// kilograms or pieces. Whatever comes from a division is an [exact.Ratio],
// undivided: money per unit, kWh, savings. Nothing is rounded here but what
// estimates, in files that say so. A figure that does not exist is an
// [exact.Opt] that is not given; 0 is 0.
//
// # What is looked at before it is recorded
//
// [Labels], [WaterToAdd], [DryIn], [AbsorbersFor] and [PackedOff] tell what a person
// at the bench has to know of a pack. A [Vetting] holds records that are about to be
// added against the household's own, and tells which figures are likely to be slips.
//
// # Notes and errors
//
// What a figure leaves out, and what it rests on, is a [Note] beside it: a kind
// and what it is about. Notes come in the order in which they were met, each once.
//
// An [*UnknownError] is what a query names and the ledger does not have, a
// [*FactError] a part of it that cannot be used, such as dates that end before they
// begin, or all facts that a decision lacks, an [OfferErrors] what is
// wrong with the offers of a plan. [ErrTooManyStarts] is a search for a start with
// more of them than [MostStarts], [ErrNoSaving] a machine of which no run tells what
// a cycle saves.
// [ErrUnbalanced] is a defect of this program.
package figures
