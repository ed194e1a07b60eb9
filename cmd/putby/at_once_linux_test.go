package main

import "testing"

// atOnce are the tests that have something that runs at once: several households,
// progress beside work, memory being watched, processes that save, wait and are
// stopped, conversations at a terminal. Elsewhere than on Linux it is all of them.
var atOnce = []func(*testing.T){
	TestScripts, TestHouseholdsWhateverTheWorkers, TestHouseholdsProgress, TestImportProgress, TestRunMeterProgress,
	TestDefect, TestOutOfMemory, TestWatchOver, TestExportIsWholeOrNot, TestExcerptOfReceipts, TestOneJoin,
	TestKilled, TestAtOnce, TestAskedMeanwhile, TestImportAsksFirst, TestImportAsksAgain, TestDryRunsTakeNoLock, TestWait,
	TestSavedOrNot, TestInterrupted, TestInterruptedInit, TestCtrlC, TestTerminalDialogues, TestStocktakeBrokenOff,
}
