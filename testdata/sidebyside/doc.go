// Sidebyside asks several programs the same question of the same ledger: putby,
// and DuckDB, SQLite and Python by the shortest way to the answer that each has.
// It sees to it that the answers agree to the last digit, and prints how long each
// took and how much memory, beside a mere reading of the files by encoding/csv.
//
//	go run ./testdata/sidebyside            a household of ten years, 20,000 rows
//	go run ./testdata/sidebyside -times 100 a hundred of them in one ledger
//
// The question is what each month's runs cost: food, electricity and litres. The
// ledger is plain, so that a query can answer it: each run dries what its receipt
// bought, phases have their own kWh, and electricity has one price. Putby holds all
// records against each other meanwhile; the others look at what the answer needs.
//
// It wants sqlite3, python3, node and, in the folder that DUCKDB_MODULES names, npm's
// @duckdb/node-api; what is not there is left out. Machines are noisy: quote ratios,
// of the best of some runs.
package main
