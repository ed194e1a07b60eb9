// Given to node as text, with MODULES and QUERY: prints the rows of a query as CSV.
import { createRequire } from 'node:module'
const [modules, query] = process.argv.slice(1)
const { DuckDBInstance } = createRequire(modules + '/')('@duckdb/node-api')
const connection = await (await DuckDBInstance.create(':memory:')).connect()
for (const row of (await connection.runAndReadAll(query)).getRowsJson()) console.log(row.join(','))
