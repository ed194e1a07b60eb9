// Package page makes the pages that people look at and print: the page of a
// ledger with its charts and tables, and sheets of labels for packs.
//
// A page is one file that needs nothing else: it holds its styles and its
// typeface, has no script, asks the network for nothing, and carries a content
// policy that lets a browser hold it to that. Everything in it goes through
// html/template, so that a name with markup in it is only a strange name.
//
// It reads report models and adds up nothing: every figure on a page is one of
// a report, with all its digits in the title that a resting pointer shows.
// [Write] writes the page of a ledger's reports ([ReportsAt]) at once; a [Page], by
// [Make], is kept by a server, which writes it again as time goes on. [WriteCard] and
// [WriteLabels] write what is printed, each with its content policy.
//
// [WriteForm] writes a [Form], a page of the local server to fill in or to read: a form, what it would
// record, what was saved, a list of changes. Package serve says what stands in it.
//
// Places in a chart are worked out exactly from the figures and rounded once,
// to a tenth of a pixel or a thousandth of a percent.
//
// Fillings of charts differ in lightness or pattern as well as in colour, and
// every chart has a title, a description and a table of what it draws.
package page
