-- Loads the tables into an empty database of PostgreSQL. In this folder:
--   psql -v ON_ERROR_STOP=1 -d DATABASE -f load-postgresql.sql
\encoding UTF8
SET datestyle TO iso;
BEGIN;

-- A quotient at so many decimals, half to even.
CREATE FUNCTION divided(dividend NUMERIC, divisor NUMERIC, places INTEGER) RETURNS NUMERIC LANGUAGE SQL IMMUTABLE AS $$
  SELECT SIGN(dividend) * (q + CASE WHEN r + r > divisor OR r + r = divisor AND MOD(q, 2) = 1 THEN 1 ELSE 0 END) * 10.0 ^ -places
  FROM (SELECT q, n - q * divisor AS r FROM (SELECT n, DIV(n, divisor) AS q
    FROM (SELECT ABS(dividend) * 10.0 ^ places AS n) AS a) AS b) AS c
$$;
CREATE FUNCTION quotient(dividend NUMERIC, divisor NUMERIC) RETURNS NUMERIC LANGUAGE SQL IMMUTABLE AS 'SELECT divided(dividend, divisor, 12)';
CREATE FUNCTION ratio(dividend NUMERIC, divisor NUMERIC) RETURNS NUMERIC LANGUAGE SQL IMMUTABLE AS 'SELECT divided(dividend, divisor, 24)';

\ir schema.sql

