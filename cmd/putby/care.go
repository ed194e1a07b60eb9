package main

import reports "putby/ledger/report"

// careOf is what to heed with the things that records of a kind are of.
var careOf = map[string]string{"machine": reports.MachineCare}
