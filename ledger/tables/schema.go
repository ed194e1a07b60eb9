package tables

import (
	_ "embed"
	"fmt"
	"strings"

	"putby/ledger"
)

// SchemaBegins is how [Schema] begins, by which an export is known.
const SchemaBegins = "-- Written by putby export.\n"

//go:embed sql/costs.sql
var costViews string

//go:embed sql/views.sql
var otherViews string

//go:embed sql/postgresql.sql
var postgreSQL string

//go:embed sql/duckdb.sql
var duckDB string

const schemaHead = SchemaBegins + `-- Tables, keys, comments and views, for PostgreSQL and DuckDB. The functions
-- quotient and ratio, which the views need, and the rows come with
-- load-postgresql.sql and load-duckdb.sql, which read this file.
--
-- Money is in the currency of the row's household (table households): never add
-- up that of households with different ones. Amounts are in the food's basis unit.
-- What does not end is rounded half to even at 24 decimals.
`

// Schema returns the tables as SQL, with their views.
func Schema() string {
	var b strings.Builder
	b.WriteString(schemaHead)
	for _, t := range All() {
		t.create(&b)
	}
	for _, by := range [...]struct{ key, expression string }{
		{"item", "item"}, {"month", "CAST(DATE_TRUNC('month', date) AS DATE)"}, {"machine", "machine"},
	} {
		b.WriteString(strings.NewReplacer("KEY", by.key, "EXPRESSION", by.expression).Replace(costViews))
	}
	b.WriteString(otherViews)
	return b.String()
}

// create writes the table's definition and what is said of it.
func (t *Table) create(b *strings.Builder) {
	fmt.Fprintf(b, "\nCREATE TABLE %s (\n", t.Name)
	var keys []string
	for i := range t.Columns {
		c := &t.Columns[i]
		fmt.Fprintf(b, "  %s %s", c.Name, c.sqlType())
		if c.Key {
			keys = append(keys, c.Name)
			b.WriteString(" NOT NULL")
		}
		b.WriteString(",\n")
	}
	for _, c := range t.Columns {
		switch {
		case c.Refers == householdsTable:
			fmt.Fprintf(b, "  FOREIGN KEY (%s) REFERENCES %s,\n", c.Name, c.Refers)
		case c.Refers != "": // identifiers tell records of one household apart, no more
			fmt.Fprintf(b, "  FOREIGN KEY (household, %s) REFERENCES %s,\n", c.Name, c.Refers)
		}
	}
	fmt.Fprintf(b, "  PRIMARY KEY (%s)\n);\n", strings.Join(keys, ", "))
	fmt.Fprintf(b, "COMMENT ON TABLE %s IS %s;\n", t.Name, quoted(t.Help))
	for _, c := range t.Columns {
		fmt.Fprintf(b, "COMMENT ON COLUMN %s.%s IS %s;\n", t.Name, c.Name, quoted(c.Help))
	}
}

func (c *Column) sqlType() string {
	switch c.Type {
	case Whole:
		return "BIGINT"
	case Decimal:
		return fmt.Sprintf("DECIMAL(%d,%d)", c.Digits, c.Places)
	case Date:
		return "DATE"
	case Moment:
		return "TIMESTAMP"
	}
	return "VARCHAR"
}

// quoted is a text in SQL.
func quoted(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }

// LoadPostgreSQL returns what reads an export into an empty database of
// PostgreSQL, by way of its program psql.
func LoadPostgreSQL() string {
	var b strings.Builder
	b.WriteString(postgreSQL)
	for _, t := range All() {
		fmt.Fprintf(&b, "\\copy %s from '%s.csv' with (format csv, header)\n", t.Name, t.Name)
	}
	b.WriteString("COMMIT;\nANALYZE;\n")
	return b.String()
}

// LoadPartitions returns what reads an export of Parquet files into an empty
// database of DuckDB: by table, the pattern of its files. One that has none is
// empty.
func LoadPartitions(files map[string]string) string {
	var b strings.Builder
	b.WriteString(duckDB)
	for _, t := range All() {
		if pattern, ok := files[t.Name]; ok {
			names := ledger.Distinct(t.Columns, func(c *Column) string { return c.Name })
			fmt.Fprintf(&b, "INSERT INTO %s SELECT %s\n  FROM read_parquet('%s', hive_partitioning = true, hive_types = {'household': VARCHAR});\n",
				t.Name, strings.Join(names, ", "), pattern)
		}
	}
	return b.String()
}

// LoadDuckDB returns what reads an export into an empty database of DuckDB.
func LoadDuckDB() string {
	var b strings.Builder
	b.WriteString(duckDB)
	for _, t := range All() {
		fmt.Fprintf(&b, "COPY %s FROM '%s.csv' (HEADER, QUOTE '\"', ESCAPE '\"');\n", t.Name, t.Name)
	}
	return b.String()
}
