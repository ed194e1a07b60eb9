// Package entry turns what a person says into rows of a ledger: a line of a
// receipt in plain words, the next free identifier, the defaults that the
// ledger suggests, the names that a cell may hold.
//
// # Recording
//
// Whatever is recorded of the day, by a command, a dialogue or a form, is an
// [Act]: a function of the ledger as it is, a [Base], that makes a [Draft] of
// records to be added and cells to be changed, with what to know of them. It
// asks nobody and writes nothing, so that it can be made to look first, and made
// again once the ledger is locked. [Draft.Vet] holds the draft against the
// calendar and the household's own figures, [Draft.Change] writes it to a
// [folder.Tx], and [Draft.Said] says what it comes to. [Check] is what the
// ledger must pass with it. An [About] says which foods and supplies an act is of, for
// a save that looks at their records alone. A [Moment] is when it is done.
//
// [Add] records any one record by its columns. Runs are begun, ended and recorded whole
// by [Start], [Finish] and [AddRun], packed by [Pack]; foods, machines and tariffs are
// made known by [AddFood], [AddMachine] and [AddTariff]; supplies by [BuySupplies], or by
// [AddOwned] where they were in the house before.
//
// # Lines of a receipt
//
// One grammar serves the command line, the dialogue and forms. [ItemNames.Read] reads
// a line as one would say it: a thing bought,
//
//	COUNT x SIZE ITEM PRICE OFFER less AMOUNT tax AMOUNT regular limit N note TEXT
//
// such as "2 lb strawberries 5.98" or "3 x 500 g strawberries at 1.99 3 for 5.00",
// or an amount, such as "coupon 2.00 on 1,2". All but ITEM and PRICE may be left
// out, and SIZE may stand behind it. What stands behind the item may be in
// any order. PRICE alone is that of the whole line, but after COUNT x that of each;
// "at 1.99" and "1.99 each" are that of each, "for 5.97" and "in all 5.97" that of
// the whole line, "2.49/kg" that by weight. [ItemNames] know what things are called;
// of all ways to read a line that with the longest name counts. What is read prints
// ([Line.String]) what reads as the same line.
//
// [AddReceipt] makes the draft of a whole receipt: it fills in the sizes of last time,
// holds the sum against the printed total ([Receipt.Adds] finds the likely line), and
// notes regular prices as what the shelf asks ([Receipt.ShelfPrices]). [ItemNames.ReadOffer]
// reads what a shop offers by the same grammar.
//
// # Which record
//
// [ParseRecordRef] reads what a person says of a record, such as "receipt last" or "draw yogurt
// yesterday"; [FindRecords] finds which are meant by what is known of them, [RecordsNamed] by
// identifier. [RecordRef.Amend] and [RecordRef.Remove] make drafts of it, as [Edit] and [Remove] do of
// records that are known; [Draft.Refused] says what needs those that cannot go. [WhatChanged]
// tells what a change took out and put in, such as an undo.
//
// # Loads and phases of a run
//
// [ParseLoad] reads "5.5 kg apples from oh-251101:2 trays 5 wet 5.5 kg dry 880 g
// lost 0.2 kg", [ParsePhase] "primary 22h30m 640 W".
//
// # What is taken, frozen and counted
//
// [Take], [Freeze] and [Stocktake] are acts. The first two read things as people
// name them: "yogurt", "2 rice", "pack c46-a", "0.5 kg onions"; [Things] joins
// the words of a command line that were typed without quotes. A stocktake goes
// through what [ToCount] lists, each answer is read by [ReadCount], and
// [ReadSheet] reads a list that was filled on paper or in a spreadsheet.
//
// # What is brought in
//
// [ImportFile], [ImportPrices] and [TakeMeter] are acts too: of a file of receipts, runs
// or shelf prices, of one of electricity prices, and of a plug meter's log. Such an act
// may hold a [File] that is written beside the records.
//
// # What is offered
//
// [Suggest] offers what a new record is likely to hold, from those before it:
// the last shop, the size and price of a thing there, the packs of a food, the
// machine's usual phases. [NeedsNoAnswer] says which offers need nobody's leave. [Next]
// continues the household's own identifiers. What a person is asked for, and in
// which order, the kind of record says itself.
//
// # What is answered
//
// [Base.Answer] reads one cell as a person says it and holds it against the
// other records, with what is known of its own so far; [ErrOdd] is what may be
// meant and is likely to be a slip. [Base.Trial] does the same with whole rows.
//
// # Setting up
//
// [ParseTariff] reads a tariff in words (see [TariffGrammar]), [ParseOwned] what
// is in the house (see [OwnedGrammar]); [GuessLocality] guesses currency and zone;
// [SetupSteps] says what a ledger lacks for its first cost.
//
// # Numbers as a place writes them
//
// [Native] turns what is typed in a locale into what records hold; whoever takes it
// from a person asks [TwoWays] first.
//
// # Names
//
// [Names] lists what a cell may hold where that is a closed list or a name of
// the ledger: for the shell, for answers, and for what was probably meant.
package entry

import "putby/ledger"

// A Row is a record to be added: cells by column.
type Row struct {
	Kind  ledger.Kind
	Cells map[string]string
}
