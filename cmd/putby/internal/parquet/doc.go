// Package parquet writes files of the Apache Parquet format
// (https://parquet.apache.org/docs/file-format): rows of a table, column by column,
// which engines of any size read.
//
// It writes the part of the format that tables of facts need: flat columns of
// texts, whole numbers, decimals, dates and times, each of which may be blank, in
// plain encoding, compressed by gzip, which every engine reads and which is part
// of the program anyway. [NewWriter] begins a file, [Writer.Add] takes a row and
// [Writer.Close] ends the file. A decimal is kept exactly; one that has more digits
// than its column is [ErrDigits].
package parquet
