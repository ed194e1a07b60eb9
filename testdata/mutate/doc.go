// Mutate tries the tests: it changes one thing of a package's code at a time, as a
// slip would, and sees whether a test fails. What no test notices it prints, with
// file and line, for somebody to judge: some changes make no difference, the others
// want a test.
//
//	go run ./testdata/mutate -n 40 ./pricing ./ledger/figures
//
// It swaps comparisons, signs, arguments, ways of rounding and constants, turns
// conditions around and drops statements. The same seed makes the same choice.
// No file of the repository is touched: changed ones stand in for them by an
// overlay. A change is held against the quick tests of its package, and if they
// pass against those of the packages that import it.
package main
