// Package ledger knows the records of a household that freeze-dries food, and
// joins them: what every lot, run, pack and draw cost, to the last digit.
//
// # Records
//
// [Records] are what a person wrote down, each kind in file order. A [Kind]
// describes a kind of record column by column. A [Column] knows the type of its
// cells, what they name, its closed words, unit and range, what a blank cell
// means, how a new record comes by it, and its prompt and help; reading, writing,
// flags, completion, dialogues and forms all go by it. [Kind.Read] turns the cells
// of a row into a record and notes as faults what it cannot read, so that reading
// goes on. The package opens no file; package folder does. A [RecordList] is the
// records of any kind; the lists of which a ledger has many pack their records, and
// make one when it is looked at. A cell that a spreadsheet would run is kept by
// [EscapeFormula], and given back by [UnescapeFormula].
//
// What people call a thing of the ledger, by name or identifier, [Meant] finds in a
// list of [Named]; [Nearest] finds what was probably meant by a name of nothing.
//
// # The join
//
// [Join] goes through all events in order of time: by date, and within a day
// receipts, batches, runs at their start, packs, draws, stocktakes. Everything
// bought is a [Lot] of so many uses at a cost: litres of a food, absorbers,
// uses of a jar, cycles of a machine. Everything charged is drawn from lots, the
// oldest first, or from a pool of all under average costing. Only electricity
// and labour are priced as they happen.
//
// A posting is rounded once, half to even, at the currency's minor digits and
// four more, when it is made. Whoever takes the last of a lot takes all that is
// left of its cost. A split (of a run's costs over its loads, of a food's good
// cost over its packs, of a pack over its containers) always sums back. So
// nothing is lost or made, and [Ledger.Identities] shows it at any date.
//
// Amounts are in the food's basis unit (L, kg or ea), of supplies in uses, of
// machines in cycles. Dates are of the ledger's own time zone.
//
// # Faults
//
// A [Fault] names the file, the line and the column of the record that a person
// can mend. One fault refuses the whole ledger: [Join] returns all of them,
// sorted, together with those of reading that it is given in [Options]. It
// leaves out only what may follow from a record that could not be read.
//
// # The result
//
// A [Ledger] is complete and is not changed after [Join]; any number of readers
// may share it. Slices that are parallel to those of [Records] are told by one
// position: Runs[i] is what Records.Runs[i] cost. What is to be known
// of a cost is a [Note] on the run, pack or receipt line that it is about: a kind and what it is of,
// which whoever shows it puts into words. [Ledger.FoodStock] and its like give
// what is left in lots, [Ledger.Pieces] supplies by the piece, [Ledger.ShelfPrice]
// what shops ask, [Ledger.FindRun] and its like positions by identifier, and
// [Ledger.NextUses] and [Ledger.NextCycle] what the next ones would cost.
//
// [Options] say how much of the working is kept: Itemize how each phase was billed,
// Brief nothing of what was drawn from which lot, Bare what runs' food cost alone.
// [StoreOf] and [HandOf] count what is in store or in hand of some foods without
// working out a cost. Records of which an [Excerpt] says what they leave out are
// joined as all of them would be, as far as the excerpt is about them.
//
// A [Show], by [Settings.Show], writes amounts, money and dates in the household's
// units and locale, wherever people read them.
//
// Of many ledgers [InOrder] reads several at a time, and gives what comes of each in
// a fixed order while few are in memory.
//
// # As of a date
//
// With [Options].Through later events do not count. A run that has begun by
// then counts whole, and its cost is split over all packs that the records have
// of it; the share of a pack that is packed later is still awaiting packing.
package ledger
