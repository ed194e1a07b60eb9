package page

import (
	"os"
	"testing"

	"putby/ledger/ledgertest"
)

// With the race detector: a page of all reports. Whether pages can be made at once, the tests of serve see.
func TestMain(m *testing.M) {
	os.Exit(ledgertest.AtOnce(m, TestEveryFigureIsInATable).Run())
}
