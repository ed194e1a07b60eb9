// Package folder keeps a ledger as a folder of CSV files.
//
// # Reading
//
// [Read] reads all files of a ledger at once and side by side. Whatever is
// wrong with them comes back together, each fault with file, line and column;
// nothing that a file holds makes it stop or panic. Files are UTF-8 text as
// RFC 4180 has it, with a header row. A byte order mark, line ends of CR LF
// and the separator ';' are read too; the header tells which separator it is.
// Blank lines and rows of nothing but separators are skipped.
//
// Only settings.csv must exist. What is not a regular file inside the folder
// (a link that leads out of it, a folder, a device, a pipe) is a fault and is
// never opened. Limits keep memory and time bounded: see [MaxFile], [MaxCell],
// [MaxCells] and [MaxFaults].
//
// Meter logs and hourly prices are series: their rows follow each other in time,
// which local times that step back at a change of the clocks do too. [PrintLog]
// and [PrintRates] write them so that reading gives the same again.
//
// A [Cache] is a ledger that stays read, for a caller that asks again and again: only files
// that have changed are read once more.
//
// Columns are counted in bytes from 1, lines from 1, each at the place where
// the cell begins, its quote included. A byte order mark does not count.
//
// [Households] finds the ledgers of many in one folder, each in a folder of its own.
//
// # Changing
//
//	book, err := folder.Opening{Check: check, Wait: folder.DefaultWait, For: "draw add"}.Open(ctx, dir)
//	defer book.Close()
//	change, err := book.Edit("draw add", func(tx *folder.Tx) error { return tx.Append(kind, cells) })
//
// [Opening.Open] waits in a queue for the ledger's lock and gives a [Book]; [Book.Edit]
// makes one change of it by a [Tx]: records added, amended or struck, files
// written whole. All files of a change are saved together or not at all, whatever
// stops the program; what is not edited stays byte for byte. A change that would
// put a fault into the ledger is a [*Refusal], and one that would overwrite what
// another program wrote meanwhile is [ErrChanged]; either saves nothing. An error
// of [ErrSaved] alone says that the change is saved all the same. Readers take no
// lock and never see half a change; nor does [Opening.Look], which tries changes without
// saving them. [Create] makes a new ledger. [Opening].Check is what a ledger must pass
// with a change, and Judge names that check: where the files are known to have passed
// it, [Book.Excerpt] reads only the records that a [Scope] picks. A change made
// with a mark is found by it ([Marked]), so that what is sent twice is saved once.
//
// # Beside the records
//
// [WriteOutside] and [MakeOutside] write a file or a folder that is no part of a
// ledger, whole or not at all; [ReadAside] and [EditAside] one that a program keeps
// with a ledger, which undo leaves alone.
//
// # Errors
//
// What a ledger's files have wrong is [ledger.Faults]. What could not be done with
// them is a [ledger.Fault] whose kind is one of this package's Err values: all but
// [ErrSaved] say that nothing was saved. [Cause] puts what the machine says in plain
// words.
//
// # History
//
// Every change is kept with what it took out and put in. [Book.Undo] goes back
// through them, one at each call, and [Book.Redo] forward again; each is a
// change itself. Where a file was edited by hand since, only the lines of the
// change are taken back. [LastChanges] lists them, and [Marked] finds one.
//
// Lock, queue, journal and history lie in the folder .putby within the ledger's, and
// the sums of the files that are known to have no fault ([Book.Excerpt]).
// A file that is replaced keeps its mode, its group and, for the superuser, its
// owner. New files and folders follow the umask; those in .putby can moreover be
// written by the group if the ledger's folder can.
package folder
