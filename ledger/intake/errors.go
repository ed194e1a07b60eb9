package intake

import "errors"

// What a [ledger.Fault] says of a file that cannot be imported at all, for
// errors.Is. What is wrong with single rows has none of them.
var (
	// ErrFormat: the file is not a table that can be read.
	ErrFormat = errors.New("not a table that can be read")
	// ErrEncoding: the text is not of the encoding given, or of none known.
	ErrEncoding = errors.New("the encoding cannot be read")
	// ErrTooLarge: the file is beyond a limit.
	ErrTooLarge = errors.New("too large")
	// ErrNoSheet: the workbook has no sheet of that name.
	ErrNoSheet = errors.New("no such sheet")
	// ErrHeader: no row has the columns that the map reads.
	ErrHeader = errors.New("the columns are not there")
	// ErrAmbiguous: dates or numbers can be read in two ways.
	ErrAmbiguous = errors.New("can be read in two ways")
	// ErrMixed: dates or numbers are written in two ways that exclude each other.
	ErrMixed = errors.New("written in two ways")
	// ErrCurrency: prices by the hour are in another currency.
	ErrCurrency = errors.New("another currency")
	// ErrUnlikely: prices by the hour are hardly those of a kWh, or of a MWh.
	ErrUnlikely = errors.New("hardly a price")
)
