package ledger

import "putby/pricing/exact"

var receiptKind = kind("receipt", ReceiptsFile, []string{"receipt", "line"},
	func(r *Records) *[]ReceiptRow { return &r.Receipts },
	func(line int) ReceiptRow { return ReceiptRow{Line: line, Count: exact.Int(1)} },
	checkReceiptRow,
	need("receipt", func(c *cell, r *ReceiptRow) { r.Receipt = c.id() }, "identifier of the receipt"),
	need("date", func(c *cell, r *ReceiptRow) { r.Date = c.date() }, "day of purchase"),
	may("shop", func(c *cell, r *ReceiptRow) { r.Shop = c.text }, "who sold it"),
	may("line", func(c *cell, r *ReceiptRow) { r.Number = c.id() }, "the line's number in its receipt"),
	need("kind", func(c *cell, r *ReceiptRow) { r.Kind = ReceiptKind(c.word(receiptKinds)) },
		"food, supply, machine, service, other; or discount, tax, charge, deposit, total"),
	may("item", func(c *cell, r *ReceiptRow) { r.Item = c.text }, "a food, supply or machine; free text for other and service"),
	may("count", func(c *cell, r *ReceiptRow) { r.Count = c.signed() }, "packages (1); a fraction for goods sold loose; below 0 for supplies or a deposit taken back"),
	may("size", func(c *cell, r *ReceiptRow) { r.Size = c.above(c.amount(foodDims...)) }, "of one package, as bought"),
	need("price", func(c *cell, r *ReceiptRow) { r.Price = exact.MoneyOf(c.signed()) }, "of one package; the amount of receipt-wide kinds"),
	may("discount", func(c *cell, r *ReceiptRow) { r.Discount = c.money() }, "off the whole line"),
	may("tax", func(c *cell, r *ReceiptRow) { r.Tax = c.money() }, "on the whole line"),
	may("on", func(c *cell, r *ReceiptRow) { r.On = c.ids() }, "lines that a receipt-wide amount is for, such as 2,3 (all)"),
	may("note", func(c *cell, r *ReceiptRow) { r.Note = c.text }, ""),
)

// checkReceiptRow holds a line against its kind.
func checkReceiptRow(row *rowReader, r *ReceiptRow) {
	if r.Price.Sign() < 0 && r.Kind != DepositLine && r.Kind != TotalLine {
		row.fail("price", "a price is what one costs: what the shop takes back has a count below 0 (a deposit may have either, and with it a total)", "%v is below 0", r.Price)
	}
	switch r.Kind {
	case FoodLine, SupplyLine, MachineLine:
		item := cell{row: row, name: "item", text: r.Item}
		if item.id(); r.Item == "" {
			item.fail("write it in the column item", "a %v line needs the %v's identifier", r.Kind, r.Kind)
		}
	}
	if r.Count.Sign() < 0 {
		checkReturn(row, r)
	}
	switch {
	case r.Kind == FoodLine && r.Size.Sign() == 0:
		row.fail("size", "write the size of one package with its unit, such as 500 g or 1 ea", "a food line needs a size")
	case r.Kind == SupplyLine && r.Size.Given() && r.Size.Unit().Dimension() != exact.Count:
		row.fail("size", "write how many pieces a package holds, such as 12 ea", "a supply's size is a number of pieces")
	case r.Kind == MachineLine && r.Size.Sign() != 0:
		row.fail("size", "leave it blank", "a machine has no size")
	case r.Kind == MachineLine && !r.Count.Equal(exact.Int(1)):
		row.fail("count", "write a line for each machine", "a machine line is for 1 machine")
	}
	if !r.Kind.Bought() {
		checkAmountRow(row, r)
	}
	if !r.Kind.Wide() && len(r.On) > 0 {
		row.fail("on", "leave it blank", "only receipt-wide amounts are for other lines, not a %v", r.Kind)
	}
}

// checkReturn holds a line whose count is below 0 to what a shop takes back.
func checkReturn(row *rowReader, r *ReceiptRow) {
	switch {
	case r.Kind != SupplyLine && r.Kind != DepositLine:
		row.fail("count", "amend the receipt on which it was bought; only supplies and deposits are taken back by a count below 0", "%v is below 0", r.Count)
	case !r.Discount.IsZero() || !r.Tax.IsZero():
		row.fail("price", "write what was given back for each, all told, and leave discount and tax blank", "what is taken back has no discount or tax of its own")
	}
}

// checkAmountRow refuses what only a line of things bought has: on a row that
// is an amount it would be passed over without a word.
func checkAmountRow(row *rowReader, r *ReceiptRow) {
	if !r.Discount.IsZero() || !r.Tax.IsZero() {
		field := "discount"
		if r.Discount.IsZero() {
			field = "tax"
		}
		row.fail(field, "write the amount under price", "only a line of things bought has its own discount and tax, not a %v", r.Kind)
	}
	if r.Kind != DepositLine && !r.Count.Equal(exact.Int(1)) {
		row.fail("count", "write the whole amount under price", "a %v is one amount", r.Kind)
	}
}
