-- Loads the tables into an empty database of DuckDB. In this folder:
--   duckdb DATABASE < load-duckdb.sql

-- DuckDB divides decimals as floating-point numbers, which lose digits. So
-- numbers are counted in units of 24 decimals and divided as whole numbers, with
-- six more digits at a time.
CREATE MACRO counted(amount) AS CAST(replace(CAST(CAST(amount AS DECIMAL(38,24)) AS VARCHAR), '.', '') AS HUGEINT);
-- A quotient at 12 decimals, half to even.
CREATE MACRO quotient(dividend, divisor) AS (
  SELECT CASE WHEN dividend < 0 THEN -1 ELSE 1 END
    * CAST(q + CASE WHEN r + r > d OR r + r = d AND q % 2 = 1 THEN 1 ELSE 0 END AS DECIMAL(38,0)) * CAST(0.000000000001 AS DECIMAL(12,12))
  FROM (SELECT q * 1000000 + (r * 1000000) // d AS q, (r * 1000000) % d AS r, d
  FROM (SELECT q * 1000000 + (r * 1000000) // d AS q, (r * 1000000) % d AS r, d
  FROM (SELECT n // d AS q, n % d AS r, d FROM (SELECT abs(counted(dividend)) AS n, counted(divisor) AS d)))));
-- A quotient at 24 decimals.
CREATE MACRO ratio(dividend, divisor) AS (
  SELECT CASE WHEN dividend < 0 THEN -1 ELSE 1 END
    * CAST(q + CASE WHEN r + r > d OR r + r = d AND q % 2 = 1 THEN 1 ELSE 0 END AS DECIMAL(38,0)) * CAST(0.000000000000000000000001 AS DECIMAL(24,24))
  FROM (SELECT q * 1000000 + (r * 1000000) // d AS q, (r * 1000000) % d AS r, d
  FROM (SELECT q * 1000000 + (r * 1000000) // d AS q, (r * 1000000) % d AS r, d
  FROM (SELECT q * 1000000 + (r * 1000000) // d AS q, (r * 1000000) % d AS r, d
  FROM (SELECT q * 1000000 + (r * 1000000) // d AS q, (r * 1000000) % d AS r, d
  FROM (SELECT n // d AS q, n % d AS r, d FROM (SELECT abs(counted(dividend)) AS n, counted(divisor) AS d)))))));

.read schema.sql

