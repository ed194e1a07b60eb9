package locale

// facts are what CLDR says of a locale. Patterns are CLDR's: # stands for a
// number, ¤ for the sign of a currency; of dates, d and M are days and months
// without a zero in front, dd and MM with one, MMM is the month's short name and
// y the year.
type facts struct {
	tag      string
	point    string // before the decimals
	group    string // between thousands
	money    string // a sum
	owed     string // one below zero; empty: the minus, then money
	percent  string
	date     string // English: the medium pattern; others: the short one, with the whole year
	figures  string // English: the short pattern, with the whole year, of a date that is typed without words; others: as date
	month    string // English: yMMM; others: yM, but MM/y where only a point joins its digits: 1.2025 reads as a decimal
	currency string // of the region
	sign     string // of that currency

	moneyPoint, moneyGroup string // where they differ in sums
	minus                  string // empty: -
	later                  int    // digits between separators after the first; 0: 3
	least                  int    // digits before the first separator of a number; 0: 1
}

const (
	nbsp   = "\u00a0" // no-break space
	narrow = "\u202f" // narrow no-break space
	minus  = "\u2212"
)

var table = [...]facts{
	{tag: "cs-CZ", point: ",", group: nbsp, money: "# ¤", percent: "# %", date: "dd.MM.y", month: "M/y", currency: "CZK", sign: "Kč"},
	{tag: "da-DK", point: ",", group: ".", money: "# ¤", percent: "# %", date: "dd.MM.y", month: "MM/y", currency: "DKK", sign: "kr."},
	{tag: "de-AT", point: ",", group: nbsp, money: "¤ #", percent: "# %", date: "dd.MM.y", month: "MM/y", currency: "EUR", sign: "€", moneyGroup: "."},
	{tag: "de-CH", point: ".", group: "’", money: "¤ #", owed: "¤-#", percent: "#%", date: "dd.MM.y", month: "MM/y", currency: "CHF", sign: "CHF"},
	{tag: "de-DE", point: ",", group: ".", money: "# ¤", percent: "# %", date: "dd.MM.y", month: "MM/y", currency: "EUR", sign: "€"},
	{tag: "de-LU", point: ",", group: ".", money: "# ¤", percent: "# %", date: "dd.MM.y", month: "MM/y", currency: "EUR", sign: "€"},
	{tag: "en-AU", point: ".", group: ",", money: "¤#", percent: "#%", date: "d MMM y", figures: "d/M/y", month: "MMM y", currency: "AUD", sign: "$"},
	{tag: "en-CA", point: ".", group: ",", money: "¤#", percent: "#%", date: "MMM d, y", figures: "y-MM-dd", month: "MMM y", currency: "CAD", sign: "$"},
	{tag: "en-GB", point: ".", group: ",", money: "¤#", percent: "#%", date: "d MMM y", figures: "dd/MM/y", month: "MMM y", currency: "GBP", sign: "£"},
	{tag: "en-IE", point: ".", group: ",", money: "¤#", percent: "#%", date: "d MMM y", figures: "dd/MM/y", month: "MMM y", currency: "EUR", sign: "€"},
	{tag: "en-IN", point: ".", group: ",", money: "¤#", percent: "#%", date: "dd-MMM-y", figures: "dd/MM/y", month: "MMM y", currency: "INR", sign: "₹", later: 2},
	{tag: "en-NZ", point: ".", group: ",", money: "¤#", percent: "#%", date: "d/MM/y", figures: "d/MM/y", month: "MMM y", currency: "NZD", sign: "$"},
	{tag: "en-US", point: ".", group: ",", money: "¤#", percent: "#%", date: "MMM d, y", figures: "M/d/y", month: "MMM y", currency: "USD", sign: "$"},
	{tag: "en-ZA", point: ",", group: nbsp, money: "¤#", percent: "#%", date: "dd MMM y", figures: "y/MM/dd", month: "MMM y", currency: "ZAR", sign: "R"},
	{tag: "es-ES", point: ",", group: ".", money: "# ¤", percent: "# %", date: "d/M/y", month: "M/y", currency: "EUR", sign: "€", least: 2},
	{tag: "es-MX", point: ".", group: ",", money: "¤#", percent: "# %", date: "dd/MM/y", month: "M/y", currency: "MXN", sign: "$"},
	{tag: "et-EE", point: ",", group: nbsp, money: "# ¤", percent: "#%", date: "dd.MM.y", month: "MM/y", currency: "EUR", sign: "€", minus: minus, least: 2},
	{tag: "fi-FI", point: ",", group: nbsp, money: "# ¤", percent: "# %", date: "d.M.y", month: "MM/y", currency: "EUR", sign: "€", minus: minus},
	{tag: "fr-BE", point: ",", group: narrow, money: "# ¤", percent: "# %", date: "d/MM/y", month: "MM/y", currency: "EUR", sign: "€"},
	{tag: "fr-CA", point: ",", group: nbsp, money: "# ¤", percent: "# %", date: "y-MM-dd", month: "y-MM", currency: "CAD", sign: "$"},
	{tag: "fr-CH", point: ",", group: narrow, money: "# ¤", percent: "#%", date: "dd.MM.y", month: "MM/y", currency: "CHF", sign: "CHF", moneyPoint: "."},
	{tag: "fr-FR", point: ",", group: narrow, money: "# ¤", percent: "# %", date: "dd/MM/y", month: "MM/y", currency: "EUR", sign: "€"},
	{tag: "hu-HU", point: ",", group: nbsp, money: "# ¤", percent: "#%", date: "y. MM. dd.", month: "y. M.", currency: "HUF", sign: "Ft"},
	{tag: "is-IS", point: ",", group: ".", money: "# ¤", percent: "#%", date: "d.M.y", month: "M. y", currency: "ISK", sign: "ISK"},
	{tag: "it-IT", point: ",", group: ".", money: "# ¤", percent: "#%", date: "dd/MM/y", month: "M/y", currency: "EUR", sign: "€"},
	{tag: "ja-JP", point: ".", group: ",", money: "¤#", percent: "#%", date: "y/MM/dd", month: "y/M", currency: "JPY", sign: "￥"},
	{tag: "lt-LT", point: ",", group: nbsp, money: "# ¤", percent: "# %", date: "y-MM-dd", month: "y-MM", currency: "EUR", sign: "€", minus: minus},
	{tag: "lv-LV", point: ",", group: nbsp, money: "# ¤", percent: "#%", date: "dd.MM.y", month: "MM/y", currency: "EUR", sign: "€", least: 2},
	{tag: "nb-NO", point: ",", group: nbsp, money: "¤ #", owed: "¤ -#", percent: "# %", date: "dd.MM.y", month: "MM/y", currency: "NOK", sign: "kr", minus: minus},
	{tag: "nl-BE", point: ",", group: ".", money: "¤ #", owed: "¤ -#", percent: "#%", date: "d/MM/y", month: "M/y", currency: "EUR", sign: "€"},
	{tag: "nl-NL", point: ",", group: ".", money: "¤ #", owed: "¤ -#", percent: "#%", date: "dd-MM-y", month: "M-y", currency: "EUR", sign: "€"},
	{tag: "pl-PL", point: ",", group: nbsp, money: "# ¤", percent: "#%", date: "d.MM.y", month: "MM/y", currency: "PLN", sign: "zł", least: 2},
	{tag: "pt-BR", point: ",", group: ".", money: "¤ #", percent: "#%", date: "dd/MM/y", month: "MM/y", currency: "BRL", sign: "R$"},
	{tag: "pt-PT", point: ",", group: nbsp, money: "# ¤", percent: "#%", date: "dd/MM/y", month: "MM/y", currency: "EUR", sign: "€", least: 2},
	{tag: "sk-SK", point: ",", group: nbsp, money: "# ¤", percent: "# %", date: "d. M. y", month: "M/y", currency: "EUR", sign: "€"},
	{tag: "sl-SI", point: ",", group: ".", money: "# ¤", percent: "# %", date: "d. MM. y", month: "M/y", currency: "EUR", sign: "€", minus: minus},
	{tag: "sv-SE", point: ",", group: nbsp, money: "# ¤", percent: "# %", date: "y-MM-dd", month: "y-MM", currency: "SEK", sign: "kr", minus: minus},
}
