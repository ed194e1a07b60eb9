// Mutate tries the tests: it changes one thing of a package's code at a time, as a
// slip would, and sees whether a test fails. What no test notices it prints, with
// file and line, for somebody to judge: some changes make no difference, the others
// want a test.
//
//	go run ./testdata/mutate -n 40 ./pricing ./ledger/figures
//
// It swaps comparisons, signs, arguments, ways of rounding and constants, turns
// conditions around or has them never hold, and drops statements. The same seed makes
// the same choice. All chosen changes are compiled at once, into copies of their
// functions that an overlay has stand in for the real ones: no file of the repository
// is touched, and a change takes as long as the tests that reach it. Those are the
// quick tests of its package and then of the packages that import it.
package main
