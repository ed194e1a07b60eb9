// Runs DuckDB for the tests: node duckdb.mjs MODULES FOLDER SQL... loads an export
// as its help says, if the folder has one, and prints the rows of each query as JSON.
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const [modules, folder, ...queries] = process.argv.slice(2)
const { DuckDBInstance } = createRequire(modules + '/')('@duckdb/node-api')
const connection = await (await DuckDBInstance.create(':memory:')).connect()

process.chdir(folder)
const load = 'load-duckdb.sql'
// ".read FILE" is a command of DuckDB's program for the terminal.
const script = !existsSync(load) ? 'SELECT 1'
  : readFileSync(load, 'utf8').replace(/^\.read (.*)$/m, (_, file) => readFileSync(file, 'utf8'))
const statements = await connection.extractStatements(script)
for (let i = 0; i < statements.count; i++) {
  await (await statements.prepare(i)).run()
}
const results = []
for (const query of queries) {
  results.push((await connection.runAndReadAll(query)).getRowObjectsJson())
}
process.stdout.write(JSON.stringify(results))
