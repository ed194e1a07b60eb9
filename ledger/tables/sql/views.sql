
-- Foods side by side, as "putby compare" has them.
CREATE VIEW compare AS
SELECT c.household, c.item, c.unit, c.reconstituted, c.total, c.per_unit,
  quotient(CAST(c.total AS DECIMAL(20,9)) * f.serving, c.reconstituted) AS per_serving,
  quotient(c.total * 1000, NULLIF(e.kcal, 0)) AS per_1000_kcal,
  quotient(c.total * 100, NULLIF(e.protein, 0)) AS per_100g_protein,
  c.shelf_per_unit, c.saving_per_unit
FROM cost_by_item AS c
JOIN foods AS f ON f.household = c.household AND f.item = c.item
JOIN (
  SELECT household, item, SUM(kcal) AS kcal, SUM(protein) AS protein
  FROM run_costs WHERE reconstituted > 0 GROUP BY household, item
) AS e ON e.household = c.household AND e.item = c.item
WHERE c.reconstituted > 0;

-- What moved on a day, one row for each thing that did.
CREATE VIEW movements AS
SELECT household, date, kind AS what, cost AS money FROM purchases
UNION ALL SELECT household, date, 'electricity', electricity + lost_electricity FROM run_costs
UNION ALL SELECT household, date, 'lost', lost FROM run_costs
UNION ALL SELECT p.household, p.date, 'put by', p.total
  FROM packs AS p JOIN households AS h ON h.household = p.household WHERE p.date <= h.as_of
UNION ALL SELECT household, date, CASE kind WHEN 'supply' THEN 'supply gone' ELSE kind || ' ' || reason END, cost FROM draws;

-- What was spent, put by, used, lost and saved, as "putby month" has it.
CREATE VIEW month AS
WITH sums AS (
  SELECT m.household, m.month,
    COALESCE(SUM(money) FILTER (WHERE what = 'food'), 0) AS food_spent,
    COALESCE(SUM(money) FILTER (WHERE what = 'supply'), 0) AS supplies_spent,
    COALESCE(SUM(money) FILTER (WHERE what = 'machine'), 0) AS machines_spent,
    COALESCE(SUM(money) FILTER (WHERE what = 'service'), 0) AS services_spent,
    COALESCE(SUM(money) FILTER (WHERE what = 'other'), 0) AS other_spent,
    COALESCE(SUM(money) FILTER (WHERE what = 'electricity'), 0) AS electricity,
    COALESCE(SUM(money) FILTER (WHERE what = 'put by'), 0) AS put_by,
    COALESCE(SUM(money) FILTER (WHERE what = 'pack used'), 0) AS used,
    COALESCE(SUM(money) FILTER (WHERE what = 'pack given'), 0) AS given,
    COALESCE(SUM(money) FILTER (WHERE what = 'pack spoiled'), 0) AS spoiled,
    COALESCE(SUM(money) FILTER (WHERE what = 'pack missing'), 0) AS missing,
    COALESCE(SUM(money) FILTER (WHERE what = 'lost'), 0) AS lost,
    COALESCE(SUM(money) FILTER (WHERE what = 'fresh used'), 0) AS fresh_used,
    COALESCE(SUM(money) FILTER (WHERE what = 'fresh given'), 0) AS fresh_given,
    COALESCE(SUM(money) FILTER (WHERE what IN ('fresh spoiled', 'fresh missing')), 0) AS fresh_spoiled,
    COALESCE(SUM(money) FILTER (WHERE what = 'supply gone'), 0) AS supplies_gone
  FROM months AS m
  LEFT JOIN movements AS v ON v.household = m.household AND v.date BETWEEN m.month AND m.month_end
  GROUP BY m.household, m.month
), savings AS (
  SELECT m.household, m.month, SUM(d.shelf_value - d.cost) AS saved
  FROM months AS m
  JOIN draws AS d ON d.household = m.household AND d.date BETWEEN m.month AND m.month_end
  WHERE d.kind = 'pack' AND d.reason = 'used'
  GROUP BY m.household, m.month
), stores AS (
  SELECT sums.*, COALESCE(savings.saved, 0) AS saving,
    SUM(put_by - used - given - spoiled - missing) OVER (PARTITION BY sums.household ORDER BY sums.month) AS closing
  FROM sums LEFT JOIN savings ON savings.household = sums.household AND savings.month = sums.month
)
SELECT household, month, food_spent, supplies_spent, machines_spent, services_spent, other_spent, electricity,
  put_by, used, given, spoiled, missing, lost, fresh_used, fresh_given, fresh_spoiled,
  quotient(saving, 1) AS saved,
  quotient(saving - lost - spoiled - missing - fresh_spoiled, 1) AS net,
  closing - (put_by - used - given - spoiled - missing) AS opening,
  closing, supplies_gone
FROM stores;
