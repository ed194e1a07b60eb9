WITH food AS (
  SELECT receipt, sum((CAST(replace(count, '.', '') AS BIGINT) * CAST(replace(price, '.', '') AS BIGINT) + 500) // 1000) AS cents
  FROM read_csv('receipts.csv', all_varchar = true) WHERE kind = 'food' GROUP BY receipt
), power AS (
  SELECT run, sum(p // 10 + CASE WHEN p % 10 > 5 OR p % 10 = 5 AND (p // 10) % 2 = 1 THEN 1 ELSE 0 END) AS micros
  FROM (SELECT run, CAST(replace(kwh, '.', '') AS BIGINT) * 2837 AS p FROM read_csv('phases.csv', all_varchar = true)) GROUP BY run
), packs AS (
  SELECT run, sum(CAST(count AS BIGINT) * CAST(replace(replace(each, ' L', ''), '.', '') AS BIGINT)) AS millilitres
  FROM read_csv('packs.csv', all_varchar = true) GROUP BY run
)
SELECT substr(runs.start, 1, 7) AS month, sum(millilitres) AS made, sum(cents) * 10000 AS food, sum(micros) AS electricity
FROM read_csv('runs.csv', all_varchar = true) AS runs JOIN read_csv('loads.csv', all_varchar = true) AS loads USING (run)
JOIN food USING (receipt) JOIN power USING (run) JOIN packs USING (run) GROUP BY month ORDER BY month
