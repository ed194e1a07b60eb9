package main

import reports "putby/ledger/report"

// careOf is what to heed with the things that records of a kind are of.
var careOf = map[string]string{"machine": reports.MachineCare}

// boughtHelp says of kinds of things where what they cost is recorded.
var boughtHelp = map[string]string{
	"machine": "\n\nWhat it cost is a line of a receipt, and its wear is drawn from that:\nputby receipt add --shop \"Ferryside Tools\" \"shed 2900\".",
	"supply":  "\n\nWhat it cost is a line of a receipt, such as putby receipt add \"12 jar-2l 38.40\".",
}
