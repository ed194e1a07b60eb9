package exact

import (
	"errors"
	"fmt"
	"strings"
)

// A Currency is an ISO 4217 currency and how many digits its minor unit has.
// Its zero value is no currency, with the empty code and no minor digits.
type Currency struct {
	code  string
	minor uint8 // from 0 to 4; 0 of no currency too
}

// The active currencies and funds of ISO 4217, list one, by the digits of their
// minor unit: as republished in the open table datasets/currency-codes (2025),
// without the codes that have no minor unit (metals, testing and the like).
var currencyCodes = [...]string{
	0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
	2: "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF " +
		"CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ " +
		"GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD " +
		"MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON " +
		"RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS " +
		"UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG",
	3: "BHD IQD JOD KWD LYD OMR TND",
	4: "CLF UYW",
}

// ErrCurrency is what every error of [ParseCurrency] is.
var ErrCurrency = errors.New("not an ISO 4217 currency code")

// ParseCurrency finds a currency by its three-letter code in capitals.
func ParseCurrency(code string) (Currency, error) {
	if len(code) == 3 && !strings.Contains(code, " ") {
		for minor, codes := range currencyCodes {
			if strings.Contains(codes, code) {
				return Currency{code, uint8(minor)}, nil
			}
		}
	}
	return Currency{}, fmt.Errorf("%s is %w, such as EUR", Quote(code), ErrCurrency)
}

// MustCurrency is ParseCurrency for constants; it panics on an error.
func MustCurrency(code string) Currency { return must(ParseCurrency(code)) }

// Code returns the three-letter code.
func (c Currency) Code() string { return c.code }

// Minor returns the digits of the minor unit, 0 to 4: what shops print.
func (c Currency) Minor() int { return int(c.minor) }

// Places returns the digits at which the ledger posts: four more than Minor.
func (c Currency) Places() int { return int(c.minor) + 4 }
