// Package intake reads tables that others wrote, such as a shop's receipts, a
// bank's statement or a household's own spreadsheet, and works out which rows
// of a ledger they become. It writes nothing: it gives a [Plan], which the
// command layer shows and then saves.
//
// # Steps
//
//	table, err := intake.Read(file, intake.Options{})
//	m, err := intake.Propose(table, intake.Receipts, "corner-shop", records)
//	plan, err := m.Plan(table, intake.PlanOptions{Records: records, Names: names})
//
// [Read] takes CSV text and .xlsx workbooks. A [Map] says
// which foreign column fills which column of the ledger; [Propose] guesses one
// from the header, and [ParseMaps] reads those that a ledger keeps in maps.csv.
// A [Name] says what the ledger calls a thing that a shop calls otherwise;
// [ParseNames] reads names.csv. [Map.Plan] reads every row, holds it against the
// ledger's records and sorts it: to add, there already, there but different,
// bad, or left out by the map. It also says which of the file's columns fill
// nothing. The rows to add are [Plan.Add], file by file, in the columns of the ledger.
//
// Where a person sees that the proposal is wrong, [Map.Mend] changes it and the plan is
// made anew; [Plan.Definite] is the map with what the file turned out to be written in,
// to be kept for the next one. [PrintMaps] and [PrintNames] write the two files.
//
// # Text
//
// All text is read in one way, whole or as a stream. The encoding is UTF-8, UTF-16
// or Windows-1252 and the separator a comma, a semicolon, a tab or a bar; both are
// found unless they are given, the separator by a first line sep=; or by the rows, of
// a log by its header.
// A record that cannot be split into cells costs only itself. Dates are read in
// any order of day, month and year, with months by number or name, and with times
// of day of 24 or twice 12 hours; numbers with a point or a comma and with
// thousands set apart, with the sign or code of a currency on either side.
//
// # Electricity
//
// [ReadLog] reads the log of a plug meter, as long as it may be, in memory that
// depends on the samples kept: power in W or kW, or a running total in Wh or kWh.
// [ReadHourly] reads prices by the hour or any part of it, per kWh or MWh, from
// text, a workbook or JSON, and [MergeHourly] puts them to those that a ledger has.
// [ReadURDB] reads a rate of an open database of electricity tariffs as bands.
// Instants are exact, and so is all that is read, but for what logs and hourly
// prices have behind the ninth place: it is rounded half to even, and counted.
//
// # Maps
//
// maps.csv has the header map,for,column,from,value,how. One map is several
// rows that share its name:
//
//	corner,receipts,dates,,dmy,
//	corner,receipts,date,Kaufdatum,,
//	corner,receipts,shop,,Corner shop,
//	corner,receipts,item,Artikel,,
//	corner,receipts,size,Artikel,,within
//	corner,receipts,count,Menge,1,
//	corner,receipts,price,Summe,,total
//
// column is a column of receipts.csv, runs.csv or shelf.csv. With runs it may
// also be load. and a column of loads.csv, or phase. and a phase, whose cell is
// then how long it took. from is the foreign header, or several joined by " + "
// (Date + Time). value is what the cell is where from is empty or the foreign
// cell blank. how says how the foreign cell is read: dmy, mdy, ymd or serial for
// dates; point or comma for the decimal sign; a unit for numbers without one (g,
// L, Wh; d, h, min, s for lengths of time); negate turns the sign around; total
// is the price of a whole line, to be divided by its count; within finds the one
// amount that a text mentions.
//
// Instead of a column of the ledger, column may be encoding, separator, sheet,
// decimal or dates, with the value under value; or only, which takes the rows
// whose foreign cell is one of the values, parted by |, where <0 and >0 stand
// for amounts below and above zero.
//
// names.csv has the header map,name,kind,item,size. A name may begin or end with
// *, which stands for anything. kind is a kind of receipt line; shop, when the
// name is a shop's; skip, to leave such rows out; or blank, when the ledger
// knows the item. size is that of one package where the file tells none. A food
// that the ledger knows needs no name where the file adds but the amount, as in
// "Plums, 1 kg".
//
// # Nothing is guessed that matters
//
// The order of dates and the decimal sign are taken from all cells of the file
// together. Where they could be either of two, or are mixed, the import is
// refused with [ErrAmbiguous] or [ErrMixed] until the map says. Numbers that a
// workbook stores, which are binary fractions, count with their 15 significant
// digits, as spreadsheets show them; from there on they are exact. A sheet that
// breaks off or whose rows are out of order is refused.
//
// # Importing twice
//
// A row whose record the ledger has is recognised by what it means, however it
// is written: sizes by their amount, texts without case and diacritics. Lines of
// a receipt are matched within the receipt of the same number where the file
// numbers them, else within those of the same date and shop, as often as they
// occur; runs by number, else by machine and start; prices by everything but
// the note. Identifiers are made of what the row says, so they come out the
// same each time. A record that was amended since is listed as differing and
// left as it is; of receipts without numbers this is told only when the file
// has the whole day. Where a file has neither numbers nor the whole day, a second
// purchase like the first on one day looks like the first.
//
// # Errors
//
// What is wrong is a [ledger.Fault], or several as [ledger.Faults]: with the line,
// the last line too where more is lost, the column's header or the place in the
// line, or the path of a value in JSON. Of a file that cannot be read at all
// errors.Is tells why: [ErrFormat], [ErrEncoding], [ErrTooLarge], [ErrNoSheet],
// [ErrHeader], [ErrAmbiguous], [ErrMixed], [ErrCurrency], [ErrUnlikely].
//
// # Limits
//
// [MaxFile], [MaxPlain], [MaxCell], [MaxCells] and [MaxTable] bound memory and
// time for any file. A bad row costs only itself and is listed with its line.
//
// # Concurrency
//
// A [Table], a [Map] and a [HourlyPrices] are not changed by reading them, and may
// be shared. A [Plan] may not: going through its rows packs and drains them.
package intake
