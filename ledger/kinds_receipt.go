package ledger

import (
	"strings"

	"putby/pricing/exact"
)

// This file describes receipts.csv, and what a row must and must not have, by its kind.

func receiptKind() Kind {
	return listed(Kind{Name: "receipt", File: ReceiptsFile, Key: []string{ReceiptColumn, LineColumn},
		Short: "what was bought", Long: "what was bought"},
		func(r *Records) lister[ReceiptRow] { return &r.Receipts },
		func(line int) ReceiptRow { return ReceiptRow{Line: line, Count: exact.Int(1)} },
		checkReceiptRow,
		id(Receipts, func(r *ReceiptRow, s string) { r.Receipt = s }, "identifier of the receipt").defaults(Next),
		day(func(r *ReceiptRow, d exact.Date) { r.Date = d }, "day of purchase"),
		text("shop", func(r *ReceiptRow, s string) { r.Shop = s }, "who sold it").of(Shops).open(),
		ref(LineColumn, func(r *ReceiptRow, s string) { r.Number = s }, "the line's number in its receipt").main(),
		word("kind", receiptKinds, func(r *ReceiptRow, k ReceiptKind) { r.Kind = k },
			strings.Join(receiptKinds[:DiscountLine], ", ")+"; or "+strings.Join(receiptKinds[DiscountLine:], ", ")).need(),
		text(ItemColumn, func(r *ReceiptRow, s string) { r.Item = s }, "a food, supply or machine; free text for other and service").of(Foods, Supplies, Machines).open().main(),
		read("count", NumberCell, (*cell).signed, func(r *ReceiptRow, n exact.Number) { r.Count = n },
			"how many packages (1); a fraction for goods sold loose; below 0 for supplies or a deposit taken back").label("packages").main(),
		amount("size", func(r *ReceiptRow, q exact.Quantity) { r.Size = q }, "what one package holds, as bought").label("size of one").main(),
		read("price", MoneyCell, (*cell).signed, func(r *ReceiptRow, n exact.Number) { r.Price = exact.MoneyOf(n) }, "of one package; of a discount, tax, charge, deposit or total of the whole receipt, its amount").need(),
		money("discount", func(r *ReceiptRow, m exact.Money) { r.ownAmounts().Discount = m }, "taken off this line in all").label("discount on this line"),
		money("tax", func(r *ReceiptRow, m exact.Money) { r.ownAmounts().Tax = m }, "added to this line in all").label("tax on this line"),
		read("on", ListCell, (*cell).ids, func(r *ReceiptRow, list []string) { r.ownAmounts().On = list }, "of a discount, tax or charge of the whole receipt: which lines it is for, such as 2,3").label("for the lines").blank("all"),
		note(func(r *ReceiptRow, s string) { r.ownRest().Note = s }),
	)
}

// checkReceiptRow holds a line against its kind.
func checkReceiptRow(row *rowReader, r *ReceiptRow) {
	if r.Price.Sign() < 0 && r.Kind != DepositLine && r.Kind != TotalLine {
		row.fail("price", "a price is what one costs: what the shop takes back has a count below 0 (a deposit may have either, and with it a total)", "%v is below 0", r.Price)
	}
	switch r.Kind {
	case FoodLine, SupplyLine, MachineLine:
		// Of these alone it names a record; of service and other it may be free text.
		item := cell{row: row, name: ItemColumn, text: r.Item}
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
	if !r.Kind.Wide() && len(r.On()) > 0 {
		row.fail("on", "leave it blank", "only receipt-wide amounts are for other lines, not a %v", r.Kind)
	}
}

// checkReturn holds a line whose count is below 0 to what a shop takes back.
func checkReturn(row *rowReader, r *ReceiptRow) {
	switch {
	case r.Kind != SupplyLine && r.Kind != DepositLine:
		row.fail("count", "edit the receipt on which it was bought; only supplies and deposits are taken back by a count below 0", "%v is below 0", r.Count)
	case !r.Discount().IsZero() || !r.Tax().IsZero():
		row.fail("price", "write what was given back for each in all, and leave discount and tax blank", "what is taken back has no discount or tax of its own")
	}
}

// checkAmountRow refuses what only a line of things bought has: on a row that
// is an amount it would be passed over without a word.
func checkAmountRow(row *rowReader, r *ReceiptRow) {
	if !r.Discount().IsZero() || !r.Tax().IsZero() {
		field := "discount"
		if r.Discount().IsZero() {
			field = "tax"
		}
		row.fail(field, "write the amount under price", "only a line of things bought has its own discount and tax, not a %v", r.Kind)
	}
	if r.Kind != DepositLine && !r.Count.Equal(exact.Int(1)) {
		row.fail("count", "write the whole amount under price", "a %v is one amount", r.Kind)
	}
}
