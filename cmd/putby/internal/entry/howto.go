package entry

import "putby/ledger"

// HowTo explains in lines how the cells of a column are typed.
func HowTo(c *ledger.Column) string {
	if c.Own {
		return "A short name of your own for it: letters, digits, '-', '_' and '.', no blanks."
	}
	return map[ledger.CellType]string{
		ledger.DateCell:     "A day: 2025-11-20, today, yesterday or sat (the last one).",
		ledger.MomentCell:   "A day and a time: 2025-11-20 18:05, yesterday 18:05 or sat 7:30.",
		ledger.ClockCell:    "A time of day, such as 07:00.",
		ledger.DurationCell: "How long: 40m, 8h24m or 2 hours 30 minutes.",
		ledger.AmountCell:   "An amount with its unit, such as 2.5 kg, 3 lb or 1 L; of pieces the number.",
		ledger.MoneyCell:    "An amount of money, such as 3.99.",
		ledger.PercentCell:  "A number of per cent, such as 5.",
		ledger.SuppliesCell: "How many of each, with commas between: 1 jar-1l, 1 lid.",
		ledger.FoodsCell:    "How much of each, with commas between: 2 kg leeks, 0.5 L cream.",
		ledger.ListCell:     "Parts with commas between, as the question shows.",
		ledger.NumberCell:   "A number.",
		ledger.WholeCell:    "A whole number.",
	}[c.Cell]
}
