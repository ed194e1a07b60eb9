.mode csv
.import receipts.csv receipts
.import phases.csv phases
.import packs.csv packs
.import runs.csv runs
.import loads.csv loads
WITH food AS (
  SELECT receipt, sum((CAST(replace(count, '.', '') AS INTEGER) * CAST(replace(price, '.', '') AS INTEGER) + 500) / 1000) AS cents
  FROM receipts WHERE kind = 'food' GROUP BY receipt
), power AS (
  SELECT run, sum(p / 10 + CASE WHEN p % 10 > 5 OR p % 10 = 5 AND (p / 10) % 2 = 1 THEN 1 ELSE 0 END) AS micros
  FROM (SELECT run, CAST(replace(kwh, '.', '') AS INTEGER) * 2837 AS p FROM phases) GROUP BY run
), made AS (
  SELECT run, sum(CAST(count AS INTEGER) * CAST(replace(replace(each, ' L', ''), '.', '') AS INTEGER)) AS millilitres
  FROM packs GROUP BY run
)
SELECT substr(runs.start, 1, 7) AS month, sum(millilitres), sum(cents) * 10000, sum(micros)
FROM runs JOIN loads USING (run) JOIN food USING (receipt) JOIN power USING (run) JOIN made USING (run) GROUP BY month ORDER BY month;
