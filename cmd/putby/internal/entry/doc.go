// Package entry turns what a person says into rows of a ledger: a line of a
// receipt in plain words, the next free identifier, the defaults that the
// ledger suggests. It writes nothing; the command layer hands the rows to
// ledger/folder.
//
// # Lines of a receipt
//
// [ParseBought] reads
//
//	[COUNT x] [SIZE] ITEM at PRICE [less AMOUNT] [offer OFFER] [tax AMOUNT]
//
// such as "2 x 500 g strawberries at 1.99 offer 3 for 5.00" or "1.234 x 1 kg
// pears at 2.49". [ParseAmount] reads a receipt-wide amount: "2.00" or "2.00 on
// 1,2".
package entry
