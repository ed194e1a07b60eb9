// Package export writes the tables of package tables into a folder, household by
// household, so that memory does not grow with their number.
//
// [New] begins a folder, [Writer.Add] writes the rows of a household, and
// [Writer.Close] ends the files. Whoever calls sees to it that a folder that was
// not ended is never taken for an export. [Known] tells an earlier export from a
// folder that holds anything else.
package export
