// Package tables lays a joined ledger out as flat tables, for engines that
// answer questions in SQL: what was bought, the lots that came of it, runs and
// what went into them, what each food of a run cost, packs, draws, months and
// shelf prices.
//
// # What it represents
//
// A [Table] is a list of [Column]s and, for a [Household], rows of [Cell]s
// ([Table.Rows]). [All] lists the tables in an order in which each stands after those
// that its rows name. [Of] makes a household of a ledger that is joined twice: through
// a day, and whole, since a run that began by then counts with its later packs. The
// first column of every table is the household, so that the rows of any
// number of ledgers stand in one table. A household has one currency, which its
// row in the table households names; money of two households does not add up
// unless they have the same one.
//
// # Units and rounding
//
// Nothing is rounded but quotients that do not end (a shelf price per litre,
// a run's kWh), at [Exact] places, half to even. Money is in the currency's major
// unit, amounts are in the food's basis unit. A number that does not fit the
// digits of its column is an [ErrDigits], never cut. A blank cell is unknown or
// does not exist; an empty text is blank.
//
// # SQL
//
// [Schema] returns the tables as SQL for PostgreSQL and DuckDB, with keys, with
// the meaning and unit of each column, and with views that give the reports cost,
// month and compare again, to the last digit. [LoadPostgreSQL] and [LoadDuckDB]
// read CSV files into an empty database, [LoadPartitions] Parquet files. A [CSVWriter]
// writes the rows of a table; whoever writes another format reads the cells, by the
// column's [Type].
package tables
