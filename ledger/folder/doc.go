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
// Columns are counted in bytes from 1, lines from 1, each at the place where
// the cell begins, its quote included. A byte order mark does not count.
package folder
