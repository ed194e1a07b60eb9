package serve

import (
	"os"
	"testing"

	"putby/ledger/ledgertest"
)

// With the race detector: what is kept between requests, who reads while others save,
// what is sent twice or slowly, and a browser that asks for several things at once.
func TestMain(m *testing.M) {
	os.Exit(ledgertest.AtOnce(m,
		TestCrowd, TestKeptIsNeverStale, TestPostsAtOnce, TestTapsWhileAnotherSaves, TestSavedAfterARestart, TestLookingWaitsForNobody,
		TestReadingGoesOnWhileFormsWait, TestASavedFormWithOtherWords, TestTwoAtOnce, TestManyButtonsForgetNoForm, TestAFormRecordsOnce,
		TestDamagedWhileSaving, TestLastWhole, TestNoReaderWaitsForASave, TestRefusedIsShownAtOnce, TestSlowSendersKeepNobodyWaiting, TestSlowReadersKeepNobodyWaiting, TestReadersKeepNoFormWaiting, TestDefects, TestSpareConnection,
		TestDevicesStay, TestEncrypted, TestCardGoesAlong, TestStartForm, TestUndoRedoAndChange, TestKitchenInBrowser,
	).Run())
}
