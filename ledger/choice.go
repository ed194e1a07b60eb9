package ledger

// A Choice is what a person may say that a file or a folder does not tell. A fault
// carries the one that would mend it; the program that shows the fault says how it
// is said there, with the fault's Hint before it or in it.
type Choice uint8

// The choices.
const (
	NoChoice       Choice = iota
	WhichLedger           // the ledger's folder
	ThisLedger            // that the folder itself is the ledger which is meant
	DateOrder             // the order of day, month and year
	MainDateOrder         // the order of most dates, where they differ
	DecimalSign           // the decimal sign of numbers
	FileZone              // the zone of a file's clock, which is not the ledger's
	OtherZone             // the same, where the clock may be another zone's
	OtherZoneOrOne        // the same of prices that overlap: or one of them is to go
	PerKWh                // that prices are for a kWh
	PerMWh                // that prices are for a MWh
	PriceColumn           // the column of prices; Hint: one that may be it
	NameMeaning           // what the ledger calls a thing; Hint: what the file calls it
	NameSize              // how much a package of it holds
	DaysAhead             // that a day still to come is meant
	WhichTariff           // the tariff that prices are of; Hint: one that it may be
	BandsFrom             // the day from which a tariff has bands of another sort
	PutInPlace            // that a file takes the place of the one that is there
	OtherPrices           // another day or name, of prices that are there

	Choices // how many there are
)
