package report_test

import (
	"os"
	"testing"

	"putby/ledger/ledgertest"
)

// With the race detector: reports of many households, and of one ledger at many dates.
func TestMain(m *testing.M) {
	os.Exit(ledgertest.AtOnce(m, TestSumsOverHouseholds, TestReportsOfMadeUpLedger).Run())
}
