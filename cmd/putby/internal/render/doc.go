// Package render writes a [putby/ledger/report.Doc] as a table for a terminal,
// as CSV, JSON, Markdown or as a fragment of HTML. It reads only the model: it
// adds up nothing and knows no report.
//
// [Render] writes one Doc in a [Format], as [Options] say; a [Stream] writes parts of
// one as they come, for reports too long to be held whole.
//
// # What is rounded
//
// JSON and CSV are for machines and keep every digit, in litres, kilograms and
// pieces: numbers are strings that any decimal library reads back, never
// floats. Only a count of things is a JSON number.
//
// Tables, Markdown and HTML are for people and round half away from zero, as
// shops do: money at the currency's minor digits, a unit price at two more, an
// amount at up to 3 decimals, both in the unit that the ledger shows. HTML has
// the exact figure in the cell's title. A figure that does not exist is "-",
// an estimate begins with "~".
//
// # What fits
//
// A terminal table of a given width never cuts a number. It first breaks
// headings into lines and shortens long words, then leaves columns out by
// their rank and says which, and at last lays each row out as lines of its own.
//
// # Charts
//
// Where charts are asked for, a column that is made for it is drawn as bars
// below its table, and a series as a line: in block characters and Braille
// patterns, or in ASCII. Lengths are worked out exactly from the figures.
//
// # What is harmless
//
// Names come from files that anybody may have written. Control characters,
// bidirectional overrides and other invisible ones never reach a terminal;
// markup is escaped; a CSV text cell that a spreadsheet would run as a formula
// gets a leading apostrophe (OWASP, CSV Injection).
package render
