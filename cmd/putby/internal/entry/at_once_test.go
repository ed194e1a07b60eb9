package entry

import (
	"os"
	"testing"

	"putby/ledger/ledgertest"
)

// Nothing of its own runs at once: with the race detector, one that joins records and one that reads words.
func TestMain(m *testing.M) {
	os.Exit(ledgertest.AtOnce(m, TestVetFindsTheSameReceipt, TestNative).Run())
}
