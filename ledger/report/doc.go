// Package report lays out what package figures works out: as typed models, with
// titles, columns, sentences and footnotes. It works out nothing itself: figures are
// rounded and put in people's units ([Value.Shown]), and no more.
//
// # What it represents
//
// A [Doc] is one report: fields in the order of its JSON object, each a [Value],
// a [Table], an [Object], a [List] or a [Series]. A [Value] is one figure, word or
// date with its kind, unit and all its digits; [Value.Shown] is how people are
// shown it, [Value.Exact] how machines are. Keys are for CSV and JSON, titles for
// people: what has no key is for people alone, what has no title for machines.
// Renderers (package render of the command) read nothing else.
//
// # How a report is made
//
// Each has a file and a function of its name that takes a joined [ledger.Ledger]
// and a query: [Cost], [Month], [OnHand] and so on. Where charts or forms read the
// figures too, [Tell] gives both: what was worked out, and its layout by a function
// such as [MonthDoc]. A figure that does not exist is [None]; an estimate is marked
// ([Value.Estimated]) wherever it stands, in sentences too.
//
// # What people are told
//
// Notes of figures and of the ledger are put into words here alone ([Stated] and
// its like), once each. Cautions are a [Remark] each and follow them; [SafetyLine] stands
// wherever somebody might take a figure for a promise. What was saved is said by [Saved].
//
// # Errors
//
// Those of figures are returned as they are, and [ErrManyLabels]: a report knows
// no option. [WhyNot] and [Lacks] say in words what is wrong with a fact of a
// decision, or missing; package question says which option it is of and what to
// type instead. Sentences that name a part of a question are handed its [Names].
package report
