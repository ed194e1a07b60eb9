-- Loads the tables into an empty database of PostgreSQL. In this folder:
--   psql -v ON_ERROR_STOP=1 -d DATABASE -f load-postgresql.sql
\encoding UTF8
SET datestyle TO iso;
BEGIN;

-- A quotient at as many decimals as step has, half to even.
CREATE FUNCTION divided(dividend NUMERIC, divisor NUMERIC, steps NUMERIC, step NUMERIC) RETURNS NUMERIC LANGUAGE SQL IMMUTABLE AS $$
  SELECT SIGN(dividend) * (q + CASE WHEN r + r > divisor OR r + r = divisor AND MOD(q, 2) = 1 THEN 1 ELSE 0 END) * step
  FROM (SELECT q, n - q * divisor AS r FROM (SELECT n, DIV(n, divisor) AS q FROM (SELECT ABS(dividend) * steps AS n) AS a) AS b) AS c
$$;
CREATE FUNCTION quotient(dividend NUMERIC, divisor NUMERIC) RETURNS NUMERIC LANGUAGE SQL IMMUTABLE AS
  'SELECT divided(dividend, divisor, 1000000000000, 0.000000000001)';
CREATE FUNCTION ratio(dividend NUMERIC, divisor NUMERIC) RETURNS NUMERIC LANGUAGE SQL IMMUTABLE AS
  'SELECT divided(dividend, divisor, 1000000000000000000000000, 0.000000000000000000000001)';

\ir schema.sql

