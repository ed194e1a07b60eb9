
-- What runs cost, as "putby cost --by KEY" has it: sums of run_costs. What is in
-- no pack yet counts with its losses alone.
CREATE VIEW cost_by_KEY AS
SELECT household, KEY, runs, unit, loaded, reconstituted, food, electricity, supplies, wear, labour, lost, total,
  quotient(total, NULLIF(reconstituted, 0)) AS per_unit,
  quotient(total + lost, NULLIF(reconstituted, 0)) AS per_unit_with_loss,
  quotient(value, NULLIF(priced, 0)) AS shelf_per_unit,
  quotient(ratio(value, NULLIF(priced, 0)) - ratio(total, NULLIF(reconstituted, 0)), 1) AS saving_per_unit,
  quotient(value - priced_total, 1) AS saving,
  quotient(energy, 1) AS kwh
FROM (
  SELECT household, EXPRESSION AS KEY, unit,
    COUNT(*) FILTER (WHERE reconstituted > 0) AS runs,
    COALESCE(SUM(loaded) FILTER (WHERE reconstituted > 0), 0) AS loaded,
    SUM(reconstituted) AS reconstituted,
    COALESCE(SUM(food) FILTER (WHERE reconstituted > 0), 0) AS food,
    COALESCE(SUM(electricity) FILTER (WHERE reconstituted > 0), 0) AS electricity,
    COALESCE(SUM(supplies) FILTER (WHERE reconstituted > 0), 0) AS supplies,
    COALESCE(SUM(wear) FILTER (WHERE reconstituted > 0), 0) AS wear,
    COALESCE(SUM(labour) FILTER (WHERE reconstituted > 0), 0) AS labour,
    SUM(lost) AS lost,
    COALESCE(SUM(total) FILTER (WHERE reconstituted > 0), 0) AS total,
    COALESCE(SUM(kwh) FILTER (WHERE reconstituted > 0), 0) AS energy,
    SUM(shelf_value) FILTER (WHERE reconstituted > 0) AS value,
    SUM(reconstituted) FILTER (WHERE shelf_value IS NOT NULL) AS priced,
    SUM(total) FILTER (WHERE reconstituted > 0 AND shelf_value IS NOT NULL) AS priced_total
  FROM run_costs GROUP BY household, EXPRESSION, unit
) AS sums;
